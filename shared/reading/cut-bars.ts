import type { ChordLine } from './chord-line.ts';
import type { CountLine } from './count-line.ts';
import { type BarRemark, usualOf } from './row-agreement.ts';
import type { StringLine } from './string-line.ts';
import { barWidths } from './tab-bars.ts';
import type { SystemText } from './text-lines.ts';

/** Systems and the lines between them, each with the number of the system that it stands before. */
export interface PieceText {
  readonly systems: readonly SystemText[];
  readonly kept: readonly { readonly before: number; readonly written: string }[];
}

export interface JoinedPiece extends PieceText {
  /** Bars counted from the start of the piece. */
  readonly joined: readonly BarRemark[];
  readonly doubtful: readonly BarRemark[];
}

/** Widest bar that two parts are joined to where the text has no whole bar to compare. Unit: columns. */
const WIDEST_JOINED = 32;
/** Columns by which bars of one text differ without meaning it. */
const SLACK = 2;

/**
 * The piece with the systems joined between which a bar goes on: the first ends without a bar line, and the two parts together are no
 * wider than the bars of the text are, or the count goes on. Many writers leave out the last bar line of a system, so a part that is
 * as wide as a bar is one, and anything between is told. Common practice, no source.
 */
export function withCutBarsJoined({ systems, kept }: PieceText): JoinedPiece {
  const whole = wholeWidths(systems);
  const made: SystemText[] = [];
  const placeOf: number[] = [];
  const joined: BarRemark[] = [];
  const doubtful: BarRemark[] = [];
  let bars = 0;
  for (const system of systems) {
    const open = made.at(-1);
    const way = open === undefined ? 'apart' : wayOf(open, system, whole);
    if (way === 'doubtful') {
      const message = `its line of the text ends without a bar line, so it may go on in bar ${bars + 1}; it is read as a bar of its own`;
      doubtful.push({ bar: bars - 1, message });
    }
    if (open !== undefined && way === 'joined') {
      made[made.length - 1] = joinedSystem(open, system);
      joined.push({ bar: bars - 1, message: 'it goes on from one line of the text to the next' });
      bars -= 1;
    } else made.push(system);
    placeOf.push(made.length - 1);
    bars += widthsOf(system).widths.length;
  }
  return {
    systems: made,
    kept: kept.map(({ before, written }) => ({ before: placeOf[before] ?? made.length, written })),
    joined,
    doubtful,
  };
}

function widthsOf({ system }: SystemText): ReturnType<typeof barWidths> {
  return barWidths(system.lines[0]?.body ?? '');
}

/** Widths of the bars that have a bar line at both ends, as far as the names at the left do not hide it. */
function wholeWidths(systems: readonly SystemText[]): readonly number[] {
  return systems.flatMap((system, index) => {
    const { widths, isClosed } = widthsOf(system);
    const before = systems[index - 1];
    const isCutBefore = before !== undefined && !widthsOf(before).isClosed;
    return widths.slice(isCutBefore ? 1 : 0, isClosed ? undefined : -1);
  });
}

function wayOf(one: SystemText, other: SystemText, whole: readonly number[]): 'joined' | 'apart' | 'doubtful' {
  const { widths, isClosed } = widthsOf(one);
  const next = widthsOf(other).widths;
  const [part, rest] = [widths.at(-1), next[0]];
  if (isClosed || part === undefined || rest === undefined || !mayGoOn(one, other)) return 'apart';
  const together = isEven(one) && isEven(other) ? 'joined' : 'doubtful';
  if (one.count !== undefined && other.count !== undefined) return goesOn(one.count, other.count) ? together : 'apart';
  if (one.count !== undefined || other.count !== undefined) return 'apart';
  if (whole.length === 0) {
    // Where nobody draws a bar line the meter makes the bars.
    const drawsBars = widths.length > 1 || next.length > 1 || widthsOf(other).isClosed;
    return !drawsBars ? 'apart' : part + rest <= WIDEST_JOINED ? together : 'doubtful';
  }
  const [least, most] = [Math.min(...whole), Math.max(...whole)];
  const usual = usualOf(whole);
  if (Math.abs(part - usual) <= 1 || part >= least) return 'apart';
  return part + rest <= Math.max(most, usual) + SLACK ? together : 'doubtful';
}

/** As many lines, and neither words, times nor repeats where they meet. */
function mayGoOn(one: SystemText, other: SystemText): boolean {
  const [first, second] = [one.system.lines, other.system.lines];
  return (
    first.length === second.length &&
    first.every(({ after, times }) => after === '' && times === undefined) &&
    second.every(({ body }) => !/^\|*[|:*]{2}/.test(body) && !body.startsWith(':'))
  );
}

function isEven({ system }: SystemText): boolean {
  return new Set(system.lines.map(({ column, body }) => `${column} ${body.length}`)).size === 1;
}

function goesOn(one: CountLine, other: CountLine): boolean {
  const [last, next] = [one.said.at(-1), other.said[0]];
  return last !== undefined && next !== undefined && next.tick > 0 && next.tick > last.tick;
}

function joinedSystem(one: SystemText, other: SystemText): SystemText {
  const lines = one.system.lines.map((line, index): StringLine => joinedLine(line, other.system.lines[index] ?? line));
  const { column = 0, body = '' } = one.system.lines[0] ?? {};
  const next = other.system.lines[0];
  const by = column + body.length - (next?.column ?? 0) - (next?.body.startsWith('|') === true ? 1 : 0);
  const { chords: _, count: __, letters: ___, lettersWritten: ____, ...bare } = one;
  const chords = joinedChords(one.chords, other.chords, by);
  const count =
    one.count === undefined || other.count === undefined ? undefined : joinedCount(one.count, other.count, by);
  const letters = [...(one.letters ?? []), ...(other.letters ?? []).map((letter) => moved(letter, by))];
  const written = [one.lettersWritten, other.lettersWritten].filter((text) => text !== undefined).join(' ');
  return {
    ...bare,
    system: { lines },
    ...(chords === undefined ? {} : { chords }),
    ...(count === undefined ? {} : { count }),
    ...(letters.length === 0 ? {} : { letters, lettersWritten: written }),
  };
}

function joinedLine(one: StringLine, other: StringLine): StringLine {
  const { times, after } = other;
  return {
    ...one,
    body: one.body + other.body.replace(/^\|/, ''),
    after,
    ...(times === undefined ? {} : { times }),
  };
}

function joinedChords(one: ChordLine | undefined, other: ChordLine | undefined, by: number): ChordLine | undefined {
  if (one === undefined || other === undefined) {
    return (
      one ?? (other === undefined ? undefined : { ...other, tokens: other.tokens.map((token) => moved(token, by)) })
    );
  }
  return {
    tokens: [...one.tokens, ...other.tokens.map((token) => moved(token, by))],
    beside: [...one.beside, ...other.beside],
    doubtful: [...one.doubtful, ...other.doubtful],
    mayBeWords: one.mayBeWords && other.mayBeWords,
  };
}

/** The count of both lines; the second begins in the last bar of the first. */
function joinedCount(one: CountLine, other: CountLine, by: number): CountLine {
  const before = one.bars - 1;
  const said = [...one.said, ...other.said.map((word) => ({ ...moved(word, by), bar: word.bar + before }))];
  return { said, counts: Math.max(one.counts, other.counts), bars: before + other.bars };
}

function moved<T extends { readonly column: number }>(item: T, by: number): T {
  return { ...item, column: item.column + by };
}
