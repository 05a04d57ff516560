import type { PickFinger, Technique } from '../../lesson/syntax/marks.ts';
import type { Beam, NoteValue, Tuplet } from '../../score/rhythm-line.ts';
import type { Rational } from '../../theory/rational.ts';
import type { Knock } from '../percussion.ts';

/** How the fretting hand leads from one written note to another. */
export interface Link {
  readonly kind: 'hammer-on' | 'pull-off' | 'slide';
  readonly end: 'start' | 'stop';
}

/** A string as one written note has it. */
export interface WrittenNote {
  readonly kind: 'string';
  readonly string: number;
  /** As struck. Quick hammer-ons, pull-offs and slides among the techniques lead on from there. */
  readonly fret: number;
  readonly techniques: readonly Technique[];
  readonly finger?: PickFinger;
  readonly leftFinger?: number | 'T';
  readonly accent: boolean;
  readonly restStroke: boolean;
  /** Barely touched. */
  readonly light: boolean;
  /** Damped: struck without its pitch. */
  readonly dead: boolean;
  /** The sound of the written note before goes on. */
  readonly tiedFrom: boolean;
  readonly tiedOn: boolean;
  readonly links: readonly Link[];
}

/** A knock on strings or wood. */
export interface WrittenKnock {
  readonly kind: 'knock';
  readonly place: Knock;
  readonly string?: number;
  readonly accent: boolean;
}

/** How the strumming hand strikes all notes of an entry. */
export interface WrittenStroke {
  readonly direction: 'down' | 'up';
  /** Spread, so that the strings are heard one after another. */
  readonly spread: boolean;
  /** `roll`, `chunk` or `slide`, where a plain stroke would not say it. */
  readonly says?: string;
}

/** A note, a chord or, with nothing in it, a rest. */
export interface WrittenEntry {
  readonly at: Rational;
  readonly length: Rational;
  readonly value: NoteValue;
  readonly dots: number;
  /** The rest of an empty bar. */
  readonly wholeBar: boolean;
  readonly notes: readonly (WrittenNote | WrittenKnock)[];
  readonly stroke?: WrittenStroke;
}

/** One line of rhythm in a bar with all that is in it. */
export interface WrittenVoice {
  readonly side: 'above' | 'below';
  readonly entries: readonly WrittenEntry[];
  readonly beams: readonly Beam[];
  readonly tuplets: readonly Tuplet[];
}
