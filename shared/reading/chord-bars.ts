import { beatsPerBar, isCompound, type Meter, printMeter } from '../theory/meter.ts';
import type { ChordLine, ChordToken } from './chord-line.ts';

/** A bar of chords as a line of them has it. */
export interface ChordBar {
  /** Names, `/` for further beats, `%`, `NC`. */
  readonly items: readonly string[];
  /** Where its first chord stands in the line. */
  readonly column: number;
  readonly opens: boolean;
  /** The sign that ends it. */
  readonly closes: '|' | '||' | ':|';
  readonly ending?: string;
  readonly meter?: string;
  readonly times?: number;
}

type OpenBar = { -readonly [K in keyof ChordBar]: ChordBar[K] } & { items: string[] };

/** The bars of a line: as its bar lines part them, as its strokes count beats, or else a bar for each chord. */
export function barsOfLine({ tokens }: ChordLine, meter: Meter): readonly ChordBar[] {
  const hasBars = tokens.some(({ kind }) => kind === 'bar');
  const hasBeats = tokens.some(({ kind }) => kind === 'beat');
  const bars = hasBars ? drawnBars(tokens) : hasBeats ? countedBars(tokens, meter) : singleBars(tokens);
  const times = tokens.findLast((token) => token.kind === 'times');
  return times?.kind === 'times' ? repeated(bars, times.times) : bars;
}

/** `x3` behind the line: of the repeat that ends it, or of the whole line. */
function repeated(bars: readonly ChordBar[], times: number): readonly ChordBar[] {
  if (times < 2) return bars;
  const drawn = bars.some(({ closes }) => closes === ':|');
  return bars.map((bar, index) => ({
    ...bar,
    opens: bar.opens || (!drawn && index === 0),
    ...(index === bars.length - 1 ? { closes: ':|' as const, times } : {}),
  }));
}

function drawnBars(tokens: readonly ChordToken[]): readonly ChordBar[] {
  const bars: OpenBar[] = [];
  let open = freshBar(false);
  let drawnAt: number | undefined;
  for (const token of tokens) {
    if (token.kind === 'bar') {
      const isEmpty = open.items.length === 0 && open.ending === undefined;
      const wide = drawnAt !== undefined && token.column - drawnAt > 2;
      // An empty bar plays the one before it again.
      if (isEmpty && wide && bars.length > 0) open.items.push('%');
      if (open.items.length > 0) {
        open.closes = token.sign === ':|' || token.sign === ':|:' ? ':|' : token.sign === '||' ? '||' : '|';
        bars.push(open);
      } else if (isEmpty && token.sign.startsWith(':')) {
        const last = bars.at(-1);
        if (last !== undefined) last.closes = ':|';
      }
      const { ending, meter } = open.items.length === 0 ? open : freshBar(false);
      open = { ...freshBar(token.sign === '|:' || token.sign === ':|:'), ...defined(ending, meter) };
      drawnAt = token.column;
    } else addToken(open, token);
  }
  if (open.items.length > 0) bars.push(open);
  return bars;
}

function defined(ending: string | undefined, meter: string | undefined): Pick<ChordBar, 'ending' | 'meter'> {
  return { ...(ending === undefined ? {} : { ending }), ...(meter === undefined ? {} : { meter }) };
}

function freshBar(opens: boolean): OpenBar {
  return { items: [], column: -1, opens, closes: '|' };
}

function addToken(bar: OpenBar, token: ChordToken): void {
  const item = itemOf(token);
  if (item !== undefined) {
    if (item === '/' && bar.items.length === 0) return;
    if (bar.column < 0) bar.column = token.column;
    bar.items.push(item);
  } else if (token.kind === 'ending') bar.ending = token.text;
  else if (token.kind === 'meter') bar.meter = token.text;
}

function itemOf(token: ChordToken): string | undefined {
  switch (token.kind) {
    case 'chord':
      return token.name;
    case 'beat':
      return '/';
    case 'same':
      return '%';
    case 'silence':
      return 'NC';
    default:
      return undefined;
  }
}

function singleBars(tokens: readonly ChordToken[]): readonly ChordBar[] {
  const bars: OpenBar[] = [];
  let meter: string | undefined;
  for (const token of tokens) {
    if (token.kind === 'meter') meter = token.text;
    if (itemOf(token) === undefined) continue;
    const bar = { ...freshBar(false), ...defined(undefined, meter) };
    meter = undefined;
    addToken(bar, token);
    bars.push(bar);
  }
  return bars;
}

/** `C / / / G / / /`: strokes fill bars of the meter, where the changes of chord let them. */
function countedBars(tokens: readonly ChordToken[], meter: Meter): readonly ChordBar[] {
  const beats = beatsPerBar(meter);
  const bars: OpenBar[] = [];
  let open = freshBar(false);
  for (const token of tokens) {
    const isFull = open.items.length >= beats && token.kind !== 'beat';
    if (isFull) {
      bars.push(open);
      open = freshBar(false);
    }
    addToken(open, token);
  }
  if (open.items.length > 0) bars.push(open);
  return bars;
}

/**
 * The bars with a meter at the head of those whose strokes count other beats than the lesson's. The beats of most bars are the
 * piece's: a bar without strokes has them as well.
 */
export function withMeters(bars: readonly ChordBar[], lesson: Meter): readonly ChordBar[] {
  const compressed = bars.map((bar) => inBeats(bar, lesson));
  let base = usualMeter(compressed, lesson);
  let current = printMeter(lesson);
  return compressed.map((bar) => {
    if (bar.meter !== undefined) base = bar.meter;
    const wanted =
      bar.items.includes('/') && bar.items.length !== beatsOf(base, lesson) ? meterOf(bar.items.length) : base;
    const { meter: _, ...rest } = bar;
    const isNew = wanted !== current;
    current = wanted;
    return isNew ? { ...rest, meter: wanted } : rest;
  });
}

/** Strokes that count the eighths of 6/8 become beats, where every chord lasts whole ones. */
function inBeats(bar: ChordBar, meter: Meter): ChordBar {
  const { items } = bar;
  if (!isCompound(meter) || !items.includes('/') || items.length !== meter.counts) return bar;
  const kept = items.filter((_, index) => index % 3 === 0);
  return items.every((item, index) => index % 3 === 0 || item === '/') ? { ...bar, items: kept } : bar;
}

function usualMeter(bars: readonly ChordBar[], lesson: Meter): string {
  const sums = new Map<number, number>();
  for (const { items } of bars) if (items.includes('/')) sums.set(items.length, (sums.get(items.length) ?? 0) + 1);
  const [most] = [...sums].sort((one, other) => other[1] - one[1]);
  return most === undefined || most[0] === beatsPerBar(lesson) ? printMeter(lesson) : meterOf(most[0]);
}

function meterOf(beats: number): string {
  return `${Math.min(beats, 32)}/4`;
}

function beatsOf(meter: string, lesson: Meter): number {
  return meter === printMeter(lesson) ? beatsPerBar(lesson) : Number(meter.split('/')[0]);
}
