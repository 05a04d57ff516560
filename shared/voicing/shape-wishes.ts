import type { Shape } from '../neck/shape.ts';
import { printShape } from '../neck/shape.ts';
import type { Note, Pitch } from '../theory/note.ts';
import { printNote } from '../theory/note.ts';
import type { Role } from '../theory/role.ts';
import { printRole } from '../theory/role.ts';

/** What is asked of the shapes beside the chord. All of it holds for every shape that is returned; `near` only orders them. */
export interface ShapeWishes {
  /** At most so many; 24 when nothing is said. Fewer are found sooner. */
  readonly max?: number;
  /** Lowest and highest fret that may be stopped, as the hand counts them; open strings are free. */
  readonly within?: readonly [low: number, high: number];
  /** The shape that the hand comes from: those that it moves to with little way come first. */
  readonly near?: Shape;
  /** Numbers of the strings (1 is nearest the floor) that stay open and ring. None is found when the instrument has no such string. */
  readonly ringOpen?: readonly number[];
  /** Numbers of the strings that sound, open or stopped. None is found when the instrument has no such string. */
  readonly sounding?: readonly number[];
  /** Numbers of the strings that stay silent. Others may be silent too. */
  readonly muted?: readonly number[];
  /** What sounds highest, on whatever string: a note in any octave, or one pitch, as the given instrument sounds it with its capo. */
  readonly top?: Note | Pitch;
  /** What sounds lowest, on whatever string, by what it is to the root: the third asks for the first inversion. */
  readonly bass?: Role;
  /** The tones that may be left out, instead of those that players leave out: none at all for an empty list. */
  readonly mayOmit?: readonly Role[];
  /** Tones beyond the chord that may sound too: the ninth of an added ninth. Shapes without them come first. */
  readonly mayAdd?: readonly Role[];
}

export const USUAL_MAX = 24;

/** The same text for the same wishes: what is kept is found again by it. */
export function printWishes(wishes: ShapeWishes): string {
  const { max = USUAL_MAX, within, near, ringOpen, sounding, muted, top, bass, mayOmit, mayAdd } = wishes;
  const roles = (list: readonly Role[] | undefined) => list?.map((role) => printRole(role)).join('.') ?? '-';
  return [
    max,
    within?.join('-') ?? '',
    near === undefined ? '' : printShape(near),
    ringOpen?.join('.') ?? '',
    sounding?.join('.') ?? '',
    muted?.join('.') ?? '',
    top === undefined ? '' : `${printNote(top)}${'octave' in top ? top.octave : ''}`,
    bass === undefined ? '' : printRole(bass),
    roles(mayOmit),
    roles(mayAdd),
  ].join(' ');
}
