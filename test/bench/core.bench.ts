import { micromark } from 'micromark';
import { Chord } from 'tonal';
import { hoverAt } from '../../shared/assist/hover.ts';
import { suggestionsAt } from '../../shared/assist/suggestions.ts';
import { sheetOf } from '../../shared/engrave/sheet.ts';
import { fingeringsOf } from '../../shared/hand/fingering-search.ts';
import { fingerSequence } from '../../shared/hand/sequence-fingering.ts';
import { problemsOf } from '../../shared/lesson/check/problems.ts';
import { editDocument, openDocument } from '../../shared/lesson/document.ts';
import { formatDocument } from '../../shared/lesson/format.ts';
import { parseInstrument } from '../../shared/neck/instruments.ts';
import { soundingPitches } from '../../shared/neck/pitches.ts';
import type { Shape } from '../../shared/neck/shape.ts';
import { CHORD_KINDS } from '../../shared/theory/chord-kinds.ts';
import type { ChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { parseChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { printNote } from '../../shared/theory/note.ts';
import { readAllowance } from '../../shared/voicing/family/allowance.ts';
import { askedFamily } from '../../shared/voicing/family/asked-family.ts';
import { choicesFor } from '../../shared/voicing/family/choices.ts';
import { familiesOf } from '../../shared/voicing/family/families.ts';
import { FAMILY_POINTS } from '../../shared/voicing/family/family-table.ts';
import { neighboursOf } from '../../shared/voicing/family/neighbours.ts';
import { relaxedWay } from '../../shared/voicing/family/relaxed-way.ts';
import type { FamilyRequest } from '../../shared/voicing/family/request.ts';
import { nameShape } from '../../shared/voicing/naming.ts';
import { shapesFor } from '../../shared/voicing/shapes.ts';
import type { BenchCase } from './bench-case.ts';
import { generatedLesson } from './generated-lesson.ts';

const VIEW = { widthMm: 180, leftHanded: false };
const SIZES: readonly { readonly lines: number; readonly keyMs?: number }[] = [
  { lines: 40 },
  { lines: 400, keyMs: 8 },
  { lines: 4000, keyMs: 16 },
];

/**
 * What is measured together in a process of its own, as a teacher has one lesson open and not five. The budgets are those of the
 * product's design; a lesson of 40 lines has none of its own.
 */
export const groups: readonly (() => readonly BenchCase[])[] = [
  ...SIZES.map((size) => () => lessonCases(size)),
  voicingCases,
  handCases,
  familyCases,
];

function lessonCases({ lines, keyMs }: { readonly lines: number; readonly keyMs?: number }): readonly BenchCase[] {
  const text = generatedLesson(lines);
  const document = openDocument(text);
  const budget = keyMs === undefined ? {} : { budgetMs: keyMs };
  const middle = text.indexOf('4p  2i', text.length / 2);
  const chordUse = text.indexOf('| C |') + 2;
  // What a preview would do that reads all of the text at each key, and knows nothing of music.
  const reference = `${lines} lines: read once as Markdown, by micromark`;
  return [
    { name: reference, run: () => micromark(text) },
    { name: `${lines} lines: open and check`, run: () => problemsOf(openDocument(text)) },
    {
      name: `${lines} lines: key in a pattern, to blocks and problems`,
      ...budget,
      reference,
      run: keysAt(text, middle, ['4', '3']),
    },
    {
      name: `${lines} lines: key in prose, to blocks and problems`,
      ...budget,
      reference,
      run: keysAt(text, text.lastIndexOf('Let every'), ['L', 'S']),
    },
    {
      name: `${lines} lines: key in the shape of a chord all weeks use`,
      run: keysAt(text, text.indexOf('0-2-3-2') + 2, ['2', '4']),
    },
    { name: `${lines} lines: hover on a chord`, budgetMs: 5, run: () => hoverAt(document, chordUse) },
    { name: `${lines} lines: completion in bars`, budgetMs: 5, run: () => suggestionsAt(document, chordUse + 1) },
    { name: `${lines} lines: format`, run: () => formatDocument(document) },
  ];
}

/** Types one letter over the letter at an offset, another one each time, and asks for the sheet and the problems. */
function keysAt(text: string, offset: number, letters: readonly string[]): () => unknown {
  let document = openDocument(text);
  let sheet = sheetOf(document, VIEW);
  let key = 0;
  return () => {
    key++;
    document = editDocument(document, {
      span: { start: offset, end: offset + 1 },
      text: letters[key % letters.length] ?? '',
    });
    sheet = sheetOf(document, VIEW, sheet);
    return problemsOf(document);
  };
}

function voicingCases(): readonly BenchCase[] {
  const ukulele = instrument('tenor ukulele, high G');
  const guitar = instrument('guitar');
  const shapes = everyShape(4);
  const notes = shapes.map((shape) =>
    soundingPitches(ukulele, shape).flatMap((pitch) => (pitch === undefined ? [] : [printNote(pitch)])),
  );
  const reference = 'naming a shape: tonal’s detection';
  const key = { tonic: { letter: 'D', accidental: 0 }, mode: 'minor' } as const;
  const next = chord('G7');
  const cmaj7 = chord('Cmaj7');
  const every = everyChord();
  return [
    { name: reference, run: inTurn(notes, (one) => Chord.detect([...one])) },
    {
      name: 'naming a shape',
      budgetMs: 0.002,
      budgetOf: 'median',
      reference,
      timesAsFast: 15,
      run: inTurn(shapes, (shape) => nameShape(ukulele, shape)),
    },
    { name: 'naming a shape in a key', reference, run: inTurn(shapes, (shape) => nameShape(ukulele, shape, { key })) },
    {
      name: 'naming a shape in a key before a chord',
      reference,
      run: inTurn(shapes, (shape) => nameShape(ukulele, shape, { key, next })),
    },
    { name: 'shapes of Cmaj7 once more, ukulele', budgetMs: 1, run: () => shapesFor(cmaj7, ukulele) },
    { name: 'shapes of Cmaj7 once more, guitar', budgetMs: 1, run: () => shapesFor(cmaj7, guitar) },
    ...[ukulele, guitar, instrument('tuned E2 A2 D3 G3 B3 E4 G4 B4')].map((on) => ({
      name: `shapes of a chord not asked before, ${on.openStrings.length} strings`,
      ...(on === ukulele ? { budgetMs: 1, budgetOf: 'median' as const } : {}),
      run: inTurn(every, (symbol) => shapesFor(symbol, on)),
    })),
  ];
}

/** Families of sixteen chords, each time in another order, so that nothing is answered from memory but what was found for a chord. */
function familyCases(): readonly BenchCase[] {
  const ukulele = instrument('tenor ukulele, high G');
  const verse = 'C Am F G C Am Dm G Em Am F G C F G C'.split(' ').map(chord);
  const distinct = 'C Am Dm G7 Em A7 F Fm C6 E7 Bb D7 Gm Eb Ab B7'.split(' ').map(chord);
  const allow = readAllowance(['add9', '6', '7', 'add11']);
  const ringing = {
    instrument: ukulele,
    ring: [1],
    within: [0, 12],
    ...(allow.ok ? { allow: allow.value } : {}),
  } as const;
  const plain = { instrument: ukulele, within: [0, 10] } as const;
  const turned = (chords: readonly ChordSymbol[]) =>
    chords.map((_, at) => [...chords.slice(at), ...chords.slice(0, at)]);
  const reference = 'plain dynamic programming, every pair compared';
  return [
    { name: reference, run: inTurn(turned(distinct), (chords) => everyPair({ ...plain, chords })) },
    {
      name: 'family of 16 chords, 6 different, string 1 ringing, best 5',
      budgetMs: 30,
      reference,
      run: inTurn(turned(verse), (chords) => familiesOf({ ...ringing, chords })),
    },
    {
      name: 'family of 16 different chords, all shapes, best 5',
      budgetMs: 30,
      reference,
      run: inTurn(turned(distinct), (chords) => familiesOf({ ...plain, chords })),
    },
  ];
}

/** The same without what makes it fast: every shape of a chord beside every one of the next; and the best alone, not held the same. */
function everyPair(request: FamilyRequest): unknown {
  const { held, neck, limits, wanted, chordOf } = askedFamily(request);
  const lists = chordOf.flatMap((one) => wanted[one] ?? []).map((one) => choicesFor(held, limits, one, undefined));
  const pairs = lists.map((list, at) => (at === 0 ? undefined : neighboursOf(neck, lists[at - 1] ?? [], list)));
  const steps = {
    chordOf: [...lists.keys()],
    own: lists.map((list) => Float64Array.from(list, ({ harmony, hold }) => harmony + hold)),
    ways: pairs.map((pair) => pair?.cost),
    directions: pairs.map((pair) => pair?.direction),
    turn: FAMILY_POINTS.turn,
  };
  return relaxedWay(
    steps,
    lists.map((list) => Int32Array.from(list.keys())),
  );
}

function handCases(): readonly BenchCase[] {
  const ukulele = instrument('tenor ukulele, high G');
  const guitar = instrument('guitar');
  const shapesOf = (on: typeof ukulele) =>
    everyChord().flatMap((symbol) => shapesFor(symbol, on, { max: 1 }).map(({ shape }) => shape));
  return [ukulele, guitar].flatMap((on): readonly BenchCase[] => {
    const shapes = shapesOf(on);
    const strings = `${on.openStrings.length} strings`;
    const song = shapes.slice(0, 64).map((shape) => ({ shape, seconds: 2 }));
    const round = Array.from({ length: 64 }, (_, at) => song[at % 8] ?? { shape: [] });
    return [
      {
        name: `fingerings of a shape, ${strings}`,
        budgetMs: 0.2,
        run: inTurn(shapes, (shape) => fingeringsOf(on, shape, 'medium')),
      },
      {
        name: `fingers of 64 chords, 8 different ones, ${strings}`,
        budgetMs: 20,
        budgetOf: 'median' as const,
        run: () => fingerSequence(on, round, 'medium'),
      },
      {
        name: `fingers of 64 chords, all different, ${strings}`,
        budgetMs: 20,
        budgetOf: 'median' as const,
        run: () => fingerSequence(on, song, 'medium'),
      },
    ];
  });
}

/** More chords than the finder keeps, so that each is a new one when its turn comes again. */
function everyChord(): readonly ChordSymbol[] {
  const roots = ['C', 'C#', 'D', 'Eb', 'E', 'F', 'F#', 'G', 'Ab', 'A', 'Bb', 'B'];
  return CHORD_KINDS.flatMap(({ suffix }) => roots.map((root) => chord(root + suffix)));
}

function inTurn<T>(all: readonly T[], run: (one: T) => unknown): () => unknown {
  let next = 0;
  return () => {
    const one = all[next++ % all.length];
    return one === undefined ? undefined : run(one);
  };
}

function chord(text: string): ChordSymbol {
  const parsed = parseChordSymbol(text);
  if (!parsed.ok) throw new Error(parsed.problem.message);
  return parsed.value;
}

function instrument(name: string) {
  const parsed = parseInstrument(name);
  if (!parsed.ok) throw new Error(parsed.problem.message);
  return parsed.value;
}

/** Every shape of four strings within the first frets. */
function everyShape(highest: number): readonly Shape[] {
  const frets = Array.from({ length: highest + 1 }, (_, fret) => fret);
  return frets.flatMap((a) => frets.flatMap((b) => frets.flatMap((c) => frets.map((d) => [a, b, c, d]))));
}
