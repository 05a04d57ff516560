import type { Instrument } from '../../neck/instrument.ts';
import { midiAt } from '../../neck/pitches.ts';
import type { Fix } from '../../text/problem.ts';
import { midiNumber } from '../../theory/note.ts';
import type { Scope } from '../model/scope.ts';
import type { TimedGrid, TimedMark } from '../model/timed-grid.ts';
import type { Entry } from '../syntax/read-entry.ts';
import { addedSteps } from './added-steps.ts';
import type { Report } from './finding.ts';
import { write } from './finding.ts';

const OCTAVE = 12;

/** An edition on which one string lies an octave from where the other strings lead one to expect it. */
interface Moved {
  readonly edition: string;
  readonly string: number;
  readonly lower: boolean;
}

/**
 * A tune on the fourth string of a re-entrant instrument sounds an octave lower where an edition has a low string there, and the
 * other way round: the frets are the same, the tune is not. Told once for a grid, at the first such note.
 */
export function checkOctaves(report: Report, scope: Scope, grid: TimedGrid, entry: Entry): void {
  const moved = movedStrings(scope, grid);
  if (moved.length === 0) return;
  const { instrument } = scope.edition();
  for (const row of grid.rows) {
    if (row.kind !== 'tune') continue;
    for (const { mark, notes } of addedSteps(grid, row, () => undefined, instrument)) {
      if (mark.entry !== entry) continue;
      const on = moved.filter(({ string }) => notes.some((note) => note.string === string));
      const [first] = on;
      if (first === undefined) continue;
      const names = on.map(({ edition }) => edition).join(' and ');
      const many = on.length > 1 ? 'editions' : 'edition';
      const message = `In ${many} ${names} string ${first.string} is tuned an octave ${first.lower ? 'lower' : 'higher'}, and with it ${mark.word.text}: the tune leaps there.`;
      const fixes = sameElsewhere(instrument, mark, on);
      const edition = on.map((one) => one.edition).join(', ');
      report('warning', 'tune.octave', mark.word.span, message, fixes, { edition });
      return;
    }
  }
}

function movedStrings(scope: Scope, grid: TimedGrid): readonly Moved[] {
  if (scope.edition().keeps !== 'own') return [];
  const { kind, name } = grid.statement;
  const own = scope.edition().instrument;
  return scope.editions().flatMap((other): readonly Moved[] => {
    const { keeps, name: edition, instrument } = other.edition();
    // An edition that writes the tune anew has it as it should be there.
    if (keeps !== 'shapes' || name === undefined || other.grid(kind, name.text) !== grid.statement) return [];
    return octavesBetween(own, instrument).map((found) => ({ edition, ...found }));
  });
}

/** Strings that lie an octave off, where all the others keep one distance. */
function octavesBetween(own: Instrument, other: Instrument): readonly Omit<Moved, 'edition'>[] {
  const strings = own.openStrings.length;
  if (other.openStrings.length !== strings) return [];
  const distances = own.openStrings.map((pitch, at) => {
    const there = other.openStrings[at];
    return there === undefined ? 0 : midiNumber(there) - midiNumber(pitch);
  });
  const usual = distances.at(-1) ?? 0;
  const off = distances.flatMap((distance, at) =>
    distance === usual ? [] : [{ string: strings - at, by: distance - usual }],
  );
  if (off.some(({ by }) => Math.abs(by) !== OCTAVE)) return [];
  return off.map(({ string, by }) => ({ string, lower: by < 0 }));
}

/** The same pitch on a string that is not moved, lowest fret first. */
function sameElsewhere(instrument: Instrument, { word }: TimedMark, moved: readonly Moved[]): readonly Fix[] {
  const place = /^(\d):(\d+)$/.exec(word.text);
  const strings = instrument.openStrings.length;
  const midi = place === null ? undefined : midiAt(instrument, strings - Number(place[1]), Number(place[2]));
  if (midi === undefined) return [];
  const last = instrument.frets - instrument.capoFret;
  const places = instrument.openStrings.flatMap((_, at) => {
    const open = midiAt(instrument, at, 0);
    const fret = open === undefined ? -1 : midi - open;
    const isMoved = moved.some(({ string }) => string === strings - at);
    return isMoved || fret < 0 || fret > last ? [] : [{ string: strings - at, fret }];
  });
  const [best] = [...places].sort((one, other) => one.fret - other.fret);
  if (best === undefined) return [];
  const text = `${best.string}:${best.fret}`;
  return write(word.span, text, `Play the same note on string ${best.string}: ${text}`);
}
