import fc from 'fast-check';
import { Chord, Note } from 'tonal';
import { describe, expect, test } from 'vitest';
import { problemsOf } from '../../../shared/lesson/check/problems.ts';
import { editDocument, type LessonDocument, openDocument } from '../../../shared/lesson/document.ts';
import { lessonDifficulty } from '../../../shared/lesson/model/fingerings.ts';
import { lessonOf } from '../../../shared/lesson/model/lesson.ts';
import { longestMention } from '../../../shared/lesson/model/mentions.ts';
import { ringOfExercise } from '../../../shared/lesson/model/moved-ring.ts';
import type { Scope } from '../../../shared/lesson/model/scope.ts';
import { scopeOf } from '../../../shared/lesson/model/scope-of-lesson.ts';
import { printShape } from '../../../shared/neck/shape.ts';
import { namesMoveBy } from '../../../shared/neck/tuning-distance.ts';
import { printKey } from '../../../shared/theory/key.ts';
import { printNote } from '../../../shared/theory/note.ts';
import { problemsIn } from '../check/checking.ts';
import { chordsThere, editionsIn, heldThere, rowsThere, soundsThere, tonalMidi, tonalPitches } from './on-edition.ts';

// Case numbers are those of the list of questions that players ask; what a case expects stands in its test. Tunings and intervals
// were worked out by hand, and every pitch is asked of tonal 6.4.3.

const UKULELE = 'chord C 0-0-0-3\nchord Am 2-0-0-0\nchord F 2-0-1-0\nchord G 0-2-3-2\n';

describe('the same shapes', () => {
  test('D-1 must: C Am F G on a baritone sound G Em C D, a fourth below low G', () => {
    const [own, bari, low] = editionsIn(
      `also baritone ukulele, same shapes, called bari\nalso tenor ukulele, low G, same shapes, called low\nkey C\n${UKULELE}`,
    );
    expect(chordsThere(bari)).toEqual(['G 0-0-0-3', 'Em 2-0-0-0', 'C 2-0-1-0', 'D 0-2-3-2']);
    const sounds = (text: string) =>
      tonalPitches(bari?.edition().instrument ?? own.edition().instrument, heldThere(bari, text)?.shape ?? []);
    expect(sounds('C')).toEqual(['D3', 'G3', 'B3', 'G4']);
    expect(sounds('Am')).toEqual(['E3', 'G3', 'B3', 'E4']);
    expect(sounds('F')).toEqual(['E3', 'G3', 'C4', 'E4']);
    expect(sounds('G')).toEqual(['D3', 'A3', 'D4', 'Gb4']);
    const apart = (other: typeof own | undefined) =>
      tonalMidi(own.edition().instrument, [0, 0, 0, 0]).map(
        (midi, at) =>
          (midi ?? 0) - (tonalMidi(other?.edition().instrument ?? own.edition().instrument, [0, 0, 0, 0])[at] ?? 0),
      );
    // Against high G string 4 lies 17 lower, the others a fourth; low G has all four a fourth above the baritone.
    expect(apart(bari)).toEqual([17, 5, 5, 5]);
    expect(apart(low)).toEqual([12, 0, 0, 0]);
    const key = bari?.setting('key');
    expect(key && printKey(key)).toBe('G major');
  });

  test('D-3 must: the twelve shapes of a baritone under a guitar’s names, a fourth up', () => {
    // The table of the case: shape names of a baritone ukulele and what the same shapes are called a fourth higher.
    const table = 'C>F C#>F# Db>Gb D>G D#>G# Eb>Ab E>A F>Bb F#>B Gb>B G>C G#>C# Ab>Db A>D A#>D# Bb>Eb B>E'.split(' ');
    for (const row of table) {
      const [from, to] = row.split('>');
      const [, tenor] = editionsIn(
        `for baritone ukulele\nalso tenor ukulele, low G, same shapes, called tenor\nchord ${from} 0-0-0-3\n`,
      );
      const name = heldThere(tenor, from ?? '')?.name;
      expect([from, Note.chroma(name ?? '')]).toEqual([from, Note.chroma(to ?? '')]);
    }
  });

  test('D-7 must: the name of typed frets follows the tuning: 2-0-1-0 is C on a baritone', () => {
    const wrong = problemsIn('for baritone ukulele\nchord F 2-0-1-0').find(({ code }) => code === 'chord.name');
    expect(wrong?.message).toContain('C');
    expect(problemsIn('for baritone ukulele\nchord C 2-0-1-0').some(({ code }) => code === 'chord.name')).toBe(false);
  });

  test('C-17 must: a capo counts frets from itself; names are those of the shapes, and the sheet says what sounds', () => {
    const [capo] = editionsIn(`for tenor ukulele, high G, capo 2\n${UKULELE}`);
    expect(chordsThere(capo)).toEqual(['C 0-0-0-3', 'Am 2-0-0-0', 'F 2-0-1-0', 'G 0-2-3-2']);
    const [, bari] = editionsIn(
      `also baritone ukulele, same shapes, called bari\nkey C\n${UKULELE}edition bari\n  capo 5\n`,
    );
    expect(bari?.edition().instrument.capoFret).toBe(5);
    // Names are those of the shapes in the hand, also above a capo.
    expect(chordsThere(bari)).toEqual(['G 0-0-0-3', 'Em 2-0-0-0', 'C 2-0-1-0', 'D 0-2-3-2']);
  });

  const TUNINGS = ['G4 C4 E4 A4', 'G3 C4 E4 A4', 'D3 G3 B3 E4', 'E2 A2 D3 G3 B3 E4', 'G3 D4 A4 E5'] as const;
  const KINDS = ['', 'm', '7', 'm7', 'maj7', 'sus4', 'dim', 'm7b5', '6', 'add9', '9'] as const;

  test('theorem: on a tuning that lies n half steps higher all names lie n half steps higher, and nothing else changes', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...TUNINGS),
        fc.integer({ min: -11, max: 11 }),
        fc.constantFrom('C', 'Db', 'D', 'E', 'F#', 'G', 'Bb'),
        fc.constantFrom(...KINDS),
        fc.constantFrom('C', 'G minor', 'E', 'Ab', 'B minor'),
        (tuning, by, root, kind, key) => {
          const raised = tuning.split(' ').map((pitch) => Note.fromMidiSharps((Note.midi(pitch) ?? 0) + by));
          const strings = tuning.split(' ').length;
          const shape = Array.from({ length: strings }, (_, at) => (at * 2) % 5).join('-');
          const [own, there] = editionsIn(
            `for tuned ${tuning}\nalso tuned ${raised.join(' ')}, same shapes, called there\nkey ${key}\nchord ${root}${kind} ${shape}\n`,
          );
          const [a, b] = [heldThere(own, `${root}${kind}`), heldThere(there, `${root}${kind}`)];
          expect(b?.shape).toEqual(a?.shape);
          expect(Note.chroma(printNote(b?.symbol.root ?? { letter: 'C', accidental: 0 })) ?? 0).toBe(
            ((Note.chroma(root) ?? 0) + by + 12) % 12,
          );
          expect(b?.symbol.kind).toBe(a?.symbol.kind);
          expect(b?.symbol.additions).toEqual(a?.symbol.additions);
          const tonic = there?.setting('key')?.tonic;
          expect(Note.chroma(printNote(tonic ?? { letter: 'C', accidental: 0 }))).toBe(
            ((Note.chroma(key.split(' ')[0] ?? '') ?? 0) + by + 12) % 12,
          );
        },
      ),
      { seed: 6, numRuns: 150 },
    );
  });

  test('theorem: a baritone is a tenor with low G a fourth lower, and a guitar’s upper strings', () => {
    const instrument = (name: string) => lessonOf(openDocument(`for ${name}`)).settings.instrument;
    // G to D, C to G, E to B, A to E: five half steps down, which is seven up. Source: the open strings.
    expect(namesMoveBy(instrument('tenor ukulele, low G'), instrument('baritone ukulele'))).toBe(7);
    expect(namesMoveBy(instrument('baritone ukulele'), instrument('tenor ukulele, low G'))).toBe(5);
    expect(namesMoveBy(instrument('baritone ukulele'), instrument('guitar'))).toBeUndefined();
    const [bari, guitar] = ['baritone ukulele', 'guitar'].map((name) => instrument(name).openStrings);
    expect(guitar?.slice(2)).toEqual(bari);
  });

  test('where the strings lie otherwise to each other, the frets are named anew', () => {
    const [, slack] = editionsIn('also tenor ukulele, slack key, same shapes, called slack\nchord C 0-0-0-3\n');
    // G C E and B flat: a C7. Source: the strings G4 C4 E4 G4 and three frets.
    expect(chordsThere(slack)).toEqual(['C7 0-0-0-3']);
  });
});

describe('the same key', () => {
  test('D-2 must: C Am F G on a baritone are 2-0-1-0, 2-2-1-0, 3-2-1-1 and 0-0-0-3', () => {
    const [, bari] = editionsIn(
      `also baritone ukulele, same key, called bari\n${UKULELE}progression v\n  | C | Am | F | G |\n`,
    );
    expect(chordsThere(bari)).toEqual(['C 2-0-1-0', 'Am 2-2-1-0', 'F 3-2-1-1', 'G 0-0-0-3']);
  });

  test('D-5 must: F in first position has no bass behind a stroke, whichever string is lowest', () => {
    const [high, low, bari] = editionsIn(
      'also tenor ukulele, low G, same shapes, called low\nalso baritone ukulele, same shapes, called bari\nchord F 2-0-1-0\n',
    );
    const lowest = (scope: typeof high | undefined) => {
      const midi = tonalMidi((scope ?? high).edition().instrument, heldThere(scope, 'F')?.shape ?? []);
      return Note.fromMidi(Math.min(...midi.flatMap((one) => one ?? [])));
    };
    expect([high, low, bari].map(lowest)).toEqual(['C4', 'A3', 'E3']);
    expect([high, low, bari].map((scope) => heldThere(scope, 'F')?.name)).toEqual(['F', 'F', 'C']);
  });

  describe('a bass behind a stroke', () => {
    const there = (other: string, bars: string) =>
      editionsIn(`for guitar\nalso ${other}, same key, called there\nprogression v\n  ${bars}\n`)[1];

    const taken = (edition: Scope | undefined, chords: string) =>
      chords.split(' ').map((name) => `${name} ${printShape(heldThere(edition, name)?.shape ?? [])}`);

    // Worked out by hand on G3 C4 E4 A4: F# is lowest from fret 11 of string 4 on, E from fret 9 on or above a silent string.
    test('is given up where it leads away from the other chords, and that is told', () => {
      const bars = '| D A7/E | Bm / / D/F# | G |';
      expect(taken(there('tenor ukulele, low G', bars), 'D A7/E Bm D/F# G')).toEqual([
        'D 2-2-2-0',
        'A7/E 0-1-0-0',
        'Bm 4-2-2-2',
        'D/F# 2-2-2-0',
        'G 0-2-3-2',
      ]);
      const lesson = `for guitar\nalso tenor ukulele, low G, same key, called there\nprogression v\n  ${bars}\n`;
      expect(problemsIn(lesson).find(({ code }) => code === 'edition.bass-elsewhere')?.message).toMatch(
        /^A7\/E is taken as 0-1-0-0 and D\/F# as 2-2-2-0 there, near the other chords: .* With them lowest there would be 9-\S+ and 11-9-10-\S+\. A chord line in edition there gives another shape\.$/,
      );
    });

    test('is kept where it lies near by', () => {
      // B is fret 4 of string 4 of a low G; G is the open string; C is fret 3 of string 5 of a guitar.
      expect(taken(there('tenor ukulele, low G', '| C | G/B | Am | C/G |'), 'C G/B Am C/G')).toEqual([
        'C 0-0-0-3',
        'G/B 4-2-3-2',
        'Am 2-0-0-0',
        'C/G 0-0-0-3',
      ]);
      const guitalele = there('guitalele', '| G | D/F# | Em |');
      const held = heldThere(guitalele, 'D/F#');
      const instrument = guitalele?.edition().instrument;
      if (held === undefined || instrument === undefined) throw new Error('no D/F# there');
      const midi = tonalMidi(instrument, held.shape).flatMap((one) => one ?? []);
      expect(Note.chroma(Note.fromMidi(Math.min(...midi)))).toBe(Note.chroma('F#'));
    });

    // A teacher has no chord of a progression four frets and more away from all others for its bass alone. Common practice, no source.
    test.each([
      'D A7/E Bm D/F# G',
      'C G/B Am C/G F',
      'Am Am/G F C/E G',
      'G D/F# Em Em/D C',
      'A E/G# F#m A/E D',
      'C C/D F/C G7/B C',
      'Dm Dm/F A7/C# Dm',
    ])('no leap for it in %s, and it sounds', (chords) => {
      for (const other of ['tenor ukulele, low G', 'tenor ukulele, high G', 'baritone ukulele']) {
        const edition = there(other, `| ${chords.replaceAll(' ', ' | ')} |`);
        for (const name of chords.split(' ').filter((one) => one.includes('/'))) {
          const held = heldThere(edition, name);
          const instrument = edition?.edition().instrument;
          if (held === undefined || instrument === undefined) throw new Error(`${other} has no ${name}`);
          const stopped = held.shape.flatMap((fret) => (fret === 'muted' || fret === 0 ? [] : [fret]));
          expect([other, name, stopped.length === 0 || Math.min(...stopped) <= 5]).toEqual([other, name, true]);
          const heard = tonalPitches(instrument, held.shape).map((pitch) => Note.chroma(pitch));
          expect(heard).toContain(Note.chroma(name.split('/')[1] ?? ''));
        }
      }
    });
  });

  test('strings of the same names keep the shapes and their fingers', () => {
    const [, low] = editionsIn('also concert ukulele, low G, same key, called low\nchord F 2-0-1-0 fingers 2-0-1-0\n');
    expect(heldThere(low, 'F')).toMatchObject({ shape: [2, 0, 1, 0], fingers: [2, 0, 1, 0], assumed: false });
  });

  const WALKS = [
    ['G', 'Em', 'C', 'D7'],
    ['F', 'Dm', 'Gm', 'C7', 'Bb'],
    ['A', 'F#m', 'D', 'E7', 'Bm'],
    ['Eb', 'Cm', 'Ab', 'Bb7'],
  ] as const;
  const OTHERS = ['baritone ukulele', 'guitar', 'guitalele', 'tenor ukulele, D tuning'] as const;

  test.each(WALKS.map((chords) => [chords.join(' '), chords] as const))(
    'shapes for %s sound nothing but the tones that tonal has for the name',
    (_name, chords) => {
      for (const other of OTHERS) {
        const [, there] = editionsIn(
          `also ${other}, same key, called there\nprogression v\n  | ${chords.join(' | ')} |\n`,
        );
        for (const name of chords) {
          const held = heldThere(there, name);
          const instrument = there?.edition().instrument;
          if (held === undefined || instrument === undefined) throw new Error(`${other} has no ${name}.`);
          const tones = new Set(Chord.get(name).notes.map((note) => Note.chroma(note)));
          const heard = new Set(tonalPitches(instrument, held.shape).map((pitch) => Note.chroma(pitch)));
          expect([...heard].filter((chroma) => !tones.has(chroma))).toEqual([]);
          // Root or third may be all that tells a chord apart; at least three tones of it sound.
          expect(heard.size).toBeGreaterThanOrEqual(3);
        }
      }
    },
  );

  test('together they are no harder than the usual shapes of the instrument', () => {
    for (const chords of WALKS) {
      for (const other of ['baritone ukulele', 'guitar']) {
        const bars = `progression v\n  | ${chords.join(' | ')} |\ntempo 80\n`;
        const [, there] = editionsIn(`also ${other}, same key, called there\n${bars}`);
        const [usual] = editionsIn(`for ${other}\n${bars}`);
        const total = (scope: typeof usual | undefined) => (scope && lessonDifficulty(scope)?.total) ?? 10;
        expect(total(there)).toBeLessThanOrEqual(total(usual) + 0.01);
      }
    }
  });

  test('a shape with a label stays in its region of the neck, and keeps its top note where it can', () => {
    const [own, bari] = editionsIn(
      'also baritone ukulele, same key, called bari\nchord C 0-0-0-3\nchord C.full 5-4-3-3\n',
    );
    const shape = heldThere(bari, 'C.full')?.shape ?? [];
    expect(shape.every((fret) => fret !== 'muted' && fret >= 4)).toBe(true);
    const top = (scope: typeof own) =>
      Math.max(
        ...tonalMidi(scope.edition().instrument, heldThere(scope, 'C.full')?.shape ?? []).flatMap((one) => one ?? []),
      );
    // C5 on top of both: string 1 fret 3 of one, fret 8 of the other.
    expect(Note.fromMidi(top(own))).toBe('C5');
    expect(bari && Note.fromMidi(top(bari))).toBe('C5');
    // The plain chord is the usual one, low on the neck.
    expect(chordsThere(bari)[0]).toBe('C 2-0-1-0');
  });

  test('asked again, also in a later document, the answer is the same value', () => {
    const text = `also guitar, same key, called six\n${UKULELE}melody m\n  C 1:3 1:2 1:0 .\n> A word.\n`;
    const document = openDocument(text);
    const at = text.indexOf('word');
    const edited = editDocument(document, { span: { start: at, end: at }, text: 'further ' });
    const there = (of: LessonDocument) => {
      const lesson = lessonOf(of);
      return scopeOf(lesson, lesson.editions[1]);
    };
    expect(heldThere(there(edited), 'F')?.shape).toBe(heldThere(there(document), 'F')?.shape);
    expect(there(edited).grid('melody', 'm')).toBe(there(document).grid('melody', 'm'));
    expect(there(edited).grid('melody', 'm')).not.toBe(there(document).editions()[0]?.grid('melody', 'm'));
  });
});

describe('tunes on another instrument', () => {
  const TUNE = `${UKULELE}progression v\n  | C | F |\nmelody m\n  count 1 2 3 4 | 1 2 3 4\n  tune 3:0 3:2 2:0 2:1 | 1:0 2:3 1:2 1:3\nexercise e\n  play v\n  with m\n`;

  test.each(['baritone ukulele', 'guitar', 'tenor ukulele, low G', 'guitalele', 'tenor ukulele, D tuning'])(
    'what %s has sounds the same',
    (other) => {
      const [own, there] = editionsIn(`also ${other}, same key, called there\nkey C\n${TUNE}`);
      if (there === undefined) throw new Error('There is no further edition.');
      const [a, b] = [soundsThere(own, 'melody', 'm'), soundsThere(there, 'melody', 'm')];
      const lowest = Math.min(
        ...tonalMidi(
          there.edition().instrument,
          there.edition().instrument.openStrings.map(() => 0),
        ).flatMap((one) => one ?? []),
      );
      expect(b).toEqual(a.map((midi) => (midi < lowest ? midi + 12 : midi)));
    },
  );

  test('D-4 must: a pickup on G3 does not exist in high G: low G, another key or an octave up, which changes the tune', () => {
    const lesson = `for tenor ukulele, low G\nalso tenor ukulele, high G, same key, called high\nkey C\n${UKULELE}progression v\n  count 4\n  | C | F | C |\nmelody m\n  count 4 | 1 2 3 4\n  tune 4:0 | 3:0 2:0 2:3 1:0\nexercise e\n  play v\n  with m\n`;
    const [own, high] = editionsIn(lesson);
    expect(soundsThere(own, 'melody', 'm').map((midi) => Note.fromMidi(midi))).toEqual(['G3', 'C4', 'E4', 'G4', 'A4']);
    expect(high && soundsThere(high, 'melody', 'm').map((midi) => Note.fromMidi(midi))).toEqual([
      'G4',
      'C4',
      'E4',
      'G4',
      'A4',
    ]);
    const told = problemsIn(lesson).filter(({ edition }) => edition === 'high');
    expect(told.map(({ code }) => code)).toEqual(['tune.note-apart']);
    const message = told[0]?.message ?? '';
    expect(message).toContain('On the tenor ukulele, high G: G3 is lower than any note');
    expect(message).toContain('With the strings tuned low G, G3 is on string 4 open.');
    expect(message).toContain('with F for its home note, all of it is there: C4 F4');
    expect(message).toContain('an octave higher there, on string 4 open, which changes the tune');
  });

  test('a note that the octave of the others takes below the neck is told: it changes the tune', () => {
    // An octave lower F4 A4 C5 are F3 A3 C4, which 3-2-1-1 has; C3 lies below D3, a baritone's lowest. Source: its strings D3 G3 B3 E4.
    const lesson =
      'also baritone ukulele, same key, called bari\nchord F 2-0-1-0\nmelody m\n  F 2:1 1:0 1:3 3:0\nprogression v\n  | F |\nexercise e\n  play v\n  with m\n';
    const [, bari] = editionsIn(lesson);
    const sounds = bari && soundsThere(bari, 'melody', 'm').map((midi) => Note.fromMidi(midi));
    expect(sounds).toEqual(['F3', 'A3', 'C4', 'C4']);
    const told = problemsIn(lesson).find(({ code }) => code === 'tune.note-apart');
    expect(told?.message).toContain('The tune is played an octave lower there. C3 is lower than any note');
    expect(told?.message).toContain('in the octave that is written, on string 2 fret 1, which changes the tune.');
  });

  test('C-14 must: G4 is string 2 fret 3 and in high G string 4 open as well; in low G only the first is left', () => {
    const [high, low] = editionsIn(
      'also tenor ukulele, low G, same key, called low\nmelody m\n  tune 4:0 2:3 1:0 1:2\n',
    );
    expect(rowsThere(low, 'melody', 'm')).toEqual(['2:3 2:3 1:0 1:2']);
    expect(low && soundsThere(low, 'melody', 'm')).toEqual(soundsThere(high, 'melody', 'm'));
  });

  test('D-6 must: pitches choose their strings: C4 E4 G4 C5 is 3 2 4 1 open and fret 3 in high G, and 5-4-3-3 in low G', () => {
    const chord =
      'for baritone ukulele\nalso tenor ukulele, high G, same key, called high\nalso tenor ukulele, low G, same key, called low\nmelody m\n  tune 4:10+3:9+2:8+1:8 . . .\n';
    const [own, high, low] = editionsIn(chord);
    expect(soundsThere(own, 'melody', 'm').map((midi) => Note.fromMidi(midi))).toEqual(['C4', 'E4', 'G4', 'C5']);
    expect(rowsThere(high, 'melody', 'm')).toEqual(['3:0+2:0+4:0+1:3 . . .']);
    expect(rowsThere(low, 'melody', 'm')).toEqual(['4:5+3:4+2:3+1:3 . . .']);
    const [, g3] = editionsIn(
      'for baritone ukulele\nalso tenor ukulele, low G, same key, called low\nmelody m\n  tune 3:0 . . .\n',
    );
    expect(rowsThere(g3, 'melody', 'm')).toEqual(['4:0 . . .']);
  });

  test('what the left hand adds goes along, as far along the string as it was', () => {
    const [own, bari] = editionsIn('also baritone ukulele, same key, called bari\nmelody m\n  tune 1:3p0 . 2:0h1 h3\n');
    expect(rowsThere(own, 'melody', 'm')).toEqual(['1:3p0 . 2:0h1 h3']);
    // C5 and A4 are string 1 frets 8 and 5 of a baritone, E4 its open string. Source: its strings D3 G3 B3 E4.
    expect(rowsThere(bari, 'melody', 'm')).toEqual(['1:8p5 . 1:0h1 h3']);
  });

  test('fingers are chosen anew, inside the shape', () => {
    const lesson =
      'also baritone ukulele, same key, called bari\nchord C 0-0-0-3\nmelody m\n  C 1:3 2:0 . .\n  fingers 3 0 . .\n';
    const [, bari] = editionsIn(lesson);
    // Over 2-0-1-0, held by middle finger and index: C4 is the shape's own on string 2, E3 on string 4. Source: D3 G3 B3 E4.
    expect(rowsThere(bari, 'melody', 'm')).toEqual(['2:1 4:2 . .', '1 2 . .']);
    const codes = problemsIn(lesson).flatMap(({ code, edition }) => (edition === 'bari' ? [code] : []));
    expect(codes).toContain('tune.octave-moved');
    expect(codes).not.toContain('tune.out-of-hand');
  });

  test('a pattern for four strings stays on the strings of a guitar’s shape: the thumb takes the root and the other bass', () => {
    const [, six] = editionsIn('also guitar, same key, called six\nchord C 0-0-0-3\npattern r\n  pick 4p 2i 3p 1m\n');
    expect(rowsThere(six, 'pattern', 'r')).toEqual(['Rp 2i Ap 1m']);
    const [, four] = editionsIn(
      'for guitar\nalso tenor ukulele, same key, called four\nchord C x-3-2-0-1-0\npattern r\n  pick 5p 3i 4p 2m\n',
    );
    expect(rowsThere(four, 'pattern', 'r')).toEqual(['4p 3i 4p 2m']);
    // Five strings have basses of their own, and a shape may leave the lowest of them out.
    const [, five] = editionsIn(
      'for guitar\nalso tuned D3 G3 B3 D4 F#4, same key, called five\nchord C x-3-2-0-1-0\npattern r\n  plant p6\n  pick 6p 3i 4p p\n',
    );
    expect(rowsThere(five, 'pattern', 'r')).toEqual(['Rp 3i Ap p']);
  });

  test('a re-entrant run across the strings stays one where the strings are the same', () => {
    const run = 'pattern r\n  count 1 & 2 & 3 & 4 &\n  pick 3:2 2:0 4:0 1:0 4:4 1:3 . .\n';
    const [, other] = editionsIn(`also concert ukulele, high G, same key, called other\n${run}`);
    expect(rowsThere(other, 'pattern', 'r')).toEqual(['3:2 2:0 4:0 1:0 4:4 1:3 . .']);
  });

  test('a shape that prose mentions is held there as what it sounds here', () => {
    const mentioned = (scope: Scope | undefined, text: string) => {
      const mention = scope && longestMention(scope, { text, span: { start: 0, end: text.length } });
      return mention?.kind === 'shape' ? printShape(mention.shape) : undefined;
    };
    const [own, bari, six] = editionsIn(
      'also baritone ukulele, same key, called bari\nalso guitar, same key, called six\nchord Am 2-0-0-0\n',
    );
    expect([own, bari, six].map((scope) => mentioned(scope, '2-0-0-0.'))).toEqual([
      '2-0-0-0',
      '2-2-1-0',
      'x-0-2-2-1-0',
    ]);
    // No line gives 2-0-1-0, which sounds F.
    expect(
      Chord.detect(
        tonalPitches(
          bari?.edition().instrument ?? own.edition().instrument,
          [...(mentioned(bari, '2-0-1-0') ?? '').split('-')].map(Number),
        ).map((pitch) => Note.get(pitch).pc),
      )[0],
    ).toMatch(/^F/);
  });

  test('strings that an exercise lets ring are those of its instrument: what only a guitar has is the fourth of a ukulele', () => {
    const ringing = (scope: Scope | undefined) => {
      const [exercise] = scope?.exercises() ?? [];
      return scope && exercise && ringOfExercise(scope, exercise);
    };
    const [own, four] = editionsIn(
      'for guitar\nalso tenor ukulele, same key, called four\nexercise e\n  over C\n  ring 1 6\n',
    );
    expect(ringing(own)).toEqual({ kind: 'strings', strings: [1, 6] });
    expect(ringing(four)).toEqual({ kind: 'strings', strings: [1, 4] });
    // The bass string of a ukulele is any of a guitar's basses, whichever has the root.
    const [, six] = editionsIn('also guitar, same key, called six\nexercise e\n  over C\n  ring 1 4\n');
    expect(ringing(six)).toEqual({ kind: 'strings', strings: [1, 6, 5, 4] });
  });

  test('patterns that are like each other in a circle do no harm', () => {
    const [, six] = editionsIn(
      'also guitar, same key, called six\npattern a\n  like b\n  pick 4p . . .\npattern b\n  like a\n  pick 4p . . .\n',
    );
    expect(rowsThere(six, 'pattern', 'a')).toEqual(['Rp . . .']);
  });
});

describe('every check runs for every edition and names it', () => {
  test('what is wrong on the lesson’s own instrument is not said again', () => {
    const lesson = `also baritone ukulele, same shapes, called bari\nalso guitar, same key, called six\n${UKULELE}pattern r\n  count 1 2 3\n  pick 4p 3i 2m 1a\nprogression v\n  | C | F | G\n  words one | two | three | four | five\nexercise e\n  play v\n  with r, nobody\n`;
    const said = problemsIn(lesson).map(({ code, edition }) => `${code} ${edition ?? ''}`.trim());
    expect(said.filter((one) => one.startsWith('row.too-long'))).toEqual(['row.too-long']);
    expect(said.filter((one) => one.startsWith('name.unknown'))).toEqual(['name.unknown']);
    expect(said.filter((one) => one.startsWith('words.'))).toEqual(['words.too-many-bars']);
  });

  test('what is the same on several editions is said once for all of them', () => {
    const lesson =
      'also soprano ukulele, high G, same shapes, called one\nalso soprano ukulele, low G, same shapes, called two\nmelody m\n  tune 1:14 . . .\n';
    const found = problemsIn(lesson).filter(({ code }) => code === 'mark.fret-beyond-neck');
    expect(found.map(({ edition }) => edition)).toEqual(['one, two']);
    expect(found[0]?.message).toBe(
      'On the soprano ukulele, high G and the soprano ukulele, low G: Fret 14 is beyond the neck: a soprano ukulele has 12 frets.',
    );
  });

  test('what is wrong with another chord, another string or more of them there is said, and what is the same is not', () => {
    const muted = (own: string, there: string) =>
      problemsIn(
        `also guitar, same key, called six\n${own}progression v\n  | Dm | C |\npattern r\n  count 1 2 3 4\n  pick 3 2 1 2\n${there}exercise e\n  play v\n  with r\n`,
      ).flatMap(({ code, message, edition }) =>
        code === 'pattern.muted-string' ? [`${edition ?? 'own'}: ${message}`] : [],
      );
    const own = 'own: r plays string 1, which Dm mutes.';
    const [open, silent] = ['chord Dm 2-2-1-0\nchord C 0-0-0-3\n', 'chord Dm 2-2-1-x\nchord C 0-0-0-3\n'];
    const dm = '  chord Dm x-x-0-2-3-x\n  chord C x-3-2-0-1-0\n';
    const c = '  chord Dm x-x-0-2-3-1\n  chord C x-3-2-0-1-x\n';
    expect(muted(silent, `edition six\n${dm}`)).toEqual([own]);
    expect(muted(silent, `edition six\n${c}`)).toEqual([own, 'six: On the guitar: r plays string 1, which C mutes.']);
    expect(muted(open, `edition six\n${dm}`)).toEqual(['six: On the guitar: r plays string 1, which Dm mutes.']);
    const inner = '  chord Dm x-x-0-x-3-1\n  chord C x-3-2-0-1-0\n';
    expect(muted(silent, `edition six\n${inner}`)).toEqual([
      own,
      'six: On the guitar: r plays string 3, which Dm mutes.',
    ]);
    // The same frets under another name are the same chord: Dm is Am on a baritone, a fourth lower.
    expect(
      problemsIn(
        `also baritone ukulele, same shapes, called bari\n${silent}progression v\n  | Dm | C |\npattern r\n  count 1 2 3 4\n  pick 3 2 1 2\nexercise e\n  play v\n  with r\n`,
      ).filter(({ code }) => code === 'pattern.muted-string').length,
    ).toBe(1);
  });

  test('a change that is too quick there only is said, though another one is on the lesson’s own instrument', () => {
    // From fret 5 to fret 14 on the ukulele from F to C; on the guitar, in shapes of its own, from C to G where that goes up to fret 15.
    const quick = (there: string) =>
      problemsIn(
        `also guitar, same key, called six\ntempo 64\nchord C 5-4-3-3\nchord F 14-12-13-12\nchord G 0-2-3-2\nprogression v\n  | C F | F C | C G |\npattern r\n  count 1 & 2 & 3 & 4 &\n  pick 3 2 1 2 3 2 1 2\nedition six\n${there}exercise e\n  play v\n  with r\n`,
      ).flatMap(({ code, edition }) => (code === 'change.too-quick' ? [edition ?? 'own'] : []));
    const near = '  chord C x-3-5-5-5-3\n  chord F x-x-3-5-6-5\n';
    expect(quick(`${near}  chord G 3-5-5-4-3-3\n`)).toEqual(['own']);
    expect(quick(`${near}  chord G 15-17-17-16-15-15\n`)).toEqual(['own', 'six']);
  });

  test('a string that the new shape mutes, a change that takes longer on the longer neck', () => {
    const muted = problemsIn(
      `also guitar, same key, called six\nchord Dm 2-2-1-0\nprogression v\n  | Dm |\npattern r\n  count 1 2 3 4\n  pick 4 3 2 1\nedition six\n  chord Dm x-x-0-2-3-x\nexercise e\n  play v\n  with r\n`,
    ).filter(({ code }) => code === 'pattern.muted-string');
    expect(muted.map(({ edition }) => edition)).toEqual(['six']);
    expect(muted[0]?.message).toBe('On the guitar: r plays string 1, which Dm mutes.');
    const quick = (tempo: number) =>
      problemsIn(
        `for soprano ukulele\nalso baritone ukulele, same shapes, called bari\nchord C 0-0-0-3\nchord F 7-5-6-5\ntempo ${tempo}\nprogression v\n  | C F |\npattern r\n  count 1 & 2 & 3 & 4 &\n  pick 4 3 2 1 4 3 2 1\nexercise e\n  play v\n  with r\n`,
      ).flatMap(({ code, edition }) => (code === 'change.too-quick' ? [edition ?? 'own'] : []));
    const told = Array.from({ length: 60 }, (_, at) => quick(40 + 2 * at).join());
    // Slow enough for both, then only for the short neck, then for none; told of the lesson itself it is not said again.
    expect([...new Set(told)]).toEqual(['', 'bari', 'own']);
  });

  test('the same names sound apart where only one of two instruments has a capo, and together with the capo that is offered', () => {
    const lesson = (also: string) =>
      `for guitar, capo 2\nalso tenor ukulele${also}, same key, called uke\nkey G\nchord G 3-2-0-0-0-3\nmelody m\n  tune 2:3 . 1:0 .\n`;
    const [told] = problemsIn(lesson('')).filter(({ code }) => code === 'capo.apart');
    // G and two frets more are A. Source: by hand, G G# A.
    expect(told?.message).toBe(
      'The lesson’s own: Shapes of G major with capo 2 sound in A major: G + 2 = A. There: Shapes of G major sound in G major. The same names sound 2 half steps lower there. With capo 2 it sounds with the others.'.replace(
        '’',
        "'",
      ),
    );
    const heard = (scope: Scope | undefined) => {
      const { capoFret } = scope?.edition().instrument ?? { capoFret: 0 };
      const chord = scope && tonalMidi(scope.edition().instrument, heldThere(scope, 'G')?.shape ?? []);
      const tones = (chord ?? []).flatMap((midi) => (midi === undefined ? [] : [(midi + capoFret) % 12]));
      const tune = scope ? soundsThere(scope, 'melody', 'm').map((midi) => midi + capoFret) : [];
      return { tones: [...new Set(tones)].sort((one, other) => one - other), tune };
    };
    const [own, joined] = editionsIn(lesson(', capo 2'));
    // A C# E as pitch classes, and E4 and F#4, two half steps above D4 and E4. Source: by hand.
    expect(heard(own)).toEqual({ tones: [1, 4, 9], tune: [64, 66] });
    expect(heard(joined)).toEqual(heard(own));
    const [, apart] = editionsIn(lesson(''));
    // G B D.
    expect(heard(apart)).toEqual({ tones: [2, 7, 11], tune: [62, 64] });
  });

  test('the capo that keeps the key comes with its sum', () => {
    const [found] = problemsIn(
      `also baritone ukulele, same key, called bari\nkey F\nchord F 2-0-1-0\nchord C7 0-0-0-1\n`,
    ).filter(({ code }) => code === 'capo.keeps-key');
    // C and five frets more are F. Source: by hand.
    expect(found?.message).toContain('Shapes of C major with capo 5 sound in F major: C + 5 = F.');
    const [own, bari] = editionsIn('also baritone ukulele, capo 5, same shapes, called bari\nkey G\nchord G 0-2-3-2\n');
    const low = (scope: Scope | undefined) => {
      const capo = scope?.edition().instrument.capoFret ?? 0;
      const shape = heldThere(scope, 'G')?.shape ?? [];
      const midi = tonalMidi((scope ?? own).edition().instrument, shape);
      return midi.map((one) => ((one ?? 0) + capo) % 12);
    };
    expect(heldThere(bari, 'G')?.name).toBe('D');
    expect(low(bari)).toEqual(low(own));
  });
});

test('after any edit the problems are those of the lesson read afresh, with editions of both kinds', () => {
  const text = `also baritone ukulele, same key, called bari\nalso guitar, same key, called six\nalso tenor ukulele, low G, same shapes, called low\nkey C\n${UKULELE}progression v\n  | C | Am | F | G |\npattern r\n  count 1 2 3 4\n  pick 4p 2i 3p 1m\nmelody m\n  tune 4:0 1:0 2:3 1:2\nexercise e\n  play v\n  with r\n  with m\nedition six\n  chord F 1-3-3-2-1-1\n`;
  fc.assert(
    fc.property(
      fc.array(fc.tuple(fc.nat(text.length), fc.nat(3), fc.constantFrom('', '1', '2', ' ', 'm', '\n', 'C', '5:')), {
        minLength: 1,
        maxLength: 4,
      }),
      (edits) => {
        let document = openDocument(text);
        problemsOf(document);
        for (const [start, length, written] of edits) {
          const at = Math.min(start, document.text.length);
          document = editDocument(document, { span: { start: at, end: at + length }, text: written });
          expect(problemsOf(document)).toEqual(problemsOf(openDocument(document.text)));
        }
      },
    ),
    { seed: 6, numRuns: 25 },
  );
});
