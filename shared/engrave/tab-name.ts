import { setChordName } from './chord-name.ts';
import type { Item } from './drawing.ts';
import { SIZES } from './sizes.ts';
import type { Piece } from './tab-piece.ts';
import { textWidth } from './text-width.ts';

/** From a chord name's left edge to the moment it belongs to. Unit: mm. */
export const NAME_LEAD_MM = 1.3;

/** Height of a row of names, and how much more it takes where something is raised, so that no diagram over it is touched. */
export const NAME_HEIGHT_MM = 5.6;
const RAISED_MM = 0.7;

/** A chord's name over the staff, underlined with dashes where the lesson gives no shape for it; N.C. where there is no chord. */
export function namePiece(chord: { readonly name: string; readonly assumed: boolean } | undefined): Piece {
  if (chord === undefined) {
    const size = SIZES.chordName * 0.8;
    const right = textWidth('N.C.', 'name', size) - NAME_LEAD_MM;
    const anchor = 'start';
    const name: Item = {
      kind: 'text',
      x: -NAME_LEAD_MM,
      y: 0,
      text: 'N.C.',
      size,
      anchor,
      role: 'name',
      ink: 'strong',
    };
    return { row: 'name', left: NAME_LEAD_MM, right, items: [name], signs: ['no-chord'] };
  }
  const set = setChordName(chord.name, SIZES.chordName);
  const items: Item[] = [{ kind: 'group', x: -NAME_LEAD_MM, y: 0, items: set.items, spelled: chord.name }];
  if (chord.assumed) {
    const steps = [
      ['M', -NAME_LEAD_MM, 1],
      ['L', set.width - NAME_LEAD_MM, 1],
    ] as const;
    items.push({ kind: 'path', steps, ink: 'strong', thickness: 0.26, dashed: true });
  }
  return {
    row: 'name',
    left: NAME_LEAD_MM,
    right: set.width - NAME_LEAD_MM,
    items,
    ...(set.raised ? { height: NAME_HEIGHT_MM + RAISED_MM } : {}),
    ...(chord.assumed ? { signs: ['assumed-name'] as const } : {}),
  };
}
