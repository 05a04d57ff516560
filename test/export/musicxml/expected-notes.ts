import type { ExportedExercise } from '../../../shared/export/exported-exercise.ts';
import type { ResolvedChord } from '../../../shared/lesson/model/resolved-chord.ts';
import { soundsOfLine } from '../../../shared/score/line-sounds.ts';
import { noteLineOf } from '../../../shared/score/rhythm-sides.ts';
import type { ScoreBar, ScoreEvent } from '../../../shared/score/timeline.ts';
import { midiNumber } from '../../../shared/theory/note.ts';
import { compare, type Rational, toNumber } from '../../../shared/theory/rational.ts';

// What the timeline says that a document must hold, told from the events alone.

export type Side = 'above' | 'below';

export interface Struck {
  readonly string: number;
  readonly fret: number;
  readonly dead: boolean;
  readonly harmonic: boolean;
}

/** Bars of all passes, one after another, as the measures of a document. */
export function barsOf({ score }: ExportedExercise): readonly ScoreBar[] {
  return score.passes.flatMap(({ bars }) => bars);
}

/** `measure time side string:fret midi` of everything that is struck on a string, sorted. */
export function struckOf(exercise: ExportedExercise): readonly string[] {
  const told: string[] = [];
  forEachStruck(exercise, (measure, at, side, { string, fret, dead, harmonic }) => {
    const { openStrings, capoFret } = exercise.instrument;
    const open = openStrings[openStrings.length - string];
    const midi = open === undefined ? Number.NaN : midiNumber(open) + capoFret + fret;
    told.push(
      `${measure} ${quarters(at)} ${side} ${string}:${fret} ${harmonic ? 'harmonic' : midi}${dead ? ' x' : ''}`,
    );
  });
  return told.sort();
}

function forEachStruck(
  { score }: ExportedExercise,
  tell: (measure: number, at: Rational, side: Side, struck: Struck) => void,
): void {
  let measure = 0;
  for (const { bars } of score.passes) {
    let chord: ResolvedChord | undefined;
    for (const bar of bars) {
      const sideOf = noteLineOf(bar);
      const taken = new Set<string>();
      const before = chord;
      // Single notes have their string before a stroke that meets it at the same moment.
      const events = [...bar.events].sort((a, b) => Number(a.kind !== 'notes') - Number(b.kind !== 'notes'));
      for (const event of events) {
        const held = bar.chords.filter(({ at }) => compare(at, event.at) <= 0).at(-1);
        for (const struck of struckBy(event, held === undefined ? before : held.chord)) {
          const key = `${quarters(event.at)} ${sideOf(event)} ${struck.string}`;
          if (!taken.has(key)) tell(measure, event.at, sideOf(event), struck);
          taken.add(key);
        }
      }
      const last = bar.chords.at(-1);
      if (last !== undefined) chord = last.chord;
      measure += 1;
    }
  }
}

function struckBy(event: ScoreEvent, chord: ResolvedChord | undefined): readonly Struck[] {
  const strings = (chord?.shape ?? []).flatMap((fret, index, shape) =>
    fret === 'muted' ? [] : [{ string: shape.length - index, fret, dead: event.kind === 'chunk', harmonic: false }],
  );
  switch (event.kind) {
    case 'notes':
      return event.notes.map(({ string, fret, techniques, arrivesBy }) => ({
        string,
        fret,
        dead: false,
        harmonic: arrivesBy === 'harmonic' || techniques.some(({ kind }) => kind === 'harmonic'),
      }));
    case 'strum':
      return event.notes.map(({ string, fret }) => ({ string, fret, dead: event.damped, harmonic: false }));
    case 'chunk':
    case 'roll':
    case 'shape-slide':
      return strings;
    default:
      return [];
  }
}

/** `measure time place` of every hit, sorted. */
export function hitsOf(exercise: ExportedExercise): readonly string[] {
  return barsOf(exercise)
    .flatMap(({ events }, measure) =>
      events.flatMap((event) => (event.kind === 'hit' ? [`${measure} ${quarters(event.at)} ${event.place}`] : [])),
    )
    .sort();
}

/**
 * How long what is struck alone on its side is written, over bar lines too: until the next attack or stop of its line. By
 * `measure time side`. Unit: quarters.
 */
export function writtenLengths(exercise: ExportedExercise): ReadonlyMap<string, number> {
  const lengths = new Map<string, number>();
  let measure = 0;
  for (const { bars } of exercise.score.passes) {
    bars.forEach((bar, index) => {
      const sideOf = noteLineOf(bar);
      for (const event of bar.events) {
        const side = sideOf(event);
        const beside = bar.events.filter(
          (other) => other.kind !== 'stop' && sideOf(other) === side && compare(other.at, event.at) === 0,
        );
        if (event.kind === 'stop' || event.kind === 'held' || event.kind === 'hit' || beside.length > 1) continue;
        const sound = soundsOfLine(bar, side).find(({ at }) => compare(at, event.at) === 0);
        if (sound === undefined) continue;
        const onward = sound.goesOn ? lengthHeld(bars, index + 1, event) : 0;
        if (onward !== undefined)
          lengths.set(`${measure} ${quarters(event.at)} ${side}`, toNumber(sound.length) * 4 + onward);
      }
      measure += 1;
    });
  }
  return lengths;
}

/** Undefined where something else begins together with what is held. */
function lengthHeld(bars: readonly ScoreBar[], index: number, event: ScoreEvent): number | undefined {
  const bar = bars[index];
  // A later ending is come to from the bar before the first one.
  if (bar === undefined || (bar.ending?.begins === true && !bar.ending.numbers.includes(1))) return 0;
  const sideOf = noteLineOf(bar);
  const first = bar.events.filter(({ at, kind }) => at.numerator === 0 && kind !== 'stop');
  const held = first.find(
    ({ kind, source }) =>
      kind === 'held' && source.entry === event.source.entry && source.span.start === event.source.span.start,
  );
  if (held === undefined) return 0;
  const side = sideOf(held);
  if (first.some((other) => other !== held && sideOf(other) === side)) return undefined;
  const sound = soundsOfLine(bar, side)[0];
  if (sound === undefined) return 0;
  const onward = sound.goesOn ? lengthHeld(bars, index + 1, event) : 0;
  return onward === undefined ? undefined : toNumber(sound.length) * 4 + onward;
}

/** Unit: quarters, to six places. */
function quarters(time: Rational): string {
  return (toNumber(time) * 4).toFixed(6);
}
