import type { Item } from './drawing.ts';
import { SIZES } from './sizes.ts';
import type { PlacedNote } from './tab-notes.ts';
import type { Piece, Sign } from './tab-piece.ts';
import { textWidth } from './text-width.ts';

/** Between a letter and the wedge of a rest stroke behind it. Unit: mm. */
const REST_STROKE_GAP_MM = 0.35;

/** Finger letters under the staff, the highest string's on top, and left-hand fingers in a row of their own. */
export function handPieces(notes: readonly PlacedNote[]): readonly Piece[] {
  const pieces: Piece[] = [];
  const sorted = [...notes].sort((a, b) => a.note.string - b.note.string);
  const picked = sorted.filter(({ note }) => note.finger !== undefined || note.restStroke);
  if (picked.length > 0) {
    const step = SIZES.count * 1.02;
    const items: Item[] = [];
    const signs: Sign[] = [];
    const half = Math.max(...picked.map(({ note }) => textWidth(note.finger ?? '', 'count', SIZES.count) / 2));
    const wedge = half + REST_STROKE_GAP_MM;
    picked.forEach(({ note }, index) => {
      const y = index * step;
      if (note.finger !== undefined) {
        signs.push('picking-fingers');
        items.push({
          kind: 'text',
          x: 0,
          y,
          text: note.finger,
          size: SIZES.count,
          anchor: 'middle',
          role: 'count',
          ink: 'strong',
        });
      }
      if (note.restStroke) {
        signs.push('rest-stroke');
        items.push({
          kind: 'path',
          steps: [
            ['M', wedge, y],
            ['L', wedge + 0.65, y - 1.5],
            ['L', wedge + 1.3, y],
          ],
          ink: 'strong',
          thickness: 0.28,
        });
      }
    });
    const right = picked.some(({ note }) => note.restStroke) ? wedge + 1.6 : half;
    pieces.push({ row: 'finger', left: half, right, items, height: picked.length * step + 0.6, signs });
  }
  const stopped = sorted.filter(({ note }) => note.leftFinger !== undefined && note.leftFinger !== 0);
  if (stopped.length > 0) {
    const step = SIZES.small * 0.95;
    const items = stopped.map(
      ({ note }, index): Item => ({
        kind: 'text',
        x: 0,
        y: index * step,
        text: String(note.leftFinger),
        size: SIZES.small,
        anchor: 'middle',
        role: 'number',
        ink: 'strong',
      }),
    );
    pieces.push({
      row: 'left-hand',
      left: 0.8,
      right: 0.8,
      items,
      height: stopped.length * step + 0.6,
      signs: ['left-hand-fingers'],
    });
  }
  return pieces;
}
