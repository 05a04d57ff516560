import { completed } from '../../text/begun.ts';
import { figuresFor } from '../../text/figures-for-letters.ts';
import { isBegunChordName } from '../../theory/chord-begun.ts';
import { tellBegun } from './begun-values.ts';
import type { Cell } from './marks.ts';
import { type MarkFault, readMark } from './read-marks.ts';
import { type Piece, type Reading, replacing, report, reportUnfinished } from './reading.ts';
import type { RowKind } from './statement.ts';
import { plainStroke, spreadStrokes } from './strokes-written.ts';

interface FaultyCell {
  readonly word: Piece;
  readonly read: MarkFault;
}

/** The marks of a row. Bar lines may stand in any row for the eye; only those of the count row are counted. */
export function readCells(reading: Reading, kind: RowKind, keyword: Piece, pieces: readonly Piece[]): readonly Cell[] {
  const words = pieces.filter((piece) => piece.kind === 'word');
  const faulty: FaultyCell[] = [];
  const cells = words.map((word): Cell => {
    const read = readMark(word, kind);
    if ('mark' in read) return { word, mark: read.mark };
    faulty.push({ word, read });
    return { word, mark: { kind: 'faulty' } };
  });
  if (faulty.length > 0 && !tellWholeRow(reading, kind, keyword, words)) tellEach(reading, kind, words, faulty);
  return cells;
}

/** Whether all faults of the row are one mistake: then it is told once, with a fix for all of the row. */
function tellWholeRow(reading: Reading, kind: RowKind, keyword: Piece, words: readonly Piece[]): boolean {
  const [first, last] = [words[0], words.at(-1)];
  if (first === undefined || last === undefined) return false;
  const span = { start: first.span.start, end: last.span.end };
  const spread = kind === 'strum' ? spreadStrokes(words.map(({ text }) => text)) : undefined;
  if (spread !== undefined) {
    const message = `Each stroke has its own column. On a count of 1 & 2 & 3 & 4 & this strum is ${spread}.`;
    report(reading, 'error', 'strum.run-together', span, message, replacing(span, spread, `Spread it out: ${spread}`));
    return true;
  }
  const respelled = words.map((word) => respelledMark(word.text, kind));
  if (respelled.every((text, at) => isMark(text, words[at], kind))) {
    const changed = words.filter(({ text }, at) => text !== respelled[at]);
    const from = changed[0]?.span.start ?? span.start;
    const to = changed.at(-1)?.span.end ?? span.end;
    const edits = words.flatMap((word, at) => {
      const text = respelled[at] ?? word.text;
      return text === word.text ? [] : [{ span: word.span, text }];
    });
    const message = `${RESPELLED[kind] ?? 'This row is written'} ${respelled.join(' ')}.`;
    const title = `Write ${edits.map(({ text }) => text).join(' ')}`;
    report(reading, 'error', `${kind}.mark`, { start: from, end: to }, message, [{ title, edits, preferred: true }]);
    return true;
  }
  const other = kind === keyword.text ? OTHER_ROWS[kind] : undefined;
  if (other !== undefined && words.every((word) => isMark(word.text, word, other.kind))) {
    const message = `${other.what} belong in a ${other.kind} row.`;
    report(reading, 'error', `${kind}.mark`, span, message, replacing(keyword.span, other.kind));
    return true;
  }
  return false;
}

const RESPELLED: Readonly<Partial<Record<RowKind, string>>> = {
  pick: 'Fingers are small letters and strings are figures:',
  tune: 'Strings and frets are figures, signs are small letters:',
  strum: 'A stroke down is D, a stroke up is U:',
  hit: 'Hits are written in small letters:',
  fingers: 'Fingers are figures:',
};

/** What the marks of a row may be instead, where all of them are. */
const OTHER_ROWS: Readonly<Partial<Record<RowKind, { readonly kind: RowKind; readonly what: string }>>> = {
  pick: { kind: 'strum', what: 'Strokes' },
  strum: { kind: 'pick', what: 'Strings and fingers' },
};

function isMark(text: string, word: Piece | undefined, kind: RowKind): boolean {
  return word !== undefined && 'mark' in readMark({ text, span: word.span }, kind);
}

/** The word as it would be right where only its letters are the wrong ones: `P` for p, `down` for D, `1:O` for 1:0. */
function respelledMark(text: string, kind: RowKind): string {
  switch (kind) {
    case 'strum':
      return plainStroke(text);
    case 'hit':
      return text.toLowerCase();
    case 'fingers':
      return figuresFor(text);
    case 'pick':
    case 'tune':
      // A capital A before a finger is the other bass string.
      return figuresFor(text.replace(/[PIM]|A(?![pimaPIMA])|STOP/g, (letter) => letter.toLowerCase()));
    default:
      return text;
  }
}

/** Every other fault by itself, but the same word only once. */
function tellEach(reading: Reading, kind: RowKind, words: readonly Piece[], faulty: readonly FaultyCell[]): void {
  const told = new Set<string>();
  for (const { word, read } of faulty) {
    if (told.has(word.text)) continue;
    told.add(word.text);
    const whole = word === words.at(-1) ? begunMark(word, kind) : undefined;
    if (whole !== undefined) {
      reportUnfinished(reading, `${kind}.mark`, word.span, tellBegun(word.text, whole));
      continue;
    }
    const same = faulty.filter((other) => other.word.text === word.text);
    const times = same.length === 1 ? '' : ` It stands ${same.length} times in this row.`;
    const { instead } = read;
    const edits = instead === undefined ? [] : same.map((one) => ({ span: one.word.span, text: instead }));
    const fixes = instead === undefined ? [] : [{ title: `Write ${instead}`, edits, preferred: true }];
    report(reading, 'error', `${kind}.mark`, word.span, `${read.fault}${times}`, fixes);
  }
}

const ENDINGS: Readonly<Partial<Record<RowKind, readonly string[]>>> = {
  pick: ['stop', ':0', '0', '2'],
  tune: ['stop', ':0', '0', '2'],
  strum: ['chunk', 'roll', 'stop', '(U)', '(D)'],
  hit: ['thumb', 'palm', 'nails', 'body', 'stop'],
  chord: ['stop'],
};

/** The mark that the last word of the row may become; nothing where it is no beginning of one. */
function begunMark(word: Piece, kind: RowKind): string | undefined {
  if (kind === 'chord' && isBegunChordName(word.text)) return 'Csus4';
  return completed(word.text, ENDINGS[kind] ?? [], (text) => isMark(text, word, kind));
}
