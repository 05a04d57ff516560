import type { RhythmEntry, RhythmLine } from '../score/rhythm-line.ts';
import type { PatternStart, ScoreBar, ScoreEvent } from '../score/timeline.ts';
import { compare, minus, type Rational, toNumber } from '../theory/rational.ts';
import { group, type Item } from './drawing.ts';
import type { KeptPieces } from './kept-pieces.ts';
import { accentWedge } from './outlines.ts';
import { SIZES } from './sizes.ts';
import { handPieces } from './tab-hand.ts';
import { notePieces, type PlacedNote } from './tab-notes.ts';
import { patternStartPiece } from './tab-pattern-start.ts';
import type { Piece, Row, Staff } from './tab-piece.ts';
import { restBesideStaff, restOnStaff } from './tab-rest.ts';
import { stemPiece, tupletRoom } from './tab-rhythm.ts';
import {
  bodySign,
  chunkSign,
  nailsSign,
  palmSign,
  rollSign,
  shapeSlideSign,
  stringStops,
  thumbSlapSign,
} from './tab-signs.ts';
import { isFirstOfChord, strumPieces } from './tab-strum.ts';
import { syllablePiece, wordRows } from './tab-syllables.ts';
import { textPiece } from './tab-text.ts';

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
  /** What was drawn before. */
  readonly kept: KeptPieces;
}

/** The moments of a bar in order: wherever something sounds, is counted, sung, called or changes. Chord names come later, as they are places. */
export function columnsOf(bar: ScoreBar, lines: readonly RhythmLine[], look: ColumnLook): readonly Column[] {
  const moments = new Map<number, Moment>();
  const momentAt = (at: Rational): Moment => {
    const name = key(at);
    const known = moments.get(name);
    if (known !== undefined) return known;
    const moment: Moment = {
      at,
      events: [],
      counts: [],
      words: [],
      values: [],
      rhythmic: false,
      starts: [],
      calls: [],
    };
    moments.set(name, moment);
    return moment;
  };
  const rhythmicAt = (at: Rational): Moment => {
    const moment = momentAt(at);
    moment.rhythmic = true;
    return moment;
  };
  for (const event of bar.events) rhythmicAt(event.at).events.push(event);
  for (const chord of bar.chords) rhythmicAt(chord.at);
  for (const { at, name } of look.starts) momentAt(at).starts.push(name);
  for (const count of bar.counts) {
    const moment = rhythmicAt(count.at);
    if (look.counts) moment.counts.push(count.text);
  }
  for (const { row, syllable } of wordRows(bar)) momentAt(syllable.at).words.push({ row, text: syllable.text });
  for (const call of bar.calls) momentAt(call.at).calls.push(call.text);
  for (const line of lines) {
    line.entries.forEach((entry, index) => {
      rhythmicAt(entry.at).values.push(momentValue(line, entry, index));
    });
  }
  const sorted = [...moments.values()].sort((a, b) => compare(a.at, b.at));
  const two = lines.length > 1;
  return sorted.map((moment, index) => {
    const until = sorted[index + 1]?.at ?? bar.length;
    return {
      at: moment.at,
      length: Math.max(0, toNumber(minus(until, moment.at))),
      rhythmic: moment.rhythmic,
      pieces: look.kept.get(nameOf(bar, moment, two, look), () => piecesOf(bar, moment, two, look)),
    };
  });
}

/** What comes together at one time, while it is gathered. */
interface Moment {
  readonly at: Rational;
  readonly events: ScoreEvent[];
  /** What is counted aloud and is to be told. */
  readonly counts: string[];
  readonly words: { readonly row: Row; readonly text: string }[];
  readonly values: MomentValue[];
  readonly starts: string[];
  readonly calls: string[];
  rhythmic: boolean;
}

/** A written value that begins at the moment, as far as its drawing asks. */
interface MomentValue extends Pick<RhythmEntry, 'kind' | 'value' | 'dots'> {
  readonly side: RhythmLine['side'];
  readonly wholeBar: boolean;
  readonly beamed: boolean;
  /** How many beams lie over it. */
  readonly levels: number;
  /** A tuplet begins with it. */
  readonly opens: boolean;
}

function momentValue({ side, beams, tuplets }: RhythmLine, entry: RhythmEntry, index: number): MomentValue {
  const { kind, value, dots, wholeBar = false } = entry;
  const beam = beams.find(({ first, last }) => index >= first && index <= last);
  const over = (beam?.segments ?? []).filter(({ first, last }) => index >= first && index <= last);
  const levels = beam === undefined ? 0 : Math.max(1, ...over.map(({ level }) => level));
  const opens = tuplets.some(({ first }) => first === index);
  return { side, kind, value, dots, wholeBar, beamed: beam !== undefined, levels, opens };
}

/** A moment as a name among those of one bar. Fractions in lowest terms differ by far more than a number can be wrong. */
export function key(at: Rational): number {
  return at.numerator / at.denominator;
}

/** All that the pieces of a moment are drawn from, as one text. */
function nameOf(bar: ScoreBar, moment: Moment, two: boolean, { staff, mixed }: ColumnLook): string {
  const { counts, words, values, starts, calls } = moment;
  let name = `${staff.stringCount} ${mixed} ${two}`;
  for (const event of moment.events) {
    name += `\n${drawnFrom(event)}`;
    if (event.kind === 'strum') name += isFirstOfChord(bar, event);
  }
  for (const { side, kind, value, dots, wholeBar, beamed, levels, opens } of values)
    name += `\n${side} ${kind} ${value} ${dots} ${wholeBar} ${beamed} ${levels} ${opens}`;
  if (counts.length > 0) name += `\ncounts ${JSON.stringify(counts)}`;
  if (words.length > 0) name += `\nwords ${JSON.stringify(words)}`;
  if (starts.length > 0) name += `\nstarts ${JSON.stringify(starts)}`;
  if (calls.length > 0) name += `\ncalls ${JSON.stringify(calls)}`;
  return name;
}

/** All that an event says but for its time and its place in the text, which are told elsewhere. It holds no words of the teacher's. */
function drawnFrom(event: ScoreEvent): string {
  let name = '';
  for (const field in event) {
    if (field !== 'at' && field !== 'length' && field !== 'source')
      name += ` ${field} ${valueName(event[field as keyof ScoreEvent])}`;
  }
  return name;
}

/** Written by hand, as it is asked for every moment on every key typed. */
function valueName(value: unknown): string {
  if (typeof value !== 'object' || value === null) return String(value);
  let name = '(';
  if (Array.isArray(value)) for (const one of value) name += `${valueName(one)},`;
  else for (const field in value) name += `${field} ${valueName(value[field as keyof typeof value])} `;
  return `${name})`;
}

function piecesOf(bar: ScoreBar, moment: Moment, two: boolean, { staff, mixed }: ColumnLook): readonly Piece[] {
  const { events, starts, calls } = moment;
  const further = [
    ...moment.counts.map((text) => textPiece('count', text, SIZES.count, 'count')),
    ...moment.words.map(({ row, text }) => syllablePiece(row, text)),
    ...moment.values.flatMap((value) => rhythmPieces(value, two, staff)),
  ];
  const notes = events.flatMap((event): readonly PlacedNote[] => {
    if (event.kind !== 'notes') return [];
    const look = event.layer === 'tune' ? (mixed ? 'ringed' : 'bold') : 'plain';
    return event.notes.map((note) => ({ note, look }));
  });
  // The tune has its string to itself: what else is written on it sounds as the tune's note.
  const sung = new Set(notes.filter(({ look }) => look === 'ringed').map(({ note }) => note.string));
  const struck = events.flatMap((event) => (event.kind === 'notes' ? [] : eventPieces(bar, event, staff, sung)));
  const shown = notes.filter(({ note, look }) => look === 'ringed' || !sung.has(note.string));
  const figures = figuresOf(staff, shown);
  const silent = further.find(({ row }) => row === 'staff');
  const signs = silent === undefined ? struck : struck.map((piece) => beforeRest(piece, silent));
  const pieces = [...besideStrokes(signs, figures), ...handPieces(notes), ...accentPieces(events), ...further];
  if (starts.length > 0) pieces.push(patternStartPiece([...new Set(starts)].join(' + ')));
  if (calls.length > 0) {
    const said = [...new Set(calls)].join(', ');
    pieces.push(textPiece('call', `“${said}”`, SIZES.count, 'count'));
  }
  return stacked(pieces);
}

/** Each string has one figure. What else is asked of it at the same moment cannot be played, and stands before it for all to see. */
function figuresOf(staff: Staff, notes: readonly PlacedNote[]): readonly Piece[] {
  const first = new Map<number, PlacedNote>();
  for (const placed of notes) if (!first.has(placed.note.string)) first.set(placed.note.string, placed);
  const figures = notePieces(staff, [...first.values()]);
  const others = notes.filter((placed) => {
    const shown = first.get(placed.note.string);
    return shown !== placed && shown?.note.fret !== placed.note.fret;
  });
  return others.length === 0
    ? figures
    : [...figures, ...besideStrokes(figures, notePieces(staff, others)).slice(figures.length)];
}

/** What is stopped on single strings stands before the rest of the same moment. */
function beforeRest(piece: Piece, rest: Piece): Piece {
  return piece.row === 'staff' ? moved(piece, -(rest.left + piece.right + BESIDE_STROKE_MM)) : piece;
}

/** Figures stand to the left of a stroke, a tap or a stop of the same moment, as those of a strummed chord do. */
function besideStrokes(struck: readonly Piece[], figures: readonly Piece[]): readonly Piece[] {
  const onStaff = struck.filter(({ row }) => row === 'staff');
  const [notes] = figures;
  if (onStaff.length === 0 || notes === undefined) return [...struck, ...figures];
  const shift =
    Math.max(...onStaff.map(({ left }) => left)) + BESIDE_STROKE_MM + Math.max(...figures.map(({ right }) => right));
  return [...struck, ...figures.map((piece) => moved(piece, -shift))];
}

/** White between a stroke and the figure beside it. Unit: mm. */
const BESIDE_STROKE_MM = 0.5;

function moved(piece: Piece, x: number): Piece {
  const openings = piece.openings?.map(({ string, left, right }) => ({ string, left: left + x, right: right + x }));
  return {
    ...piece,
    left: piece.left - x,
    right: Math.max(0, piece.right + x),
    items: [group(x, 0, piece.items)],
    ...(openings === undefined ? {} : { openings }),
  };
}

/** Letters of both kinds for one hand, the stroke's and the fingers', stand one under the other. */
function stacked(pieces: readonly Piece[]): readonly Piece[] {
  const letters = pieces.filter(({ row }) => row === 'finger');
  if (letters.length < 2) return pieces;
  const items: Item[] = [];
  let height = 0;
  for (const piece of letters) {
    items.push(height === 0 ? group(0, 0, piece.items) : group(0, height, piece.items));
    height += piece.height ?? SIZES.count;
  }
  const whole: Piece = {
    row: 'finger',
    left: Math.max(...letters.map(({ left }) => left)),
    right: Math.max(...letters.map(({ right }) => right)),
    items,
    height: height + 0.6,
    signs: letters.flatMap(({ signs = [] }) => signs),
  };
  return [...pieces.filter(({ row }) => row !== 'finger'), whole];
}

/** The stem or rest of one value. */
function rhythmPieces(value: MomentValue, two: boolean, staff: Staff): readonly Piece[] {
  const { side, beamed, levels, opens } = value;
  if (value.wholeBar) return [];
  const opening = opens ? [tupletRoom(side)] : [];
  if (value.kind !== 'rest') return [stemPiece(side, value, beamed), ...opening];
  if (!two) return [restOnStaff(staff, value), ...opening];
  return [restBesideStaff(side, value, levels), ...opening];
}

function eventPieces(
  bar: ScoreBar,
  event: Exclude<ScoreEvent, { kind: 'notes' }>,
  staff: Staff,
  sung: ReadonlySet<number>,
): readonly Piece[] {
  switch (event.kind) {
    case 'strum':
      return strumPieces(event, isFirstOfChord(bar, event), staff, sung);
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

function accentPieces(events: readonly ScoreEvent[]): readonly Piece[] {
  const accented = events.some((event) =>
    event.kind === 'notes' ? event.notes.some((note) => note.accent) : 'accent' in event && event.accent,
  );
  return accented ? [{ row: 'accent', left: 1.2, right: 1.2, items: [accentWedge(0, 0)], signs: ['accent'] }] : [];
}
