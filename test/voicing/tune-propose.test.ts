import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { changeBetween } from '../../shared/hand/change-between.ts';
import { neededSecondsFor } from '../../shared/hand/change-speed.ts';
import type { Fingering } from '../../shared/hand/fingering.ts';
import { judgeFingers } from '../../shared/hand/given-fingers.ts';
import { soundingMidi } from '../../shared/neck/pitches.ts';
import { chordTones } from '../../shared/theory/chord-symbol.ts';
import { diatonicChords } from '../../shared/theory/key.ts';
import { pitchClass, printPitch } from '../../shared/theory/note.ts';
import { CONTOURS } from '../../shared/voicing/tune/line.ts';
import { proposeTune } from '../../shared/voicing/tune/propose-tune.ts';
import { readScale, scaleOfKey } from '../../shared/voicing/tune/scale.ts';
import type { TuneNote } from '../../shared/voicing/tune/tune.ts';
import type { TuneRequest } from '../../shared/voicing/tune/tune-problem.ts';
import { whyNoTune } from '../../shared/voicing/tune/why-no-tune.ts';
import { HIGH_G, instrument } from '../neck/playing.ts';
import { key, reading, SEED } from '../theory/reading.ts';
import { groundOf, tunesOver } from './tunes.ts';

/** `E4 F#4 G4 | C5`: the pitches, a bar line where a bar begins. */
function sung(notes: readonly TuneNote[]): string {
  return notes
    .map((note, at) => `${at > 0 && notes[at - 1]?.bar !== note.bar ? '| ' : ''}${printPitch(note.pitch)}`)
    .join(' ');
}

describe('tunes that were sung and found good', () => {
  // A teacher's ear, written down so that a change of weights is heard: common practice, no source.
  test.each([
    ['Em:0432 C:0003 G:0232 D:2220', 'arch', 'E4 F#4 G4 A4 B4 | C5 D5 E5 | D5 C5 B4 A4 G4 | F#4 E4 D4'],
    [
      'C:0003 Am:2000 F:2010 G7:0212 C:0003 Am:2000 Dm7:2213 C:0003',
      'arch',
      'C4 D4 E4 F4 G4 | A4 B4 C5 | C5 B4 A4 G4 F4 | F4 E4 D4 | C4 D4 E4 F4 G4 | A4 B4 C5 | C5 B4 A4 G4 F4 | E4 D4 C4',
    ],
  ] as const)('%s, %s', (written, contour, tune) => {
    expect(sung(tunesOver(written, contour)[0]?.notes ?? [])).toBe(tune);
  });
});

const KEYS = ['C major', 'G major', 'E minor', 'F major', 'A minor', 'D major', 'Bb major', 'D minor'];
const NECKS = ['tenor ukulele', 'baritone ukulele', 'tenor ukulele, low G', 'guitar'].map(instrument);

/** Progressions of two to five chords that belong to a key. */
const arbitraryRequest = fc
  .record({
    neck: fc.constantFrom(...NECKS),
    home: fc.constantFrom(...KEYS),
    degrees: fc.array(fc.nat(6), { minLength: 2, maxLength: 5 }),
    contour: fc.constantFrom(...CONTOURS),
    ring: fc.constantFrom<readonly number[]>([], [1], [2], [4]),
    beats: fc.constantFrom(60, 80, 100),
  })
  .map(({ neck, home, degrees, contour, ring, beats }): TuneRequest => {
    const triads = diatonicChords(key(home)).slice(0, 7);
    const names = degrees.map((degree) => triads[degree]?.text ?? 'C');
    const ground = groundOf(names.join(' '), { instrument: neck, scale: scaleOfKey(key(home)), ring });
    return { ...ground, contour, secondsPerCount: 60 / beats };
  });

/** Found once for all properties: the requests, and what was proposed for those that have a tune. */
const PROPOSED = fc.sample(arbitraryRequest, { seed: SEED, numRuns: 60 }).flatMap((request) => {
  const found = proposeTune(request);
  return found.ok ? found.tunes.map((tune) => ({ request, tune, held: found.chords })) : [];
});

/** What stands on the board while a note sounds, as a shape with its fingers: lower fingers on the note's string stand behind it. */
function heldDown({ way }: TuneNote, strings: number) {
  const frets = new Array<number>(strings).fill(0);
  const fingers = new Array<number | 'T'>(strings).fill(0);
  for (const { finger, fret, from, to } of way.presses) {
    for (let at = from; at <= to; at += 1) {
      if ((frets[at] ?? 0) >= fret) continue;
      frets[at] = fret;
      fingers[at] = finger;
    }
  }
  return { frets, fingers };
}

describe('every tune that is proposed', () => {
  test('there are many to look at', () => expect(PROPOSED.length).toBeGreaterThan(50));

  test('keeps to the key, or to the tones of its chord', () => {
    for (const { request, tune } of PROPOSED) {
      const own = new Set(request.scale.notes.map(pitchClass));
      for (const { midi, chord } of tune.notes) {
        const tones = chordTones(chord.symbol).map(({ note }) => pitchClass(note));
        expect(own.has(midi % 12) || tones.includes(midi % 12)).toBe(true);
      }
    }
  });

  test('has a tone of the chord on counts 1 and 3', () => {
    for (const { tune } of PROPOSED) {
      for (const { tick, midi, chord } of tune.notes) {
        const tones = chordTones(chord.symbol).map(({ note }) => pitchClass(note));
        if (tick === 0 || tick === 24) expect(tones).toContain(midi % 12);
      }
    }
  });

  test('ends on the root or third of its chord, where the shape has one inside', () => {
    const ends = PROPOSED.map(({ tune }) => tune.notes.at(-1)?.tone.role.degree);
    expect(ends.filter((degree) => degree === 1 || degree === 3).length).toBeGreaterThan(0.95 * ends.length);
  });

  test('comes to tones outside the chord by step and leaves them by step', () => {
    for (const { tune } of PROPOSED) {
      for (const [at, { midi, tone }] of tune.notes.entries()) {
        if (tone.inChord) continue;
        const [before, after] = [tune.notes[at - 1], tune.notes[at + 1]];
        expect(Math.abs(midi - (before?.midi ?? midi + 1))).toBeOneOf([1, 2]);
        const waits = after?.midi === midi && after.chord !== tune.notes[at]?.chord;
        if (!waits) expect(Math.abs(midi - (after?.midi ?? midi + 1))).toBeOneOf([1, 2]);
      }
    }
  });

  test('sounds the pitch it says, from the string it says', () => {
    for (const { request, tune } of PROPOSED) {
      const strings = request.instrument.openStrings.length;
      for (const { stringIndex, string, fret, midi } of tune.notes) {
        const sounding = request.instrument.openStrings.map((_, at) =>
          at === stringIndex ? fret : ('muted' as const),
        );
        expect(soundingMidi(request.instrument, sounding)[stringIndex]).toBe(midi);
        expect(string).toBe(strings - stringIndex);
      }
    }
  });

  test('stops no string that must ring', () => {
    let ringing = 0;
    for (const { request, tune } of PROPOSED) {
      const strings = request.instrument.openStrings.length;
      for (const note of tune.notes) {
        for (const string of request.ring ?? []) {
          const at = strings - string;
          const { frets } = heldDown(note, strings);
          const own = note.chord.shape[at];
          if (own === 'muted' || own === undefined) continue;
          // The string sounds what the shape sounds, plucked or not.
          expect(note.string === string ? note.fret : (frets[at] ?? 0)).toBe(own);
          ringing += 1;
        }
      }
    }
    expect(ringing).toBeGreaterThan(200);
  });

  test('can be held: the judge of given fingers has nothing against any note', () => {
    for (const { request, tune } of PROPOSED) {
      const strings = request.instrument.openStrings.length;
      for (const note of tune.notes) {
        const { frets, fingers } = heldDown(note, strings);
        expect(frets[note.stringIndex]).toBe(note.fret);
        expect(fingers[note.stringIndex]).toBe(note.way.finger ?? 0);
        // Strings that nothing stops may be touched; whether they ring is asked above.
        const sounding = frets.map((fret, at) =>
          fret === 0 && note.chord.shape[at] !== 0 ? ('muted' as const) : fret,
        );
        expect(judgeFingers(request.instrument, sounding, fingers, request.hand).faults).toEqual([]);
      }
    }
  });

  test('has two different notes in a row, but for a tone that two chords share', () => {
    const repeats = PROPOSED.flatMap(({ tune }) =>
      tune.notes.flatMap(({ midi, chord }, at) =>
        tune.notes[at - 1]?.midi === midi && tune.notes[at - 1]?.chord === chord ? [at] : [],
      ),
    );
    const notes = PROPOSED.reduce((sum, { tune }) => sum + tune.notes.length, 0);
    expect(repeats.length).toBeLessThan(0.05 * notes);
  });

  test('is in time: from stopped note to note the fingers need no longer than there is', () => {
    for (const { request, tune } of PROPOSED) {
      const perTick = (request.secondsPerCount ?? 0) / 12;
      for (const [at, note] of tune.notes.entries()) {
        const before = tune.notes[at - 1];
        if (before === undefined || before.fret === 0) continue;
        const hand = ({ way }: TuneNote): Fingering => ({ ...FINGERLESS, presses: way.presses });
        const change = changeBetween(request.instrument, hand(before), hand(note));
        expect(neededSecondsFor(change)).toBeLessThanOrEqual(before.length * perTick + 1e-9);
      }
    }
  });
});

const FINGERLESS: Fingering = {
  fingers: [],
  presses: [],
  cost: { reach: 0, fingers: 0, barre: 0, awkwardness: 0, reversed: 0, total: 0 },
  verdict: 'comfortable',
  silent: [],
  reasons: [],
};

describe('contours are heard', () => {
  /** Mean pitch of a third of the tune. */
  function third(notes: readonly TuneNote[], which: 0 | 1 | 2): number {
    const part = notes.filter((_, at) => Math.floor((3 * at) / notes.length) === which);
    return part.reduce((sum, { midi }) => sum + midi, 0) / part.length;
  }

  test.each(['Em:0432 C:0003 G:0232 D:2220', 'C Am F G7', 'F Bb C7 F', 'G Em C D7', 'Am Dm E7 Am'])(
    'over %s',
    (written) => {
      for (const tune of tunesOver(written, 'rise')) expect(third(tune.notes, 2)).toBeGreaterThan(third(tune.notes, 0));
      for (const tune of tunesOver(written, 'fall')) expect(third(tune.notes, 2)).toBeLessThan(third(tune.notes, 0));
      for (const tune of tunesOver(written, 'arch')) {
        expect(third(tune.notes, 1)).toBeGreaterThan(third(tune.notes, 0));
        expect(third(tune.notes, 1)).toBeGreaterThan(third(tune.notes, 2));
      }
      for (const { notes } of tunesOver(written, 'answer')) {
        const call = notes.filter(({ bar }) => bar < 2);
        const answer = notes.filter(({ bar }) => bar >= 2);
        expect(call.at(-1)?.midi ?? 0).toBeGreaterThan(call[0]?.midi ?? 0);
        expect(answer.at(-1)?.midi ?? 0).toBeLessThan(answer[0]?.midi ?? 0);
      }
    },
  );
});

test('raised by two semitones, strings and all: the same places and fingers', () => {
  const raised = instrument('tenor ukulele, D tuning');
  for (const contour of CONTOURS) {
    const plain = tunesOver('Em:0432 C:0003 G:0232 D:2220', contour, { instrument: HIGH_G });
    const up = tunesOver('F#m:0432 D:0003 A:0232 E:2220', contour, { instrument: raised });
    const places = (tunes: typeof plain) =>
      tunes.map(({ notes }) => notes.map(({ string, fret, way }) => `${string}:${fret} ${way.finger ?? 0}`).join(', '));
    expect(places(up)).toEqual(places(plain));
    expect(up.map(({ points }) => points)).toEqual(plain.map(({ points }) => points));
  }
});

describe('wishes', () => {
  test('a chosen scale is kept to in every note', () => {
    const scale = reading(readScale('E minor pentatonic'));
    const own = new Set(scale.notes.map(pitchClass));
    const [tune] = tunesOver('Em:0432 G:0232 D:2220 Em:0432', 'arch', { scale, strictly: true });
    expect(tune?.notes.every(({ midi }) => own.has(midi % 12))).toBe(true);
  });

  test('notes come again where that is wished, and hardly where it is not', () => {
    const again = (mayRepeat: boolean) => {
      const [tune] = tunesOver('Am:2000 Em:0432 Am:2000 Em:0432', 'rise', { mayRepeat });
      return tune?.notes.filter(({ midi }, at) => tune.notes[at - 1]?.midi === midi).length ?? 0;
    };
    expect(again(true)).toBeGreaterThan(again(false));
  });

  test('a rhythm is kept to in every bar', () => {
    const [tune] = tunesOver('C F', 'arch', { rhythm: [0, 18, 24] });
    expect(tune?.notes.map(({ bar, tick }) => `${bar}+${tick}`)).toEqual([
      '0+0',
      '0+18',
      '0+24',
      '1+0',
      '1+18',
      '1+24',
    ]);
  });

  test('two chords in a bar: each has its own tones from where it begins', () => {
    const [tune] = tunesOver('C+G7 F+C', 'arch');
    const begins = tune?.notes
      .filter(({ tick }) => tick === 24)
      .map(({ chord, tone }) => `${chord.name} ${tone.inChord}`);
    expect(begins).toEqual(['G7 true', 'C true']);
  });

  test('what is proposed beside the best one is really another tune', () => {
    const tunes = tunesOver('C Am F G7', 'answer');
    expect(tunes.length).toBeGreaterThan(1);
    const [first, second] = tunes.map(({ notes }) => notes.map(({ midi }) => midi));
    const others = first?.filter((midi, at) => midi !== second?.[at]).length ?? 0;
    expect(others).toBeGreaterThanOrEqual(0.3 * (first?.length ?? 0));
  });
});

describe('why there is none', () => {
  function why(written: string, more: Partial<TuneRequest>): string {
    const found = proposeTune({ ...groundOf(written, more), contour: 'arch', ...more });
    return found.ok ? 'there is one' : found.message;
  }

  test('the tempo', () => {
    expect(why('Em C G D', { secondsPerCount: 60 / 320 })).toMatch(/At 320 beats a minute .* at \d+ they are\./);
  });

  test('ringing strings, and which of them', () => {
    const request = { ...groundOf('Em C', { ring: [1, 2] }), contour: 'arch' as const };
    const withoutSecond = ({ ring = [] }: TuneRequest) => !ring.includes(2);
    expect(whyNoTune(request, [], withoutSecond)).toBe(
      'There is no tune that leaves string 2 ringing; without that there is one.',
    );
    const withoutAny = ({ ring = [] }: TuneRequest) => ring.length === 0;
    expect(whyNoTune(request, [], withoutAny)).toMatch(/^There is no tune that leaves strings 1 and 2 ringing/);
  });

  test('a scale that has no tone of a chord', () => {
    const scale = reading(readScale('C# major pentatonic'));
    expect(why('C:0003 F:2010', { scale, strictly: true })).toMatch(/C# major pentatonic alone/);
  });

  test('a chord that cannot be held', () => {
    expect(why('C:1-9-1-9', {})).toMatch(/^C: /);
  });
});
