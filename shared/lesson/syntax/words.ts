import type { Fault } from '../../text/problem.ts';
import type { Span } from '../../text/span.ts';
import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import type { Meter } from '../../theory/meter.ts';

/** A word as the teacher wrote it, with typographic dashes, quotes and full-width signs read as their plain forms. */
export interface Word {
  readonly text: string;
  readonly span: Span;
}

/** A chord as it is used: `Em`, `Em.high`. `symbol` is absent where the name says nothing that the trade knows. */
export interface ChordName {
  /** Name and label as written, the key under which its shape is looked up. */
  readonly text: string;
  readonly name: string;
  readonly label?: string;
  readonly symbol?: ChordSymbol;
  /** What is wrong with the name where there is no symbol; its span counts from the start of the name. */
  readonly fault?: Fault;
  readonly span: Span;
}

/** A member of a list: one name, or several that sound at once (`roll + climb`), as often as `x2` says. */
export interface ListMember {
  readonly names: readonly Word[];
  readonly times: number;
  readonly span: Span;
}

/** `60 to 92 by 4 every 2`; a single tempo has `from` equal to `to`. Beats a minute, or of `unit` where that is given. */
export interface Tempo {
  readonly from: number;
  readonly to: number;
  readonly by?: number;
  readonly everyPasses?: number;
  /** The note value that is counted: 8 for `eighths`. Absent: the meter's beat. */
  readonly unit?: number;
}

export type Feel =
  | { readonly kind: 'straight' }
  | { readonly kind: 'swing'; readonly long: number; readonly short: number; readonly unit: 8 | 16 };

export interface MeterChange {
  readonly meter: Meter;
  readonly span: Span;
}

/** The names of a list, one after the other. */
export function namesIn(members: readonly ListMember[] | undefined): readonly Word[] {
  return members?.flatMap((member) => member.names) ?? [];
}
