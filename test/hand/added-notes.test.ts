import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type AddedNote,
  canAdd,
  canPlayTogether,
  fingersForAdded,
  keepingOnly,
  keptBy,
  liftsForAdded,
  nearestFinger,
} from '../../shared/hand/added-notes.ts';
import type { Finger } from '../../shared/hand/finger.ts';
import type { Fingering } from '../../shared/hand/fingering.ts';
import { fingeringsOf } from '../../shared/hand/fingering-search.ts';
import type { Fret, Shape } from '../../shared/neck/shape.ts';
import { HIGH_G, instrument, shape } from '../neck/playing.ts';

/** One seed for all: a failure today is the same failure tomorrow. */
const SEED = 20_261_125;

function held(frets: string, fingers: string): ReturnType<typeof keptBy> {
  const way = fingeringsOf(HIGH_G, shape(frets), 'medium').find(
    (one) => one.fingers.map((finger) => finger ?? 0).join('') === fingers,
  );
  if (way === undefined) throw new Error(`${frets} is not held with ${fingers}.`);
  return keptBy(HIGH_G, 'medium', shape(frets), way);
}

describe('against every fingering of the shape with the note in it, found by search', () => {
  const NECKS = [HIGH_G, instrument('baritone ukulele'), instrument('soprano ukulele')];
  const fret = fc.oneof(fc.constantFrom<Fret>(0, 'muted'), fc.integer({ min: 1, max: 6 }));
  const question = fc.record({
    neck: fc.constantFrom(...NECKS),
    frets: fc.array(fret, { minLength: 4, maxLength: 4 }),
    which: fc.nat(),
    string: fc.nat({ max: 3 }),
    note: fc.integer({ min: 0, max: 9 }),
  });

  /** Fingers that some holdable way gives the note while every other string has the finger that it had. */
  function fromSearch(neck: typeof HIGH_G, frets: Shape, way: Fingering, notes: readonly AddedNote[]) {
    const withNotes = frets.map((old, at) => notes.find(({ stringIndex }) => stringIndex === at)?.fret ?? old);
    return fingeringsOf(neck, withNotes, 'medium').filter(
      (other) =>
        other.verdict !== 'out-of-reach' &&
        other.fingers.every(
          (finger, at) => notes.some(({ stringIndex }) => stringIndex === at) || finger === way.fingers[at],
        ),
    );
  }

  test('one note: the same fingers', () => {
    let reached = 0;
    let beyond = 0;
    fc.assert(
      fc.property(question, ({ neck, frets, which, string, note }) => {
        const ways = fingeringsOf(neck, frets, 'medium').filter(({ verdict }) => verdict !== 'out-of-reach');
        const way = ways[which % Math.max(1, ways.length)];
        if (way === undefined) return;
        const added = { stringIndex: string, fret: note };
        const kept = keptBy(neck, 'medium', frets, way);
        const found = fromSearch(neck, frets, way, [added]).map(({ fingers }) => fingers[string] ?? 0);
        expect(fingersForAdded(kept, added)).toEqual([...new Set(found)].sort());
        expect(canAdd(kept, added)).toBe(found.length > 0);
        if (found.length > 0) reached += 1;
        else beyond += 1;
      }),
      { seed: SEED, numRuns: 400 },
    );
    // Both answers came up often enough to mean something.
    expect(Math.min(reached, beyond)).toBeGreaterThan(50);
  });

  test('a finger that lifts: the same fingers as where the search keeps all the other strings', () => {
    let lifting = 0;
    fc.assert(
      fc.property(question, fc.constantFrom(1, 2, 3, 4), ({ neck, frets, which, string, note }, number) => {
        const ways = fingeringsOf(neck, frets, 'medium').filter(({ verdict }) => verdict !== 'out-of-reach');
        const way = ways[which % Math.max(1, ways.length)];
        if (way === undefined) return;
        const finger = note === 0 ? 0 : (number as Finger);
        const held = [...new Set(way.presses.map((press) => press.finger))];
        const found = held.filter((lifted) => {
          const silenced = frets.map((fret, at): Fret => (way.fingers[at] === lifted ? 'muted' : fret));
          const fingers = way.fingers.map((one) => (one === lifted ? undefined : one));
          const rest = { ...way, fingers };
          const ends = fromSearch(neck, silenced, rest, [{ stringIndex: string, fret: note }]);
          return ends.some((end) => (end.fingers[string] ?? 0) === finger);
        });
        const lifts = liftsForAdded(keptBy(neck, 'medium', frets, way), { stringIndex: string, fret: note }, finger);
        expect([...lifts].sort()).toEqual([...found].sort());
        if (found.length > 0) lifting += 1;
      }),
      { seed: SEED, numRuns: 400 },
    );
    expect(lifting).toBeGreaterThan(50);
  });

  test('two notes at once: possible where the search finds a way', () => {
    fc.assert(
      fc.property(question, fc.integer({ min: 1, max: 9 }), ({ neck, frets, which, string, note }, second) => {
        const ways = fingeringsOf(neck, frets, 'medium').filter(({ verdict }) => verdict !== 'out-of-reach');
        const way = ways[which % Math.max(1, ways.length)];
        if (way === undefined) return;
        const notes = [
          { stringIndex: string, fret: note },
          { stringIndex: (string + 1) % 4, fret: second },
        ];
        const found = fromSearch(neck, frets, way, notes).length > 0;
        expect(canPlayTogether(keptBy(neck, 'medium', frets, way), notes)).toBe(found);
      }),
      { seed: SEED, numRuns: 400 },
    );
  });
});

describe('what a teacher would say of Em, held with 3 2 1', () => {
  const em = held('0432', '0321');
  const onFirst = (fret: number): AddedNote => ({ stringIndex: 3, fret });

  // Common practice, no source.
  test.each([
    ['the open string, for which the index finger lifts', 0, [0]],
    ['a fret that the little finger has beside the ring finger', 5, [4]],
    ['the string’s own fret', 2, [1]],
  ])('%s', (_what, fret, fingers) => expect(fingersForAdded(em, onFirst(fret))).toEqual(fingers));

  test('fret 9 is beyond every finger; the little finger is free and comes nearest', () => {
    expect(canAdd(em, onFirst(9))).toBe(false);
    const nearest = nearestFinger(em, onFirst(9));
    expect(nearest?.finger).toBe(4);
    expect(nearest?.fret).toBeGreaterThanOrEqual(5);
    expect(canAdd(em, onFirst(nearest?.fret ?? 9))).toBe(true);
  });

  test('where only string 3 must stay, the other fingers are free too', () => {
    const loose = keepingOnly(em, (at) => at === 1);
    expect(fingersForAdded(loose, onFirst(5))).toEqual([4]);
    expect(fingersForAdded(loose, onFirst(3))).toEqual([1, 2]);
    // The middle finger can only lie down over the string beside its own.
    expect(fingersForAdded(em, onFirst(3))).toEqual([1, 2]);
    expect(fingersForAdded(em, onFirst(4))).toEqual([4]);
    // Lying down, standing beside, or changed places with its neighbour.
    expect(fingersForAdded(loose, onFirst(4))).toEqual([2, 3, 4]);
  });

  test('a string under the middle of a barre cannot ring open', () => {
    expect(canAdd(held('5558', '1114'), { stringIndex: 1, fret: 0 })).toBe(false);
  });
});
