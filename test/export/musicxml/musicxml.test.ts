import { generatePlaybackSequence } from 'musicxml-io';
import { describe, expect, test } from 'vitest';
import type { ExportedExercise } from '../../../shared/export/exported-exercise.ts';
import { musicXmlOf } from '../../../shared/export/musicxml/music-xml.ts';
import { playedBars } from '../../../shared/score/played-bars.ts';
import type { ScoreBar } from '../../../shared/score/timeline.ts';
import { toNumber, ZERO } from '../../../shared/theory/rational.ts';
import { exercisesOf, generatedExercises, samples } from '../exported-lessons.ts';
import { barsOf, hitsOf, struckOf, writtenLengths } from './expected-notes.ts';
import { type ReadMusic, type ReadNote, readBack } from './read-back.ts';
import { faultOf } from './schema.ts';

/** Lessons made by chance that are read back. */
const GENERATED = 150;

describe('the schema of MusicXML 4.0', () => {
  test.each(samples)('%s is valid on every edition', (_name, text) => {
    const exercises = exercisesOf(text);
    expect(exercises.length).toBeGreaterThan(3);
    for (const exercise of exercises) expect(faultOf(musicXmlOf(exercise)), exercise.title).toBeUndefined();
  });

  test('so are lessons made by chance', () => {
    let count = 0;
    for (const { seed, exercise } of generatedExercises(GENERATED)) {
      expect(faultOf(musicXmlOf(exercise)), `seed ${seed}`).toBeUndefined();
      count += 1;
    }
    expect(count).toBeGreaterThan(GENERATED / 2);
  });

  test('the check sees a fault', () => {
    const [first] = exercisesOf(samples[0]?.[1] ?? '');
    const xml = first === undefined ? '' : musicXmlOf(first);
    expect(faultOf(xml.replace('<sign>TAB</sign>', '<sign>TABS</sign>'))).toContain('sign');
    expect(faultOf(xml.replace(/<duration>\d+<\/duration>/, ''))).toBeDefined();
    expect(faultOf(xml.replace('</part>', ''))).toBeDefined();
  });
});

describe('an outside reader finds what the timeline says (musicxml-io)', () => {
  test.each(samples)('in %s', (_name, text) => {
    for (const exercise of exercisesOf(text)) checkRoundTrip(exercise, exercise.title);
  });

  test('in lessons made by chance', () => {
    for (const { seed, exercise } of generatedExercises(GENERATED)) checkRoundTrip(exercise, `seed ${seed}`);
  });

  test('the same order of bars, with repeats and endings', () => {
    let repeats = 0;
    const exercises = [
      ...samples.flatMap(([, text]) => exercisesOf(text)),
      ...[...generatedExercises(GENERATED)].map(({ exercise }) => exercise),
    ];
    for (const exercise of exercises) {
      let first = 0;
      const expected = exercise.score.passes.flatMap(({ bars }) => {
        const order = playedBars(bars).map(({ index }) => first + index);
        first += bars.length;
        return order;
      });
      const { score } = readBack(musicXmlOf(exercise));
      const sequence = generatePlaybackSequence(score).map(({ measureIndex }) => measureIndex);
      expect(sequence, exercise.title).toEqual(expected);
      if (expected.length > first) repeats += 1;
    }
    expect(repeats).toBeGreaterThan(20);
  });
});

function checkRoundTrip(exercise: ExportedExercise, name: string): void {
  const read = readBack(musicXmlOf(exercise));
  const isAlone = !barsOf(exercise).some(({ upperVoice }) => upperVoice !== undefined);
  const sideOf = (voice: string) => (isAlone || voice === '2' ? 'below' : 'above');

  expect(read.score.metadata.movementTitle).toBe(exercise.title);
  const bars = barsOf(exercise);
  expect(read.score.parts[0]?.measures.length).toBe(bars.length);
  for (const { measure, length } of read.lengths)
    expect(length, `${name}, measure ${measure}`).toBeCloseTo(
      toNumber(bars[measure]?.length ?? { numerator: 0, denominator: 1 }) * 4,
      9,
    );

  const chains = chainsOf(read, bars);
  const struck = chains.map(
    ({ head, first, isHarmonic }) =>
      `${head.measure} ${head.at.toFixed(6)} ${sideOf(head.voice)} ${head.string}:${first.fret} ${isHarmonic ? 'harmonic' : first.midi}${head.isDead ? ' x' : ''}`,
  );
  expect(struck.sort(), name).toEqual(struckOf(exercise));
  const hits = read.knocks.map(
    ({ measure, at, instrument }) => `${measure} ${at.toFixed(6)} ${instrument.replace('P1-', '')}`,
  );
  expect(hits.sort(), name).toEqual(hitsOf(exercise));

  const lengths = writtenLengths(exercise);
  for (const { head, duration } of chains) {
    const expected = lengths.get(`${head.measure} ${head.at.toFixed(6)} ${sideOf(head.voice)}`);
    if (expected !== undefined && !head.isDead)
      expect(duration, `${name}, measure ${head.measure} at ${head.at}, string ${head.string}`).toBeCloseTo(
        expected,
        6,
      );
  }
  for (const note of read.notes) if (!note.isGrace) expect(saidLength(note), name).toBeCloseTo(note.duration, 9);
}

interface Chain {
  /** What is struck: the first note, or the first grace note before it. */
  readonly first: ReadNote;
  /** The note that has the length. */
  readonly head: ReadNote;
  readonly isHarmonic: boolean;
  /** With all that is tied to it. Unit: quarters. */
  readonly duration: number;
}

/** By each measure that begins a later ending the one before the first ending, from which it is come to. */
function branchesOf(bars: readonly ScoreBar[]): ReadonlyMap<number, number> {
  const branches = new Map<number, number>();
  let before = 0;
  bars.forEach(({ ending }, measure) => {
    if (ending?.begins !== true) return;
    if (ending.numbers.includes(1)) before = measure - 1;
    else branches.set(measure, before);
  });
  return branches;
}

/**
 * Notes with their grace notes and ties. Fails where a tie leads nowhere or comes from nowhere. One into a later ending comes from the
 * end of the measure before the first.
 */
function chainsOf({ notes }: ReadMusic, bars: readonly ScoreBar[]): readonly Chain[] {
  const branches = branchesOf(bars);
  const ends = new Set<string>();
  const chains: Chain[] = [];
  const open = new Map<string, { chain: { duration: number }; until: string }>();
  const graces = new Map<string, ReadNote>();
  for (const note of notes) {
    const place = `${note.voice} ${note.string}`;
    if (note.isGrace) {
      if (!graces.has(place)) graces.set(place, note);
      continue;
    }
    const now = `${note.measure} ${note.at.toFixed(6)}`;
    const before = open.get(`${place} ${note.midi}`);
    let chain: { duration: number };
    const end = toNumber(bars[note.measure]?.length ?? ZERO) * 4;
    if (Math.abs(note.at + note.duration - end) < 1e-9) ends.add(`${note.measure} ${place} ${note.midi}`);
    const branch = note.at === 0 ? branches.get(note.measure) : undefined;
    if (note.isTiedFrom && branch !== undefined) {
      expect(ends.has(`${branch} ${place} ${note.midi}`), `into the ending at ${now}`).toBe(true);
      chain = { duration: 0 };
    } else if (note.isTiedFrom) {
      if (before === undefined) throw new Error(`A tie comes from nowhere at ${now}, string ${note.string}.`);
      // Over a bar line it comes from the measure before.
      if (note.at === 0) expect(before.until.startsWith(`${note.measure - 1} `), now).toBe(true);
      else expect(before.until).toBe(now);
      chain = before.chain;
      chain.duration += note.duration;
    } else {
      const first = graces.get(place) ?? note;
      graces.delete(place);
      const isHarmonic =
        note.note.notations?.some((one) => one.type === 'technical' && one.technical === 'harmonic') ?? false;
      const made = { first, head: note, isHarmonic, duration: note.duration };
      chains.push(made);
      chain = made;
    }
    open.delete(`${place} ${note.midi}`);
    if (note.isTiedOn)
      open.set(`${place} ${note.midi}`, {
        chain,
        until: `${note.measure} ${(note.at + note.duration).toFixed(6)}`,
      });
  }
  expect([...open.keys()]).toEqual([]);
  return chains;
}

const VALUES: Readonly<Record<string, number>> = {
  whole: 4,
  half: 2,
  quarter: 1,
  eighth: 1 / 2,
  '16th': 1 / 4,
  '32nd': 1 / 8,
  '64th': 1 / 16,
};

/** What type, dots and tuplet of a note say. Unit: quarters. */
function saidLength({ note }: ReadNote): number {
  const plain = VALUES[note.noteType ?? ''] ?? Number.NaN;
  const dotted = plain * (2 - 2 ** -(note.dots ?? 0));
  const { actualNotes = 1, normalNotes = 1 } = note.timeModification ?? {};
  return (dotted * normalNotes) / actualNotes;
}
