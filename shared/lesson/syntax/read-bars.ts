import type { Span } from '../../text/span.ts';
import { parseMeter } from '../../theory/meter.ts';
import { isNoChord, readChordName, reportUnknownChord } from './read-names.ts';
import { type Piece, type Reading, replacing, report, reportUnfinished } from './reading.ts';
import type { BarItem, BarSign, BarSignText, BarsLine, Ending, WordsRow, WrittenBar } from './statement.ts';
import type { MeterChange, Word } from './words.ts';

/** Every sign that the scanner takes for a bar line, as the trade has it; `:||` and `||:` are the same repeats with a thicker pen. */
const SIGNS: ReadonlyMap<string, BarSignText> = new Map([
  ['|', '|'],
  ['||', '||'],
  ['|:', '|:'],
  ['||:', '|:'],
  [':|', ':|'],
  [':||', ':|'],
  [':|:', ':|:'],
  [':||:', ':|:'],
]);

/** A bar sign as the trade has it. */
export function readBarSign(piece: Piece): BarSign {
  return { text: SIGNS.get(piece.text) ?? '|', span: piece.span };
}

/** `1st`, `2nd`, `1st+2nd`; undefined when the word is something else. */
export function readEnding(piece: Piece): Ending | undefined {
  if (!/^\d(st|nd|rd|th)(\+\d(st|nd|rd|th))*$/i.test(piece.text)) return undefined;
  return { numbers: [...piece.text.matchAll(/\d/g)].map(([digit]) => Number(digit)), span: piece.span };
}

/** `x3` behind a closing repeat. */
export function readTimes(piece: Piece): number | undefined {
  const match = /^x(\d{1,2})$/.exec(piece.text);
  return match === null ? undefined : Number(match[1]);
}

/** One line of bars: `|: Em | C / / G | 2nd D ||`. What stands before the first sign is a bar too. */
export function readBarsLine(reading: Reading, pieces: readonly Piece[], words: readonly WordsRow[]): BarsLine {
  const bars: WrittenBar[] = [];
  let open: OpenBar = { items: [], start: pieces[0]?.span.start ?? 0 };
  const close = (sign: BarSign | undefined, end: number): void => {
    if (open.items.length > 0 || open.ending !== undefined || open.meter !== undefined) {
      bars.push({
        span: { start: open.start, end },
        items: open.items,
        ...(open.opens !== undefined ? { opens: open.opens } : {}),
        ...(sign !== undefined ? { closes: sign } : {}),
        ...(open.ending !== undefined ? { ending: open.ending } : {}),
        ...(open.meter !== undefined ? { meter: open.meter } : {}),
      });
    } else if (sign !== undefined && open.opens !== undefined && sign.text === '|' && open.opens.text === '|') {
      report(
        reading,
        'warning',
        'bar.empty',
        { start: open.start, end },
        'This bar is empty; write a chord, % to repeat the bar before, or NC.',
      );
    }
  };
  for (const piece of pieces) {
    if (piece.kind === 'comma') continue;
    if (piece.kind === 'bar-sign') {
      const sign = readBarSign(piece);
      close(sign, piece.span.start);
      open = { items: [], start: piece.span.end, opens: sign };
      continue;
    }
    const times = readTimes(piece);
    const last = bars.at(-1);
    if (times !== undefined && last !== undefined && open.items.length === 0 && open.opens?.text.startsWith(':')) {
      bars[bars.length - 1] = { ...last, times };
      continue;
    }
    if (open.items.length === 0) {
      const ending = readEnding(piece);
      if (ending !== undefined) {
        open = { ...open, ending };
        continue;
      }
      const meter = parseMeter(piece.text);
      if (meter !== undefined) {
        open = { ...open, meter: { meter, span: piece.span } };
        continue;
      }
    }
    const standsLast = piece === pieces.at(-1);
    if (standsLast && isBegunSign(piece.text, open)) {
      const message =
        piece.text === ':'
          ? ': is begun; go on to :|, where the repeat goes back.'
          : `${piece.text} is begun; go on to an ending, 1st, a meter, 3/4, or behind :| to how often, x3.`;
      reportUnfinished(reading, 'bar.half-typed', piece.span, message);
      continue;
    }
    if (tellNameApart(reading, open.items.at(-1), piece)) continue;
    open.items.push(readBarItem(reading, piece, standsLast));
  }
  const end = pieces.at(-1)?.span.end ?? 0;
  close(undefined, end);
  return { span: { start: pieces[0]?.span.start ?? 0, end: words.at(-1)?.span.end ?? end }, bars, words };
}

interface OpenBar {
  readonly items: BarItem[];
  readonly start: number;
  readonly opens?: BarSign;
  readonly ending?: Ending;
  readonly meter?: MeterChange;
}

/** `1s` on its way to 1st, `2` to 2nd or 2/4 at the head of a bar, `x` to x3 behind a repeat. */
function isBegunSign(text: string, { items, opens }: OpenBar): boolean {
  if (text === ':') return true;
  if (items.length > 0) return false;
  return (
    /^\d{1,2}\/?$|^\d[snrt]$|^\d(st|nd|rd|th)\+(\d[snrt]?)?$/i.test(text) ||
    (text === 'x' && opens?.text.startsWith(':') === true)
  );
}

/** `C maj7` and `G 7` where one name is meant: told once, and read as the chord before it. */
function tellNameApart(reading: Reading, before: BarItem | undefined, piece: Piece): boolean {
  if (before?.kind !== 'chord' || before.chord.symbol === undefined || readChordName(piece).symbol !== undefined)
    return false;
  const text = before.chord.text + piece.text;
  if (isNoChord(piece.text) || !/[\p{L}\d]/u.test(piece.text) || readChordName({ ...piece, text }).symbol === undefined)
    return false;
  const span = { start: before.span.start, end: piece.span.end };
  const message = `A chord name is written without a gap: ${text}.`;
  report(reading, 'error', 'chord.apart', span, message, replacing(span, text));
  return true;
}

function readBarItem(reading: Reading, piece: Piece, standsLast: boolean): BarItem {
  if (piece.text === '/') return { kind: 'beat', span: piece.span };
  if (piece.text === '%') return { kind: 'same', span: piece.span };
  if (isNoChord(piece.text)) return { kind: 'silence', span: piece.span };
  const chord = readChordName(piece);
  if (/^\(?\d+\)?$/.test(piece.text)) {
    const message = `${piece.text} is no chord. A chord lasts a beat longer for every / behind it; a pickup is said above the bars, as in count 4.`;
    report(reading, 'error', 'bar.number', piece.span, message);
  } else reportUnknownChord(reading, chord, standsLast);
  return { kind: 'chord', chord, span: piece.span };
}

/** `words Lan-terns go down | to the wa-ter`: syllables by bar. A hyphen inside a word parts syllables and stays with the first. */
export function readWordsRow(reading: Reading, verse: number, pieces: readonly Piece[], span: Span): WordsRow {
  const bars: Word[][] = [[]];
  for (const piece of pieces) {
    if (piece.kind === 'bar-sign') {
      // A sign at the very beginning or end frames the line and parts nothing.
      if (piece !== pieces[0]) bars.push([]);
      continue;
    }
    const comma = piece.kind === 'comma';
    const bar = bars.at(-1);
    const last = bar?.at(-1);
    if (comma && last !== undefined && last.span.end === piece.span.start) {
      bar?.splice(-1, 1, { text: `${last.text},`, span: { start: last.span.start, end: piece.span.end } });
    } else if (!comma) bar?.push(...syllablesOf(reading, piece));
  }
  if (bars.length > 1 && bars.at(-1)?.length === 0) bars.pop();
  return { verse, bars, span };
}

function syllablesOf(reading: Reading, piece: Piece): readonly Word[] {
  const written = reading.text.slice(piece.span.start, piece.span.end);
  const syllables: Word[] = [];
  for (const match of written.matchAll(/[^-]+-?|-/g)) {
    const start = piece.span.start + match.index;
    syllables.push({ text: match[0], span: { start, end: start + match[0].length } });
  }
  return syllables;
}
