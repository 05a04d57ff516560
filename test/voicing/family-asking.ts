import type { Instrument } from '../../shared/neck/instrument.ts';
import { printShape } from '../../shared/neck/shape.ts';
import { readAllowance } from '../../shared/voicing/family/allowance.ts';
import { familiesOf } from '../../shared/voicing/family/families.ts';
import type { Family, FamilyRequest } from '../../shared/voicing/family/request.ts';
import { HIGH_G, shape } from '../neck/playing.ts';
import { chord, key, reading } from '../theory/reading.ts';

/** A family asked for in a few words. */
export interface Asking {
  readonly on?: Instrument;
  readonly ring?: readonly number[];
  readonly within?: readonly [number, number];
  readonly allow?: string;
  readonly key?: string;
  readonly pins?: Readonly<Record<string, string>>;
  readonly hand?: FamilyRequest['hand'];
  readonly hardest?: number;
  readonly count?: number;
  readonly seconds?: number;
}

export function requestOf(chords: string, asking: Asking = {}): FamilyRequest {
  const { on = HIGH_G, allow = '', pins = {}, ring, within, hand, hardest, count, seconds } = asking;
  return {
    instrument: on,
    chords: chords.split(' ').map(chord),
    allow: reading(readAllowance(allow.split(' ').filter((word) => word !== ''))),
    pins: Object.entries(pins).map(([name, frets]) => ({ chord: chord(name), shape: shape(frets) })),
    ...(ring === undefined ? {} : { ring }),
    ...(within === undefined ? {} : { within }),
    ...(asking.key === undefined ? {} : { key: key(asking.key) }),
    ...(hand === undefined ? {} : { hand }),
    ...(hardest === undefined ? {} : { hardest }),
    ...(count === undefined ? {} : { count }),
    ...(seconds === undefined ? {} : { secondsPerChord: seconds }),
  };
}

/** The families, of which there must be one at least. */
export function familiesFor(chords: string, asking: Asking = {}): readonly Family[] {
  const answer = familiesOf(requestOf(chords, asking));
  if (answer.kind === 'none') throw new Error(answer.reasons.join(' '));
  if (!answer.settled) throw new Error('given up');
  return answer.families;
}

/** What stands in the way of a family; there must be none. */
export function reasonsFor(chords: string, asking: Asking = {}): readonly string[] {
  const answer = familiesOf(requestOf(chords, asking));
  if (answer.kind === 'families') throw new Error('there is one');
  return answer.reasons;
}

/** `2-2-1-0 4-4-3-0`: the shapes of a family as its progression is played. */
export function shapesOf({ chords }: Family): string {
  return chords.map((one) => printShape(one.shape)).join(' ');
}

/** `Dm Em(add11)` */
export function namesTold({ chords }: Family): string {
  return chords.map(({ as }) => as).join(' ');
}
