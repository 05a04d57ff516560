import { describe, expect, test } from 'vitest';
import { askingsAt } from '../../shared/assist/ask-questions.ts';
import { writingsOf } from '../../shared/assist/write-answer.ts';
import { problemsOf } from '../../shared/lesson/check/problems.ts';
import { type LessonDocument, openDocument } from '../../shared/lesson/document.ts';
import { formatDocument } from '../../shared/lesson/format.ts';
import { resolveChord } from '../../shared/lesson/model/chords.ts';
import { chordsIn } from '../../shared/lesson/model/chords-in.ts';
import { lessonOf } from '../../shared/lesson/model/lesson.ts';
import { scopeOf } from '../../shared/lesson/model/scope-of-lesson.ts';
import { printShape } from '../../shared/neck/shape.ts';
import { exerciseScore } from '../../shared/score/exercise-score.ts';
import type { FamilyChord } from '../../shared/voicing/family/request.ts';
import { foundIn, openWritten, written } from './asking-answers.ts';

const INSTRUMENTS = [
  'tenor ukulele, high G',
  'tenor ukulele, low G',
  'baritone ukulele',
  'guitar',
  'tenor ukulele, capo 2',
];

const BARS = [
  '| D | A | Bm | G | D | G | A | D |',
  '| Dm | C | Bb | A |',
  '|: Em | C | G | 1st D :| 2nd D ||',
  '|: C | Am | F | G :| x3',
  '| A | E | F#m | D |',
  '| Em | C D | G / D / | % |',
  '| G7 | C7 | D7 | G7 |',
];

/** What only a tune is asked over: these have bars that are not all alike. */
const OTHER_BARS = [
  'count 4\n  | Em | C | G | D / / |',
  '| Em | C | NC | D | Em |',
  '| G | C | 2/4 D | 4/4 G |',
  'count 4\n  | C |: F | 2/4 G7 | 1st 4/4 C :| 2nd NC | C / / |',
];

/** A progression without chord lines, with words that are sung and a sentence for the student. */
function lessonOver(instrument: string, bars: string): string {
  return `lesson  Try\nfor     ${instrument}\ntempo   60\n\nprogression  verse\n  ${bars}\n  words  one | two\n  > Sing it first.\n`;
}

const CASES = INSTRUMENTS.flatMap((instrument) =>
  BARS.map((bars) => [`${instrument} ${bars}`, lessonOver(instrument, bars)] as const),
);

/** `warning reach.stretched chord D 0-9-0-5` for everything that is more than advice. */
function grave({ text, ...document }: LessonDocument): readonly string[] {
  return problemsOf({ text, ...document })
    .filter(({ severity }) => severity === 'error' || severity === 'warning')
    .map(({ severity, code, span }) => `${severity} ${code} ${text.slice(span.start, span.end)}`);
}

/** By its chords, what a progression of the lesson is held in. */
function shapesOf(document: LessonDocument, name: string): readonly string[] {
  const scope = scopeOf(lessonOf(document));
  const progression = scope.progression(name);
  if (progression === undefined) throw new Error(`there is no progression ${name}`);
  return chordsIn(progression).map((chord) => {
    const resolved = resolveChord(scope, chord);
    return resolved === undefined ? 'none' : printShape(resolved.shape);
  });
}

function asked(text: string, kind: 'family' | 'tune'): string {
  const asking = askingsAt(openDocument(text), text.indexOf('verse')).find((one) => one.kind === kind);
  if (asking === undefined) throw new Error(`no ${kind} can be asked for`);
  return written(asking, text);
}

function isStretch({ fingering }: FamilyChord): boolean {
  return fingering?.verdict !== 'comfortable';
}

describe('a family that is asked for, found and written', () => {
  test.each(CASES)('%s', (_, lesson) => {
    const before = openDocument(lesson);
    const text = asked(lesson, 'family');
    expect(grave(openDocument(text))).toEqual(grave(before));
    const { answer, writings } = foundIn(text);
    if (answer.kind !== 'family' || answer.found.kind !== 'families') throw new Error('no family was found');
    const { families } = answer.found;
    expect(writings.map(({ title }) => title)).toEqual(
      families.map(({ why }, at) => `Write family ${at + 1} of ${families.length}: ${why}`),
    );
    writings.forEach((writing, at) => {
      const after = openWritten(writing, text);
      const chords = families[at]?.chords ?? [];
      // What is written is what was shown, and what stood there before is held as before.
      expect(shapesOf(after, 'walk')).toEqual(chords.map(({ shape }) => printShape(shape)));
      expect(shapesOf(after, 'verse')).toEqual(shapesOf(before, 'verse'));
      // A stretch is told as one on the sheet before it is chosen, and on its line afterwards.
      const stretched = new Set(chords.filter(isStretch).map(({ shape }) => printShape(shape)));
      const added = grave(after).filter((fault) => !grave(before).includes(fault));
      const told = added.filter((fault) => fault.startsWith('warning reach.stretched '));
      expect(added).toEqual(told);
      expect(new Set(told.map((fault) => fault.split(' ').at(-1)))).toEqual(stretched);
      // Nothing is left for the formatter to do to what was written.
      const start = after.text.indexOf('// Found');
      expect(formatDocument(after).filter(({ span }) => span.start >= start)).toEqual([]);
      expect(after.text).toContain('//   from    verse');
      expect(after.text.match(/Sing it first/g)).toHaveLength(1);
      expect(after.text.match(/words/g)).toHaveLength(1);
    });
  });
});

const TUNE_CASES = OTHER_BARS.flatMap((bars) =>
  INSTRUMENTS.slice(0, 3).map((instrument) => [`${instrument} ${bars}`, lessonOver(instrument, bars)] as const),
);

describe('a tune that is asked for, found and written', () => {
  test.each([...CASES, ...TUNE_CASES])('%s', (_, lesson) => {
    const text = asked(lesson, 'tune');
    expect(grave(openDocument(text))).toEqual(grave(openDocument(lesson)));
    const { answer, writings } = foundIn(text);
    if (answer.kind !== 'tune' || !answer.found.ok) throw new Error('no tune was found');
    const { tunes } = answer.found;
    expect(writings).toHaveLength(tunes.length);
    writings.forEach((writing, at) => {
      const after = openWritten(writing, text);
      expect(grave(after)).toEqual(grave(openDocument(lesson)));
      const melody = scopeOf(lessonOf(after)).grid('melody', 'verse-tune');
      const marks = melody?.lines.flatMap(({ rows }) => rows.filter(({ kind }) => kind === 'tune')) ?? [];
      const start = offsetIn(after);
      const played = openDocument(`${after.text}\nexercise Sing\n  play verse\n  with verse-tune\n  tempo 60\n`);
      expect(grave(played)).toEqual(grave(openDocument(lesson)));
      const words = marks.flatMap(({ span }) => after.text.slice(start + span.start, start + span.end).split(/\s+/));
      const notes = new Set(tunes[at]?.notes.map(({ string, fret }) => `${string}:${fret}`));
      expect(new Set(words.filter((word) => word.includes(':')))).toEqual(notes);
      expect(formatDocument(after).filter(({ span }) => span.start >= start)).toEqual([]);
    });
  });
});

test('a tune over endings repeats as its bars do, so that each bar has its own part', () => {
  const text = asked(lessonOver('tenor ukulele, low G', '|: Em | C | G | 1st D :| 2nd D ||'), 'tune');
  const { answer, writings } = foundIn(text);
  if (answer.kind !== 'tune' || !answer.found.ok) throw new Error('no tune was found');
  const { tunes } = answer.found;
  writings.forEach((writing, at) => {
    const after = openDocument(`${written(writing, text)}\n\nexercise Sing\n  play verse\n  with verse-tune\n`);
    const lesson = lessonOf(after);
    const [exercise] = lesson.definitions.exercises;
    if (exercise === undefined) throw new Error('there is no exercise');
    const [pass] = exerciseScore(scopeOf(lesson), exercise.entry, exercise.statement).passes;
    const played = pass?.bars.map(({ events }) =>
      events.flatMap((event) =>
        event.kind === 'notes' ? event.notes.map(({ string, fret }) => `${string}:${fret}`) : [],
      ),
    );
    const found = [0, 1, 2, 3, 4].map((bar) =>
      (tunes[at]?.notes ?? []).flatMap((note) => (note.bar === bar ? [`${note.string}:${note.fret}`] : [])),
    );
    expect(played).toEqual(found);
    expect(problemsOf(after).filter(({ severity }) => severity === 'error')).toEqual([]);
  });
});

/** Where the melody's entry begins. */
function offsetIn(document: LessonDocument): number {
  return document.starts[document.entries.findIndex(({ statement }) => statement.kind === 'melody')] ?? 0;
}

describe('names', () => {
  const head = 'for tenor ukulele, high G\nkey E minor\n\n';
  const ask =
    'progression verse\n  | Em | C | G | D |\n\nfamily drone\n  from verse\n  ring 1 2\n  within 0 to 12\n  allow add9 6 6/9 maj7 add11\n';

  test('a shape that the lesson has under the same name gets no second line', () => {
    const text = `${head}chord D(add9)  7-6-0-0\nchord Em 0-4-3-2\n\n${ask}  keep D 7-6-0-0\n`;
    const { writings } = foundIn(text);
    expect(writings.length).toBeGreaterThan(0);
    for (const writing of writings) expect(written(writing, text).match(/7-6-0-0/g)).toHaveLength(2);
  });

  test('a name that another shape has gets the label of the family, and the progression goes over it', () => {
    const text = `${head}chord C6 0-0-0-0\n\n${ask}  keep C 5-7-0-0\n`;
    const after = written(foundIn(text).writings[0] ?? { title: '', edits: [] }, text);
    expect(after).toMatch(/^chord {2}C6\.drone +5-7-0-0 {2}fingers/m);
    expect(after).toMatch(/\| C6\.drone \|/);
  });

  test('a sentence that speaks of a chord speaks of the shape that the lesson comes to have', () => {
    const text = `${head}> Today @C6 comes in.\n\n${ask}  keep C 5-7-0-0\n  > And home by @D.\n`;
    const after = written(foundIn(text).writings[0] ?? { title: '', edits: [] }, text);
    expect(after).toMatch(/^chord {2}C6 +5-7-0-0 {2}fingers/m);
    expect(after).toMatch(/\| C6 \|/);
    expect(after).not.toMatch(/C6\.drone|C6 +0-0-0-0/);
    // What is shown or played without a line is held in its usual shape, and stays so.
    const shown = text.replace('> Today @C6 comes in.', 'show C6');
    expect(written(foundIn(shown).writings[0] ?? { title: '', edits: [] }, shown)).toMatch(
      /^chord {2}C6\.drone +5-7-0-0/m,
    );
  });

  test('a progression of the name is left alone', () => {
    const text = `${head}progression drone\n  | C | C |\n\n${ask}`;
    const after = written(foundIn(text).writings[0] ?? { title: '', edits: [] }, text);
    expect(after).toMatch(/^progression {2}drone-2$/m);
  });

  test('a plain name that is used keeps its usual shape by a line beside the others', () => {
    const text = `${head}progression verse\n  | Am | Em | F | C |\n\nfamily up\n  from verse\n  within 5 to 12\n`;
    const after = written(foundIn(text).writings[0] ?? { title: '', edits: [] }, text);
    const lines = after.split('\n');
    const progression = lines.indexOf('progression verse');
    expect(lines.slice(0, progression).filter((line) => line.startsWith('chord')).length).toBeGreaterThan(0);
    expect(shapesOf(openDocument(after), 'verse')).toEqual(shapesOf(openDocument(text), 'verse'));
  });

  test('chord names are written in the style of the teacher', () => {
    const text = `${head}progression verse\n  | Am | C |\n\nfamily drone\n  from verse\n  ring 3\n  allow maj7\n  keep C 4-0-0-2\n`;
    const { answer } = foundIn(text);
    const document = openDocument(text, 'symbols');
    const [best] = writingsOf(document, text.indexOf('family'), answer);
    expect(written(best ?? { title: '', edits: [] }, text)).toMatch(/^chord {2}C△7 +4-0-0-2/m);
  });

  test('windows line ends stay', () => {
    const text = `${head}${ask}`.replaceAll('\n', '\r\n');
    const after = written(foundIn(text).writings[0] ?? { title: '', edits: [] }, text);
    expect(after.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  });
});
