import type { Instrument } from '../../neck/instrument.ts';
import { midiAt } from '../../neck/pitches.ts';
import type { NoteMark } from '../syntax/marks.ts';
import type { Entry } from '../syntax/read-entry.ts';
import { bassStrings, USUAL_PLANT } from './plant.ts';
import type { TimedGrid } from './timed-grid.ts';

/** What a pattern gives to the thumb and to the fingers, each by the lowest of its open strings. */
export interface Bass {
  readonly thumb: OpenString;
  readonly fingers: OpenString;
}

/** An open string with its pitch, a capo counted. */
export interface OpenString {
  readonly string: number;
  readonly midi: number;
}

/**
 * Which strings thumb and fingers pluck where they take their frets from the shape. On re-entrant strings the thumb's may lie above
 * those of the fingers: then what it plays is no bass. Nothing where one of the two has nothing to do; `entry` counts what is written
 * there only.
 */
export function bassOf({ rows, plant }: TimedGrid, instrument: Instrument, entry: Entry): Bass | undefined {
  const strings = instrument.openStrings.length;
  const thumb = new Set<number>();
  const fingers = new Set<number>();
  const add = (note: NoteMark): void => {
    const { string, finger, bass, fret } = note;
    if (fret !== undefined) return;
    if (finger !== 'p' && bass === undefined) {
      const found = string ?? (finger === undefined ? undefined : (plant?.strings[finger] ?? USUAL_PLANT[finger]));
      if (found !== undefined && finger !== undefined) fingers.add(found);
      return;
    }
    const found = string ?? (bass === undefined ? plant?.strings.p : undefined);
    if (found !== undefined) thumb.add(found);
    else if (bass === undefined && strings <= 4) thumb.add(strings);
    // It looks for the root of each chord there.
    else for (const each of bassStrings(strings)) thumb.add(each);
  };
  for (const { kind, marks } of rows) {
    if (kind !== 'pick') continue;
    for (const { mark, entry: from } of marks) if (mark.kind === 'notes' && from === entry) mark.notes.forEach(add);
  }
  const [low, high] = [thumb, fingers].map((set) => lowestOf(set, instrument));
  return low === undefined || high === undefined ? undefined : { thumb: low, fingers: high };
}

/** The string that sounds lowest open. */
export function lowestOf(strings: Iterable<number>, instrument: Instrument): OpenString | undefined {
  let lowest: OpenString | undefined;
  for (const string of strings) {
    const midi = midiAt(instrument, instrument.openStrings.length - string, 0);
    if (midi !== undefined && (lowest === undefined || midi < lowest.midi)) lowest = { string, midi };
  }
  return lowest;
}
