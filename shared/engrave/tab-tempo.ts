import type { Feel, Tempo } from '../lesson/syntax/words.ts';
import { isCompound, type Meter } from '../theory/meter.ts';
import { group, type Item } from './drawing.ts';
import { feelText } from './sheet-tempo.ts';
import { SIZES } from './sizes.ts';
import type { Piece } from './tab-piece.ts';
import { textWidth } from './text-width.ts';
import { type MusicSignName, sizedSign } from './type/music-sign.ts';

/** How fast the music goes, and how its eighths are played. */
export interface Pace {
  readonly tempo?: Tempo;
  readonly feel: Feel;
  readonly meter: Meter;
}

/** Notes of a metronome mark, by the part of a whole note. */
const NOTES: Readonly<Record<number, MusicSignName>> = {
  2: 'metNoteHalfUp',
  4: 'metNoteQuarterUp',
  8: 'metNote8thUp',
  16: 'metNote16thUp',
};

const SPACE = SIZES.tempoSpace;

/** The metronome mark over the first bar, `♩ = 60 to 84`, with the feel where it is not straight. Nothing where neither is to be said. */
export function pacePiece({ tempo, feel, meter }: Pace): Piece | undefined {
  const items: Item[] = [];
  let x = 0;
  const write = (text: string): void => {
    items.push({ kind: 'text', x, y: 0, text, size: SIZES.tempo, anchor: 'start', role: 'word', ink: 'strong' });
    x += textWidth(text, 'word', SIZES.tempo);
  };
  const compound = isCompound(meter);
  const unit = tempo?.unit ?? (compound ? meter.unit / 2 : meter.unit);
  const name = NOTES[unit];
  if (tempo !== undefined && name !== undefined) {
    const note = sizedSign(name, SPACE);
    items.push(group(-note.left, 0, [note.item]));
    x = note.right - note.left;
    if (compound && tempo.unit === undefined) {
      const dot = sizedSign('metAugmentationDot', SPACE);
      items.push(group(x + SPACE * 0.3, 0, [dot.item]));
      x += SPACE * 0.3 + dot.right;
    }
    x += SPACE * 1.1;
    write(`= ${tempo.from === tempo.to ? tempo.from : `${tempo.from} to ${tempo.to}`}`);
  }
  if (feel.kind !== 'straight') {
    if (x > 0) x += SIZES.tempo;
    write(feelText(feel));
  }
  return items.length === 0 ? undefined : { row: 'tempo', left: 0, right: x, items };
}
