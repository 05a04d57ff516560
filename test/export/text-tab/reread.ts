import type { ExportedExercise } from '../../../shared/export/exported-exercise.ts';
import { openDocument } from '../../../shared/lesson/document.ts';
import { lessonOf } from '../../../shared/lesson/model/lesson.ts';
import type { ResolvedChord } from '../../../shared/lesson/model/resolved-chord.ts';
import { scopeOf } from '../../../shared/lesson/model/scope-of-lesson.ts';
import { readText } from '../../../shared/reading/read-text.ts';
import { exerciseScore } from '../../../shared/score/exercise-score.ts';
import type { ScoreBar, ScoreEvent } from '../../../shared/score/timeline.ts';
import { type Meter, printMeter } from '../../../shared/theory/meter.ts';
import { compare, toNumber } from '../../../shared/theory/rational.ts';

// Text tab goes through the reader of pasted text, into a lesson, and out of that lesson's timeline again.

/** What sounds at one moment: `string:fret` sorted, `x` for a damped string. Time in quarters from the first bar. */
export interface HeardAt {
  readonly at: number;
  readonly strings: string;
}

/** What the bars play on strings, in written order; repeats are not played out. */
export function heardIn(bars: readonly ScoreBar[]): readonly HeardAt[] {
  let start = 0;
  let chord: ResolvedChord | undefined;
  return bars.flatMap((bar) => {
    const moments = new Map<number, Map<number, string>>();
    const before = chord;
    const ordered = [...bar.events].sort((a, b) => Number(a.kind !== 'notes') - Number(b.kind !== 'notes'));
    for (const event of ordered) {
      const taken = bar.chords.filter(({ at }) => compare(at, event.at) <= 0).at(-1);
      const held = taken === undefined ? before : taken.chord;
      for (const [string, fret] of soundOf(event, held)) {
        const at = start + toNumber(event.at) * 4;
        const strings = moments.get(at) ?? new Map<number, string>();
        moments.set(at, strings);
        if (!strings.has(string)) strings.set(string, fret);
      }
    }
    const last = bar.chords.at(-1);
    if (last !== undefined) chord = last.chord;
    start += toNumber(bar.length) * 4;
    return [...moments]
      .sort(([a], [b]) => a - b)
      .map(([at, strings]) => ({
        at,
        strings: [...strings]
          .sort(([a], [b]) => b - a)
          .map(([string, fret]) => `${string}:${fret}`)
          .join('+'),
      }));
  });
}

function soundOf(event: ScoreEvent, chord: ResolvedChord | undefined): readonly (readonly [number, string])[] {
  const all = (chord?.shape ?? []).flatMap((fret, index, shape) =>
    fret === 'muted' ? [] : [[shape.length - index, event.kind === 'chunk' ? 'x' : String(fret)] as const],
  );
  switch (event.kind) {
    case 'notes':
      return event.notes.map(({ string, fret }) => [string, String(fret)]);
    case 'strum':
      return event.notes.map(({ string, fret }) => [string, event.damped ? 'x' : String(fret)]);
    case 'chunk':
    case 'roll':
    case 'shape-slide':
      return all;
    default:
      return [];
  }
}

/** What the reader makes of a text: the same, from the timeline of a lesson that holds nothing but the reading. */
export function heardInText(text: string, { instrument }: ExportedExercise, meter: Meter): readonly HeardAt[] {
  const reading = readText(text, { instrument, meter });
  const names = reading.blocks.filter(({ kind }) => kind !== 'progression').map(({ name }) => name);
  const lesson = [
    'lesson  Read again',
    `for  ${instrument.name}`,
    `meter  ${printMeter(meter)}`,
    '',
    reading.text,
    'exercise  All of it',
    '  over  C',
    `  each  ${names.join(', ')}`,
    '',
  ].join('\n');
  const bound = lessonOf(openDocument(lesson));
  const [exercise] = bound.definitions.exercises;
  if (exercise === undefined) throw new Error('The reading makes no exercise.');
  const score = exerciseScore(scopeOf(bound), exercise.entry, exercise.statement);
  return heardIn(score.passes[0]?.bars ?? []);
}
