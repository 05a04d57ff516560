import { compare, type Rational } from '../theory/rational.ts';
import type { ScoreBar, ScoreEvent } from './timeline.ts';

/** True where a picked string rings until something stops it; else it ends as it is written. */
export function ringsOn(event: Extract<ScoreEvent, { kind: 'notes' }>, string: number): boolean {
  const ring = event.ring ?? { kind: event.layer === 'tune' ? ('none' as const) : ('all' as const) };
  return ring.kind === 'strings' ? ring.strings.includes(string) : ring.kind === 'all';
}

/** Strings that were struck in this bar before a time, and that no change of chord or other stroke has put out since. */
export function ringingAt(bar: ScoreBar, events: readonly ScoreEvent[], time: Rational): ReadonlySet<number> {
  const changed = bar.chords.filter(({ at }) => compare(at, time) <= 0).at(-1)?.at;
  const ringing = new Set<number>();
  for (const event of events) {
    if (compare(event.at, time) >= 0) break;
    if (changed !== undefined && compare(event.at, changed) < 0) continue;
    switch (event.kind) {
      case 'notes':
        for (const { string } of event.notes) {
          if (ringsOn(event, string)) ringing.add(string);
          else ringing.delete(string);
        }
        break;
      case 'strum':
        if (event.damped) ringing.clear();
        else for (const { string } of event.notes) ringing.add(string);
        break;
      case 'stop':
        if (event.strings.length === 0) ringing.clear();
        else for (const string of event.strings) ringing.delete(string);
        break;
      case 'chunk':
        ringing.clear();
        break;
      case 'hit':
        if (event.place === 'thumb' || event.place === 'palm') ringing.clear();
        break;
      default:
        break;
    }
  }
  return ringing;
}
