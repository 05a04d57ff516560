import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import type { Finger } from '../../shared/hand/finger.ts';
import { judgeFingers } from '../../shared/hand/given-fingers.ts';
import { handModel } from '../../shared/hand/hand.ts';
import { pairLimit } from '../../shared/hand/hand-model.ts';
import { fingertipMm } from '../../shared/neck/fingertip.ts';
import { printPitch } from '../../shared/theory/note.ts';
import { printRole } from '../../shared/theory/role.ts';
import { shapesFor } from '../../shared/voicing/shapes.ts';
import { type HandOnShape, waysInside } from '../../shared/voicing/tune/inside-way.ts';
import type { InsideNote } from '../../shared/voicing/tune/notes-inside.ts';
import { HIGH_G, instrument } from '../neck/playing.ts';
import { chord, SEED } from '../theory/reading.ts';
import { held, inside } from './tunes.ts';

/** `1:5 D5 ♭7 free4`: place, pitch, role and the best way. */
function told({ string, fret, pitch, tone, ways: [way] }: InsideNote): string {
  const lifts = way.lifted === undefined ? '' : ` lifts ${way.lifted}`;
  return `${string}:${fret} ${printPitch(pitch)} ${printRole(tone.role, 'letters')} ${way.sort}${way.finger ?? ''}${lifts}`;
}

describe('notes inside a shape', () => {
  // Worked out by hand on the neck: C held with the ring finger alone.
  test('of C, near the nut', () => {
    const near = inside('C', '0003', 'C major').filter(({ fret }) => fret <= 5);
    expect(near.map(told)).toEqual([
      '1:0 A4 13 lifted lifts 3',
      '1:2 B4 7 lifted2 lifts 3',
      '1:3 C5 1 own3',
      '1:5 D5 9 free4',
      '2:0 E4 3 own',
      '2:1 F4 11 free1',
      '2:3 G4 5 free2',
      '2:5 A4 13 free4',
      '3:0 C4 1 own',
      '3:2 D4 9 free2',
      '3:4 E4 3 free4',
      '3:5 F4 11 free4',
      '4:0 G4 5 own',
      '4:2 A4 13 free2',
      '4:4 B4 7 free4',
      '4:5 C5 1 free4',
    ]);
  });

  test('under a barre nothing is open, and what is stopped lower is out of the hand', () => {
    const notes = inside('Bm', '4222', 'B minor');
    expect(notes.filter(({ fret, ways: [way] }) => fret < 2 && way.sort !== 'lifted')).toEqual([]);
    expect(notes.some(({ string, fret, ways: [way] }) => string === 1 && fret === 3 && way.sort === 'free')).toBe(
      false,
    );
    expect(notes.some(({ string, fret, ways: [way] }) => string === 1 && fret === 4 && way.sort === 'free')).toBe(true);
  });

  test('a finger stays down behind a higher note of its string', () => {
    const note = inside('C', '0003', 'C major').find(({ string, fret }) => string === 1 && fret === 5);
    expect(note?.ways[0].presses.map(({ finger, fret }) => `${finger}:${fret}`)).toEqual(['3:3', '4:5']);
    expect(note?.ways[0].takes).toEqual([3]);
  });
});

// The search is checked by another road: every finger is tried on the note, and the judge of given fingers says what works.

interface Tried {
  readonly finger: Finger | 0;
  readonly lifted: Finger | 0;
}

const FINGERS: readonly Finger[] = [1, 2, 3, 4];

function tryAll(on: HandOnShape, stringIndex: number, fret: number): readonly Tried[] {
  const { fingering, shape } = on;
  const own = fingering.fingers[stringIndex];
  return [0 as const, ...fingering.presses.map(({ finger }) => finger)].flatMap((lifted) =>
    ([0, ...FINGERS] as const).flatMap((finger): readonly Tried[] => {
      if ((finger === 0) !== (fret === 0)) return [];
      const letGo = (at: number) => lifted !== 0 && fingering.fingers[at] === lifted;
      const stopped = shape[stringIndex];
      if (typeof stopped === 'number' && stopped >= fret && !letGo(stringIndex)) return [];
      const kept = fingering.presses.filter((press) => press.finger !== lifted);
      const again = kept.find((press) => press.finger === finger);
      // A finger that holds something else must lie in the same fret, and one on this very string is in the way.
      if (again !== undefined && (again.fret !== fret || own === finger)) return [];
      const sounding = shape.map((one, at) => (at === stringIndex ? fret : letGo(at) ? ('muted' as const) : one));
      const fingers = shape.map((_, at) =>
        at === stringIndex ? finger : letGo(at) ? 0 : (fingering.fingers[at] ?? 0),
      );
      if (judgeFingers(on.instrument, sounding, fingers, on.hand).faults.length > 0) return [];
      const behind = own === lifted || own === undefined ? undefined : own;
      return behind !== undefined && !canStandBefore(on, behind, finger, Number(stopped), fret)
        ? []
        : [{ finger, lifted }];
    }),
  );
}

function canStandBefore(on: HandOnShape, behind: Finger | 0, front: Finger | 0, low: number, high: number): boolean {
  if (behind === 0 || front === 0 || behind === 'T' || front === 'T' || front <= behind) return false;
  const mm = fingertipMm(on.instrument.scaleLengthMm, high) - fingertipMm(on.instrument.scaleLengthMm, low);
  return mm <= pairLimit(handModel(on.hand), behind, front).greatestMm;
}

function tellTried(all: readonly Tried[]): string {
  return [...new Set(all.map(({ finger, lifted }) => `${finger}/${lifted}`))].sort().join(' ');
}

describe('every finger tried on every note', () => {
  const NECKS = ['soprano ukulele', 'tenor ukulele, low G', 'tuned G4 C4 E4 A4 E5 scale 400 mm frets 12'].map(
    instrument,
  );
  const CHORDS = ['C', 'Am', 'G7', 'Em', 'Bb', 'D', 'E', 'Fm', 'Cmaj7', 'Bm'];

  test('gives the same ways as the search, small necks', () => {
    const cases = fc.record({
      neck: fc.constantFrom(...NECKS),
      name: fc.constantFrom(...CHORDS),
      rank: fc.nat(5),
      hand: fc.constantFrom('small' as const, 'medium' as const, 'large' as const),
      stringIndex: fc.nat(4),
      fret: fc.nat(9),
    });
    let compared = 0;
    fc.assert(
      fc.property(cases, ({ neck, name, rank, hand, stringIndex, fret }) => {
        const shape = shapesFor(chord(name), neck, { max: 6 })[rank]?.shape;
        if (shape === undefined || stringIndex >= shape.length || shape[stringIndex] === fret) return;
        const on = held(shape.map((one) => (one === 'muted' ? 'x' : one)).join('-'), neck, hand);
        if (on.fingering.verdict === 'out-of-reach') return;
        const found = waysInside(on)(stringIndex, fret).map((way) => ({
          finger: way.finger ?? (0 as const),
          lifted: way.lifted ?? (0 as const),
        }));
        const tried = tryAll(on, stringIndex, fret);
        // Ways without a lifted finger are always all there; lifted ones only where the shape cannot be kept at ease.
        const keeping = ({ lifted }: Tried) => lifted === 0;
        expect(tellTried(found.filter(keeping))).toBe(tellTried(tried.filter(keeping)));
        for (const way of found) expect(tellTried(tried)).toContain(tellTried([way]));
        if (found.length === 0 && on.fingering.presses.length > 1) expect(nearOnes(on, tried, fret)).toEqual([]);
        compared += tried.length;
      }),
      { seed: SEED, numRuns: 700 },
    );
    expect(compared).toBeGreaterThan(400);
  });
});

/** Of the tried ones those for which the hand keeps its place: it does not go where no pair of its fingers reaches. */
function nearOnes(on: HandOnShape, tried: readonly Tried[], fret: number): readonly Tried[] {
  const limits = handModel(on.hand).limits.flat();
  const greatest = Math.max(...limits.map((limit) => limit?.greatestMm ?? 0));
  const mm = (at: number) => fingertipMm(on.instrument.scaleLengthMm, at);
  return tried.filter(
    () => fret === 0 || on.fingering.presses.some((press) => Math.abs(mm(press.fret) - mm(fret)) <= greatest),
  );
}

describe('theorems', () => {
  test('strings and music raised by two semitones: the same places, fingers and roles', () => {
    const raised = instrument('tenor ukulele, D tuning');
    const pairs = [
      ['Em', '0432', 'E minor', 'F#m', 'F# minor'],
      ['C', '0003', 'C major', 'D', 'D major'],
      ['Bb', '3211', 'F major', 'C', 'G major'],
    ] as const;
    const plain = (note: InsideNote) => [note.string, note.fret, printRole(note.tone.role), note.ways];
    for (const [name, frets, scale, nameUp, scaleUp] of pairs) {
      expect(inside(nameUp, frets, scaleUp, raised).map(plain)).toEqual(inside(name, frets, scale).map(plain));
    }
  });

  test('a larger hand has all that a smaller one has', () => {
    for (const frets of ['0432', '2220', '4442', '3211', '7565']) {
      const small = held(frets, HIGH_G, 'small');
      const large = { ...small, hand: 'large' as const };
      for (let stringIndex = 0; stringIndex < 4; stringIndex += 1) {
        for (let fret = 0; fret <= 12; fret += 1) {
          const has = waysInside(small)(stringIndex, fret).length > 0;
          if (has) expect(waysInside(large)(stringIndex, fret).length).toBeGreaterThan(0);
        }
      }
    }
  });
});
