import type { RhythmLine } from '../score/rhythm-line.ts';
import type { PatternStart, ScoreBar, ScoreEvent, ScoreSyllable } from '../score/timeline.ts';
import { compare, minus, type Rational, toNumber } from '../theory/rational.ts';
import type { Item } from './drawing.ts';
import { accentWedge } from './outlines.ts';
import { SIZES } from './sizes.ts';
import { handPieces } from './tab-hand.ts';
import { notePieces, type PlacedNote } from './tab-notes.ts';
import type { Piece, Row, Sign, Staff } from './tab-piece.ts';
import { restPiece } from './tab-rest.ts';
import { stemPiece, tupletRoom } from './tab-rhythm.ts';
import {
  bodySign,
  chunkSign,
  dampedHeads,
  nailsSign,
  palmSign,
  rollSign,
  shapeSlideSign,
  stringStops,
  strokeArrow,
  thumbSlapSign,
} from './tab-signs.ts';
import { figureAt } from './tab-technique.ts';
import { HYPHEN_ROOM_MM } from './tab-words.ts';
import { textWidth } from './text-width.ts';

/** Everything that stands at one moment of a bar. */
export interface Column {
  readonly at: Rational;
  /** To the next column or the end of the bar. Unit: whole notes. */
  readonly length: number;
  /** False where only words stand: they take their place between the beats and do not push them apart. */
  readonly rhythmic: boolean;
  readonly pieces: readonly Piece[];
}

export interface ColumnLook {
  readonly staff: Staff;
  /** True where tune and accompaniment sound together, so that the tune must be told apart. */
  readonly mixed: boolean;
  /** False where a reader has met the pattern before and needs no counting aloud. */
  readonly counts: boolean;
  /** Where the name of a pattern is to be told: it begins inside the bar, or another one was played before. */
  readonly starts: readonly PatternStart[];
}

/** The moments of a bar in order: wherever something sounds, is counted, sung, called or changes. Chord names come later, as they are places. */
export function columnsOf(bar: ScoreBar, lines: readonly RhythmLine[], look: ColumnLook): readonly Column[] {
  const moments = new Map<string, Rational>();
  const rhythmic = [bar.events, bar.counts, bar.chords, ...lines.map(({ entries }) => entries)];
  const sources = [...rhythmic, bar.syllables, bar.calls, look.starts];
  for (const source of sources) for (const { at } of source) moments.set(key(at), at);
  const sorted = [...moments.values()].sort(compare);
  const rhythm = new Set(rhythmic.flatMap((source) => source.map(({ at }) => key(at))));
  return sorted.map((at, index) => {
    const until = sorted[index + 1] ?? bar.length;
    return {
      at,
      length: Math.max(0, toNumber(minus(until, at))),
      rhythmic: rhythm.has(key(at)),
      pieces: [...piecesAt(bar, at, look), ...rhythmAt(lines, at, look)],
    };
  });
}

export function key(at: Rational): string {
  return `${at.numerator}/${at.denominator}`;
}

function piecesAt(bar: ScoreBar, at: Rational, { staff, mixed, counts, starts }: ColumnLook): readonly Piece[] {
  const events = bar.events.filter((event) => compare(event.at, at) === 0);
  const pieces: Piece[] = [];
  const notes: PlacedNote[] = [];
  for (const event of events) {
    if (event.kind !== 'notes') pieces.push(...eventPieces(bar, event, staff));
    else {
      const look = event.layer === 'tune' ? (mixed ? 'ringed' : 'bold') : 'plain';
      notes.push(...event.notes.map((note): PlacedNote => ({ note, look })));
    }
  }
  pieces.push(...notePieces(staff, notes), ...handPieces(notes), ...accentPieces(events));
  for (const start of starts) if (compare(start.at, at) === 0) pieces.push(startPiece(start.name));
  for (const count of counts ? bar.counts : [])
    if (compare(count.at, at) === 0) pieces.push(textPiece('count', count.text, SIZES.count, 'count'));
  for (const { row, syllable } of wordRows(bar)) {
    if (compare(syllable.at, at) === 0) pieces.push(syllablePiece(row, syllable.text));
  }
  for (const call of bar.calls)
    if (compare(call.at, at) === 0) pieces.push(textPiece('call', `“${call.text}”`, SIZES.count, 'count'));
  return pieces;
}

/** Stems and rests of a moment. */
function rhythmAt(lines: readonly RhythmLine[], at: Rational, { staff }: ColumnLook): readonly Piece[] {
  return lines.flatMap(({ side, entries, beams, tuplets }) => {
    const index = entries.findIndex((entry) => compare(entry.at, at) === 0);
    const entry = entries[index];
    if (entry === undefined || entry.wholeBar === true) return [];
    const opening = tuplets.some(({ first }) => first === index) ? [tupletRoom(side)] : [];
    if (entry.kind === 'rest') return [restPiece(staff, entry, lines.length > 1 ? side : undefined), ...opening];
    const beamed = beams.some(({ first, last }) => index >= first && index <= last);
    return [stemPiece(side, entry, beamed), ...opening];
  });
}

/**
 * The row of each syllable. A verse may be given by the progression and once more by the tune: equal words are set once, where
 * the tune has them, different ones in rows of their own.
 */
function wordRows(bar: ScoreBar): readonly { readonly row: Row; readonly syllable: ScoreSyllable }[] {
  const runs: { readonly verse: number; readonly syllables: ScoreSyllable[] }[] = [];
  for (const syllable of bar.syllables) {
    const open = runs.filter((run) => run.verse === syllable.verse).at(-1);
    const last = open?.syllables.at(-1);
    // Each giver's syllables come in order of time, so going back in time is where the next one begins.
    if (open === undefined || last === undefined || compare(syllable.at, last.at) <= 0)
      runs.push({ verse: syllable.verse, syllables: [syllable] });
    else open.syllables.push(syllable);
  }
  const textOf = (run: (typeof runs)[number]): string => run.syllables.map(({ text }) => text).join(' ');
  const shown = runs.filter(
    (run, index) => !runs.slice(index + 1).some((later) => later.verse === run.verse && textOf(later) === textOf(run)),
  );
  return shown.flatMap((run, index) => {
    const before = shown.slice(0, index).filter((other) => other.verse === run.verse).length;
    const row: Row = `word-${run.verse + before * ROWS_OF_ONE_GIVER}`;
    return run.syllables.map((syllable) => ({ row, syllable }));
  });
}

/** More verses than anybody writes under one line, so that a second giver's rows come below all of the first's. */
const ROWS_OF_ONE_GIVER = 100;

/** The name of a pattern behind a small corner, from where on it is played. */
function startPiece(name: string): Piece {
  const size = SIZES.small;
  const corner: Item = {
    kind: 'path',
    steps: [
      ['M', 0, -size * 0.9],
      ['L', 0, 0.2],
      ['L', 0.9, 0.2],
    ],
    ink: 'soft',
    thickness: SIZES.thinStrokeThickness,
  };
  const text: Item = { kind: 'text', x: 1.3, y: 0, text: name, size, anchor: 'start', role: 'word', ink: 'soft' };
  return {
    row: 'pattern',
    left: 0.2,
    right: 1.3 + textWidth(name, 'word', size),
    items: [corner, text],
    signs: ['pattern-start'],
  };
}

/** A syllable stands by itself; the hyphen behind it is set where the next one is known. */
function syllablePiece(row: Row, text: string): Piece {
  if (!text.endsWith('-') || text === '-') return textPiece(row, text, SIZES.word, 'word');
  const piece = textPiece(row, text.slice(0, -1), SIZES.word, 'word');
  return { ...piece, right: piece.right + HYPHEN_ROOM_MM, goesOn: true };
}

function textPiece(row: Row, text: string, size: number, role: 'count' | 'word'): Piece {
  const half = textWidth(text, role, size) / 2;
  return {
    row,
    left: half,
    right: half,
    items: [{ kind: 'text', x: 0, y: 0, text, size, anchor: 'middle', role, ink: 'strong' }],
  };
}

function eventPieces(bar: ScoreBar, event: Exclude<ScoreEvent, { kind: 'notes' }>, staff: Staff): readonly Piece[] {
  switch (event.kind) {
    case 'strum':
      return strumPieces(event, isFirstOfChord(bar, event), staff);
    case 'chunk':
      return [chunkSign(staff)];
    case 'roll':
      return [rollSign(staff)];
    case 'shape-slide':
      return [shapeSlideSign(staff)];
    case 'hit':
      if (event.place === 'thumb') return [thumbSlapSign(staff, event.string ?? staff.stringCount)];
      return [event.place === 'palm' ? palmSign(staff) : event.place === 'nails' ? nailsSign(staff) : bodySign(staff)];
    case 'stop':
      // Silence of all strings is the rest that the rhythm has there.
      return event.strings.length === 0 ? [] : [stringStops(staff, event.strings)];
    case 'held':
      // The rhythm ties it to the bar before.
      return [];
  }
}

/** The frets stand beside the first stroke of each chord; after that the arrow alone is easier to follow. */
function isFirstOfChord(bar: ScoreBar, strum: ScoreEvent): boolean {
  const chord = bar.chords.filter((candidate) => compare(candidate.at, strum.at) <= 0).at(-1);
  const from = chord?.at ?? { numerator: 0, denominator: 1 };
  return !bar.events.some(
    (event) =>
      event.kind === 'strum' && !event.damped && compare(event.at, from) >= 0 && compare(event.at, strum.at) < 0,
  );
}

/** From the arrow's middle to that of the frets or crosses beside it. */
const BESIDE_MM = 2.7;

function strumPieces(
  event: Extract<ScoreEvent, { kind: 'strum' }>,
  showsFrets: boolean,
  staff: Staff,
): readonly Piece[] {
  const numbers = event.notes.map((note) => note.string);
  const range =
    numbers.length === 0 ? ([1, staff.stringCount] as const) : ([Math.min(...numbers), Math.max(...numbers)] as const);
  const arrow = strokeArrow(staff, { ...event, strings: range });
  const stroke: Sign = event.direction === 'down' ? 'down-stroke' : 'up-stroke';
  const signs: Sign[] = [stroke];
  if (event.slow) signs.push('slow-stroke');
  if (event.light) signs.push('light-stroke');
  if (range[1] - range[0] + 1 < staff.stringCount) signs.push('partial-stroke');
  const letter = event.direction === 'down' ? 'D' : 'U';
  const hand = textPiece('finger', event.light ? `(${letter})` : letter, SIZES.count * 0.9, 'word');
  const half = 1.15;
  if (event.damped) {
    const strings = numbers.length > 0 ? numbers : Array.from({ length: staff.stringCount }, (_, index) => index + 1);
    const heads = dampedHeads(staff, strings, -BESIDE_MM + 0.5);
    signs.push('damped-stroke');
    return [
      {
        row: 'staff',
        left: BESIDE_MM + 0.6,
        right: half,
        items: [...heads.items, ...arrow],
        openings: heads.openings,
        signs,
      },
      hand,
    ];
  }
  if (!showsFrets) return [{ row: 'staff', left: half, right: half, items: arrow, signs }, hand];
  const widest = Math.max(0, ...event.notes.map((note) => textWidth(String(note.fret), 'number', SIZES.fretNumber)));
  const x = -half - 0.55 - widest / 2;
  const frets = event.notes.map((note) =>
    figureAt(String(note.fret), x, staff.y(note.string), SIZES.fretNumber, false),
  );
  const openings = event.notes.map(({ string, fret }) => {
    const open = textWidth(String(fret), 'number', SIZES.fretNumber) / 2 + SIZES.openString;
    return { string, left: x - open, right: x + open };
  });
  return [
    {
      row: 'staff',
      left: -x + widest / 2 + SIZES.openString,
      right: half,
      items: [...frets, ...arrow],
      openings,
      signs,
    },
    hand,
  ];
}

function accentPieces(events: readonly ScoreEvent[]): readonly Piece[] {
  const accented = events.some((event) =>
    event.kind === 'notes' ? event.notes.some((note) => note.accent) : 'accent' in event && event.accent,
  );
  return accented ? [{ row: 'accent', left: 1.2, right: 1.2, items: [accentWedge(0, 0)], signs: ['accent'] }] : [];
}
