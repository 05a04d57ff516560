import { nearest } from '../../text/nearest.ts';
import { shifted } from '../../text/span.ts';
import { isBegunChordName } from '../../theory/chord-begun.ts';
import { parseChordSymbol } from '../../theory/chord-symbol.ts';
import { type Piece, type Reading, replacing, report, reportUnfinished } from './reading.ts';
import type { ChordName, ListMember, Word } from './words.ts';

/** A chord as used: name, and a label behind a full stop. Never fails; what is no chord simply has no symbol. */
export function readChordName(word: Word): ChordName {
  const match = /^([^.]+)\.([A-Za-z0-9-]+)$/.exec(word.text);
  const name = match?.[1] ?? word.text;
  const parsed = parseChordSymbol(name);
  return {
    text: word.text,
    name,
    ...(match?.[2] !== undefined ? { label: match[2] } : {}),
    ...(parsed.ok ? { symbol: parsed.value } : { fault: parsed.problem }),
    span: word.span,
  };
}

/** `NC` and `N.C.`: nobody plays a chord. */
export function isNoChord(text: string): boolean {
  return /^n\.?c\.?$/i.test(text);
}

/** A name that the teacher makes up: letters, digits and `-`, at least one letter. */
export function isPlainName(text: string): boolean {
  return /^[\p{L}\p{N}][\p{L}\p{N}-]*$/u.test(text) && /\p{L}/u.test(text);
}

/** Names parted by blanks or commas, `x2` behind any of them, `+` between those that sound at once. */
export function readMembers(reading: Reading, pieces: readonly Piece[]): readonly ListMember[] {
  const members: { names: Word[]; times: number; start: number; end: number }[] = [];
  let joins = false;
  for (const piece of pieces) {
    if (piece.kind === 'comma') continue;
    if (piece.kind === 'bar-sign') {
      report(reading, 'error', 'list.bar-sign', piece.span, `A list of names has no bars; take ${piece.text} out.`);
      continue;
    }
    const last = members.at(-1);
    if (piece.text === 'x' && piece === pieces.at(-1) && last !== undefined) {
      reportUnfinished(reading, 'list.times', piece.span, 'How often? x2 behind a name plays it twice.');
      continue;
    }
    const times = /^x(\d{1,3})$/.exec(piece.text);
    if (times?.[1] !== undefined && last !== undefined) {
      last.times = Number(times[1]);
      last.end = piece.span.end;
      continue;
    }
    for (const part of splitAtPlus(piece)) {
      const open = members.at(-1);
      if (part.text === '+') {
        joins = true;
        if (open !== undefined) open.end = part.span.end;
        else
          report(
            reading,
            'error',
            'list.plus',
            part.span,
            '+ stands between two names that sound together; there is none before it.',
          );
      } else if (joins && open !== undefined) {
        open.names.push(part);
        open.end = part.span.end;
        joins = false;
      } else {
        members.push({ names: [part], times: 1, start: part.span.start, end: part.span.end });
        joins = false;
      }
    }
  }
  const last = members.at(-1);
  if (joins && last !== undefined) {
    report(
      reading,
      'hint',
      'list.plus',
      { start: last.start, end: last.end },
      'Which name sounds together with this one?',
    );
  }
  return members.map(({ names, times, start, end }) => ({ names, times, span: { start, end } }));
}

/** `roll+climb` as `roll`, `+`, `climb`. A `+` at the end of a chord name stays with it: `E+`. */
function splitAtPlus(piece: Piece): readonly Word[] {
  if (!piece.text.includes('+') || (piece.text !== '+' && parseChordSymbol(piece.text).ok)) return [piece];
  const parts: Word[] = [];
  for (const match of piece.text.matchAll(/\+|[^+]+/g)) {
    const start = piece.span.start + match.index;
    parts.push({ text: match[0], span: { start, end: start + match[0].length } });
  }
  return parts;
}

/**
 * Reports a chord whose name the trade does not know, in the words of the reader of names; true when the name is whole. Where
 * nothing stands behind it on the line, a name that may still become one is not a mistake.
 */
export function reportUnknownChord(reading: Reading, chord: ChordName, standsLast: boolean): boolean {
  const { fault } = chord;
  if (fault === undefined) return true;
  if (standsLast && mayBecomeName(chord.text)) {
    reportUnfinished(reading, 'chord.half-typed', chord.span, `${chord.text} is not a whole chord name yet.`);
    return false;
  }
  const whole = { start: chord.span.start, end: chord.span.start + chord.name.length };
  const near = fault.instead === undefined ? nearestChordName(chord.name) : undefined;
  const meant = fault.instead ?? near;
  const message =
    near === undefined ? fault.message : `${chord.name} is no chord name known here; did you mean ${near}?`;
  const fixes = meant === undefined ? [] : replacing(whole, meant);
  const span = near === undefined ? shifted(fault.span, chord.span.start) : whole;
  report(reading, 'error', fault.code, span, message, fixes);
  return true;
}

/** What stands behind the root in names that are met daily; the nearest to a slip is offered. Common practice, no source. */
const SUFFIXES = [
  ...['m', '7', 'm7', 'maj7', '6', 'm6', '9', 'm9', 'maj9', '11', '13', '6/9', '5'],
  ...['sus4', 'sus2', '7sus4', 'add9', '(add9)', 'dim', 'dim7', 'aug', 'm7b5', '7b9', '7#9', '7b5', '7#5'],
];

/** `Am` for `Amm`, `Cmaj7` for `Cmajj7`; nothing where no usual name is near. */
function nearestChordName(name: string): string | undefined {
  const [, root, suffix, bass = ''] = /^([A-G][b#♭♯]?)([^/]+)(\/.*)?$/.exec(name) ?? [];
  const near = suffix === undefined || /^\d+$/.test(suffix) ? undefined : nearest(suffix, SUFFIXES);
  const text = near === undefined ? undefined : `${root}${near}${bass}`;
  return text !== undefined && parseChordSymbol(text).ok ? text : undefined;
}

/** `Csu` on its way to Csus4, `Em.` on its way to Em.high, `N.` on its way to N.C. */
function mayBecomeName(text: string): boolean {
  const labelled = text.endsWith('.') && parseChordSymbol(text.slice(0, -1)).ok;
  return labelled || /^n\.?$/i.test(text) || isBegunChordName(text);
}
