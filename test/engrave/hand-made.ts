import type { ResolvedChord } from '../../shared/lesson/model/resolved-chord.ts';
import type { PickFinger, Technique } from '../../shared/lesson/syntax/marks.ts';
import { readEntry } from '../../shared/lesson/syntax/read-entry.ts';
import type { Shape } from '../../shared/neck/shape.ts';
import type { ExerciseScore, ScoreBar, ScoreEvent, ScoreNote, Source } from '../../shared/score/timeline.ts';
import { parseChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { barLength, COMMON_TIME, type Meter } from '../../shared/theory/meter.ts';
import { type Rational, rational } from '../../shared/theory/rational.ts';

// Scores made by hand, as the engraver gets them. The music is nobody's: patterns of the trade over open shapes.

const SOURCE: Source = { entry: readEntry('exercise  By hand'), span: { start: 0, end: 8 } };

export function chord(name: string, shape: Shape, assumed = false): ResolvedChord {
  const symbol = parseChordSymbol(name);
  if (!symbol.ok) throw new Error(`no chord: ${name}`);
  return { text: name, name, symbol: symbol.value, shape, assumed };
}

export interface BarSketch {
  readonly number?: number;
  readonly meter?: Meter;
  readonly showsMeter?: boolean;
  /** Evenly spread over the bar. */
  readonly counts?: string;
  /** One for each count; a word per event, see `events`. */
  readonly play?: string;
  readonly chords?: readonly (readonly [eighth: number, chord: ResolvedChord | undefined])[];
  readonly words?: readonly (readonly [column: number, text: string])[];
  readonly calls?: readonly (readonly [column: number, text: string])[];
  readonly opens?: ScoreBar['opens'];
  readonly closes?: ScoreBar['closes'];
  readonly times?: number;
  readonly ending?: ScoreBar['ending'];
  readonly same?: boolean;
  /** Further voices, one string of cells each. */
  readonly also?: readonly string[];
}

/**
 * A bar from a row of cells: `4p:0` (string, finger, fret), joined with `+`; `t1:5` is a tune note; `1i:2h4`, `p2`, `s4`,
 * `b`, `v`, `t4`, `*`, `!`, `^` follow a note; `D U D~ Dx D43 (U) D!`; `chunk roll slide thumb palm nails body stop stop3 held`.
 */
export function bar(sketch: BarSketch): ScoreBar {
  const meter = sketch.meter ?? COMMON_TIME;
  const length = barLength(meter);
  const counts = (sketch.counts ?? '').split(/\s+/).filter((word) => word !== '');
  const place = (column: number, of: number): Rational =>
    rational(length.numerator * column, length.denominator * Math.max(1, of));
  const strings = sketch.chords?.find(([, held]) => held !== undefined)?.[1]?.shape.length ?? 4;
  const shape = sketch.chords?.find(([, held]) => held !== undefined)?.[1]?.shape ?? [0, 0, 0, 3];
  const rows = [sketch.play ?? '', ...(sketch.also ?? [])];
  const events = rows.flatMap((row) => {
    const cells = row.split(/\s+/).filter((word) => word !== '');
    return cells.flatMap((cell, index): readonly ScoreEvent[] => {
      if (cell === '.') return [];
      let until = index + 1;
      while (cells[until] === '.') until++;
      const timed = { at: place(index, cells.length), length: place(until - index, cells.length), source: SOURCE };
      return [{ ...timed, ...eventOf(cell, strings, shape) } as ScoreEvent];
    });
  });
  const columns = Math.max(1, counts.length);
  return {
    ...(sketch.number === undefined ? {} : { number: sketch.number }),
    meter,
    showsMeter: sketch.showsMeter ?? false,
    length,
    opens: sketch.opens,
    closes: sketch.closes ?? '|',
    ...(sketch.times === undefined ? {} : { times: sketch.times }),
    ...(sketch.ending === undefined ? {} : { ending: sketch.ending }),
    same: sketch.same ?? false,
    chords: (sketch.chords ?? []).map(([eighth, held]) => ({
      at: rational(eighth, 8),
      length: rational(1, 4),
      ...(held === undefined ? {} : { chord: held }),
      source: SOURCE,
    })),
    counts: counts.map((text, index) => ({ at: place(index, columns), text })).filter(({ text }) => text !== '.'),
    events,
    syllables: (sketch.words ?? []).map(([column, text]) => ({ at: place(column, columns), text, verse: 1 })),
    calls: (sketch.calls ?? []).map(([column, text]) => ({ at: place(column, columns), text, verse: 1 })),
    source: SOURCE,
  };
}

export function score(bars: readonly ScoreBar[], stringCount = 4): ExerciseScore {
  return { title: 'By hand', passes: [{ bars, with: [] }], stringCount, hasTune: false };
}

function eventOf(cell: string, stringCount: number, shape: Shape): object {
  const accent = cell.endsWith('!');
  const word = accent ? cell.slice(0, -1) : cell;
  const fretOf = (string: number): number => {
    const fret = shape[stringCount - string];
    return fret === undefined || fret === 'muted' ? 0 : fret;
  };
  const stroke = /^(\()?([DU])(~)?(x)?(\d)?(\d)?\)?$/.exec(word);
  if (stroke !== null) {
    const down = stroke[2] === 'D';
    const from = stroke[5] === undefined ? (down ? stringCount : 1) : Number(stroke[5]);
    const to =
      stroke[6] === undefined ? (stroke[5] === undefined ? (down ? 1 : stringCount) : from) : Number(stroke[6]);
    const step = from > to ? -1 : 1;
    const notes = Array.from({ length: Math.abs(from - to) + 1 }, (_, index) => from + index * step);
    return {
      kind: 'strum',
      direction: down ? 'down' : 'up',
      slow: stroke[3] !== undefined,
      damped: stroke[4] !== undefined,
      light: stroke[1] !== undefined,
      accent,
      notes: notes.map((string) => ({ string, fret: fretOf(string) })),
    };
  }
  if (word === 'chunk' || word === 'roll') return { kind: word, accent };
  if (word === 'slide') return { kind: 'shape-slide', accent };
  if (['palm', 'nails', 'body', 'thumb'].includes(word))
    return { kind: 'hit', place: word, accent, ...(word === 'thumb' ? { string: stringCount } : {}) };
  if (word.startsWith('stop')) return { kind: 'stop', layer: 'accompaniment', strings: [...word.slice(4)].map(Number) };
  if (word === 'held') return { kind: 'held', layer: 'accompaniment' };
  const tune = word.startsWith('t');
  const notes = word
    .replace(/^t/, '')
    .split('+')
    .map((text) => noteOf(text, accent));
  return { kind: 'notes', layer: tune ? 'tune' : 'accompaniment', voice: 1, notes };
}

function noteOf(text: string, accent: boolean): ScoreNote {
  const match = /^(\d)([pima])?:(\d+)([hpst]\d+|[bv*])?(\^)?$/.exec(text);
  if (match === null) throw new Error(`no note: ${text}`);
  const kinds: Readonly<Record<string, Technique['kind']>> = {
    h: 'hammer-on',
    p: 'pull-off',
    s: 'slide',
    t: 'trill',
    b: 'bend',
    v: 'vibrato',
    '*': 'harmonic',
  };
  const kind = match[4] === undefined ? undefined : kinds[match[4].charAt(0)];
  const technique = kind === undefined ? [] : [{ kind, fret: Number(match[4]?.slice(1) || 0) } as Technique];
  return {
    string: Number(match[1]),
    fret: Number(match[3]),
    ...(match[2] === undefined ? {} : { finger: match[2] as PickFinger }),
    techniques: technique,
    accent,
    restStroke: match[5] !== undefined,
  };
}
