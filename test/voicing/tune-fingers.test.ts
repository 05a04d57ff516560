import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { diatonicChords } from '../../shared/theory/key.ts';
import { atOnce } from '../../shared/voicing/in-steps.ts';
import { readGivenNotes } from '../../shared/voicing/tune/given-notes.ts';
import { holdGround } from '../../shared/voicing/tune/ground.ts';
import { CONTOURS } from '../../shared/voicing/tune/line.ts';
import { placeTune } from '../../shared/voicing/tune/place-tune.ts';
import { proposeTune } from '../../shared/voicing/tune/propose-tune.ts';
import { scaleOfKey } from '../../shared/voicing/tune/scale.ts';
import type { TuneNote } from '../../shared/voicing/tune/tune.ts';
import { type PathLink, pointsOfPath } from '../../shared/voicing/tune/tune-path.ts';
import { openProblem, problemWithLine, type TuneRequest } from '../../shared/voicing/tune/tune-problem.ts';
import { bestUncrossedPath, type FingeredProblem, runsOf } from '../../shared/voicing/tune/uncrossed-path.ts';
import { instrument } from '../neck/playing.ts';
import { key, reading, SEED } from '../theory/reading.ts';
import { groundOf, tunesOver } from './tunes.ts';

// The rule, common practice, no source: on a string the fingers stand in their order. While one shape is in the hand, a higher fret of a
// string is never played by a lower finger than a lower fret of it, whatever is played between; open strings need no finger. But a hand
// that has gone up a whole position counts its fingers off anew. A position is named by the fret of the index finger, or where it would
// be, and has four frets: its end is before the next begins.

/** The notes over one chord until the chord changes. */
function rowsOf(notes: readonly TuneNote[]): readonly (readonly TuneNote[])[] {
  const rows: TuneNote[][] = [];
  for (const note of notes) {
    const row = rows.at(-1);
    if (row?.[0] !== undefined && row[0].chord.name === note.chord.name) row.push(note);
    else rows.push([note]);
  }
  return rows;
}

type PlayedNote = Pick<TuneNote, 'string' | 'fret' | 'way'>;

/** `1:3 by 3 and 1:2 by 4`: what is crossed in a row, each pair once. */
function crossedIn(row: readonly PlayedNote[]): readonly string[] {
  const stopped = row.filter(({ fret, way }) => fret > 0 && way.finger !== 'T');
  const told = stopped.flatMap((high) =>
    stopped.flatMap((low) => {
      if (high.string !== low.string || high.fret <= low.fret) return [];
      const [above, below] = [Number(high.way.finger), Number(low.way.finger)];
      const positions = high.fret - (above - 1) - (low.fret - (below - 1));
      return above < below && positions < 4
        ? [`${high.string}:${high.fret} by ${above} and ${low.string}:${low.fret} by ${below}`]
        : [];
    }),
  );
  return [...new Set(told)];
}

const KEYS = ['C major', 'G major', 'E minor', 'F major', 'A minor', 'D major', 'Bb major', 'D minor', 'A major'];
const NECKS = ['tenor ukulele', 'baritone ukulele', 'guitar', 'tenor ukulele, low G', 'soprano ukulele'].map(
  instrument,
);

const arbitraryRequest = fc
  .record({
    neck: fc.constantFrom(...NECKS),
    home: fc.constantFrom(...KEYS),
    degrees: fc.array(fc.nat(13), { minLength: 2, maxLength: 6 }),
    contour: fc.constantFrom(...CONTOURS),
    ring: fc.constantFrom<readonly number[]>([], [], [1], [2], [4]),
    rhythm: fc.constantFrom(undefined, undefined, [0, 6, 12, 18, 24, 30, 36, 42], [0, 12, 24, 36]),
    beats: fc.constantFrom(50, 72, 100),
  })
  .map(({ neck, home, degrees, contour, ring, rhythm, beats }): TuneRequest => {
    const chords = diatonicChords(key(home));
    const names = degrees.map((degree) => chords[degree]?.text ?? 'C');
    const ground = groundOf(names.join(' '), { instrument: neck, scale: scaleOfKey(key(home)), ring });
    return { ...ground, contour, secondsPerCount: 60 / beats, ...(rhythm === undefined ? {} : { rhythm }) };
  });

test('over many progressions on many instruments no row of a proposed tune has crossed fingers', () => {
  let rows = 0;
  for (const request of fc.sample(arbitraryRequest, { seed: SEED, numRuns: 80 })) {
    const found = proposeTune(request);
    if (!found.ok) continue;
    for (const row of found.tunes.flatMap(({ notes }) => rowsOf(notes))) {
      expect(crossedIn(row)).toEqual([]);
      rows += 1;
    }
  }
  expect(rows).toBeGreaterThan(300);
});

describe('rows that were seen crossed', () => {
  const rowOf = (written: string, name: string) =>
    tunesOver(written, 'arch', { secondsPerCount: 60 / 72 }).flatMap(({ notes }) =>
      rowsOf(notes).filter(([first]) => first?.chord.name === name),
    );

  test('F goes down from 1:3 with the little finger, then the ring finger', () => {
    const rows = rowOf('C Am F G', 'F').filter((row) => row.some(({ string, fret }) => string === 1 && fret === 3));
    expect(rows.length).toBeGreaterThan(0);
    const told = rows.map((row) =>
      row.map(({ string, fret, way }) => `${string}:${fret} ${way.finger ?? 0}`).join(', '),
    );
    for (const row of told) expect(row).toBe('1:3 4, 1:2 3, 1:0 0, 1:3 4, 1:2 3');
  });

  test('C does not go up to 1:7 with the ring finger after the little finger on 1:5', () => {
    for (const row of rowOf('Am F C G', 'C')) expect(crossedIn(row)).toEqual([]);
  });
});

/** The least points of all choices that are not crossed, every one tried; and of all choices. Points never grow less from note to note. */
function triedOneByOne(fingered: FingeredProblem): { readonly uncrossed: number; readonly any: number } {
  const { problem, candidates } = fingered;
  const least = { uncrossed: Number.POSITIVE_INFINITY, any: Number.POSITIVE_INFINITY };
  const go = (picks: readonly number[]): void => {
    const { layers, links } = problem;
    const part = { layers: layers.slice(0, picks.length), links: links.slice(0, Math.max(0, picks.length - 1)) };
    const points = picks.length === 0 ? 0 : pointsOfPath(part, picks);
    if (points >= least.uncrossed) return;
    if (picks.length === layers.length) {
      least.any = Math.min(least.any, points);
      const notes = picks.map((pick, at) => candidates[at]?.[pick]).flatMap((one) => one ?? []);
      const row = notes.map(({ note, way }) => ({ ...note, way }));
      if (crossedIn(row).length === 0) least.uncrossed = points;
      return;
    }
    for (const at of layers[picks.length]?.points.keys() ?? []) go([...picks, at]);
  };
  go([]);
  return least;
}

function allowingAll(link: PathLink): PathLink {
  const rows = link.follows.length;
  const width = link.points.length / rows;
  const all = Uint16Array.from({ length: width }, (_, at) => at);
  return { ...link, points: new Float64Array(rows * width), follows: Array.from({ length: rows }, () => all) };
}

test('small rows: the fingers that are found are the cheapest of all that are not crossed', () => {
  const cases = fc.record({
    chord: fc.constantFrom('F:2010', 'C:0003', 'Am:2000', 'G:0232', 'C7:0001', 'Dm:2210'),
    contour: fc.constantFrom(...CONTOURS),
    rhythm: fc.constantFrom([0, 12, 24, 36], [0, 6, 12, 18, 24]),
    // As tunes go; or any note after any other, so that fingers and points alone decide.
    loose: fc.boolean(),
    lowest: fc.integer({ min: 60, max: 70 }),
    string: fc.constantFrom(1, 2),
    // What a finger costs is shaken, so that the cheapest choice of all is often crossed.
    shaken: fc.array(fc.integer({ min: 0, max: 60 }), { minLength: 40, maxLength: 40 }),
  });
  let compared = 0;
  let mended = 0;
  for (const { chord, contour, rhythm, loose, lowest, string, shaken } of fc.sample(cases, {
    seed: SEED,
    numRuns: 150,
  })) {
    const request: TuneRequest = { ...groundOf(chord), contour, rhythm, mayRepeat: true };
    const ground = holdGround(request);
    if (!ground.ok) throw new Error(ground.message);
    const open = openProblem(request, ground.stretches);
    const whole = problemWithLine(open, lowest);
    const candidates = open.moments.map((moment) => moment.candidates.list);
    const layers = whole.layers.map(({ points }, at) => ({
      points: points.map((point, place) => {
        const note = candidates[at]?.[place]?.note;
        const own = loose ? 0 : point;
        return note?.string === string && note.fret <= 5 ? own + (shaken[(place + 17 * at) % 40] ?? 0) / 10 : Infinity;
      }),
    }));
    const links = loose ? whole.links.map(allowingAll) : whole.links;
    const fingered = { problem: { layers, links }, candidates, runs: runsOf(open.moments.map(() => chord)) };
    const { uncrossed, any } = triedOneByOne(fingered);
    const found = atOnce(bestUncrossedPath(fingered));
    if (found === undefined) expect(uncrossed).toBe(Number.POSITIVE_INFINITY);
    else expect(found.points).toBeCloseTo(uncrossed, 9);
    compared += found === undefined ? 0 : 1;
    mended += uncrossed > any + 1e-9 ? 1 : 0;
  }
  expect(compared).toBeGreaterThan(80);
  expect(mended).toBeGreaterThan(5);
});

describe('a tune that is given', () => {
  const place = (written: string, notes: string, more: Partial<TuneRequest> = {}) => {
    const ground = groundOf(written, more);
    const { scale, instrument: on, meter, bars } = ground;
    const given = reading(readGivenNotes(notes, { scale, instrument: on, meter, bars }));
    const placed = placeTune({ ...ground, notes: given });
    if (!placed.ok) throw new Error(placed.message);
    return placed;
  };

  test('has its fingers in order, also where the hand leaves the shape', () => {
    const { notes } = place('C C', 'C5 D5 E5 F5 G5 A5 G5 F5 | E5');
    expect(
      notes
        .slice(0, 8)
        .map(({ string, fret, way }) => `${string}:${fret} ${way.finger}`)
        .join(', '),
    ).toBe('1:3 3, 1:5 4, 1:7 1, 1:8 2, 1:10 3, 1:12 4, 1:10 3, 1:8 2');
  });

  test('of any notes: nothing is crossed', () => {
    const cases = fc.record({
      neck: fc.constantFrom(...NECKS),
      chords: fc.constantFrom('C Am F G', 'G D Em C', 'Am Dm E7 Am', 'F Bb C7 F'),
      notes: fc.array(fc.constantFrom(...'C4 D4 E4 F4 F#4 G4 A4 Bb4 B4 C5 C#5 D5 E5 F5 G5'.split(' ')), {
        minLength: 16,
        maxLength: 16,
      }),
      ring: fc.constantFrom<readonly number[]>([], [], [1], [3], [2, 4]),
    });
    let rows = 0;
    for (const { neck, chords, notes, ring } of fc.sample(cases, { seed: SEED, numRuns: 60 })) {
      const placed = place(chords, notes.join(' '), { instrument: neck, ring });
      for (const row of rowsOf(placed.notes)) {
        expect(crossedIn(row)).toEqual([]);
        rows += 1;
      }
    }
    expect(rows).toBeGreaterThan(100);
  });
});
