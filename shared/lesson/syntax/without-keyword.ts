import { parseInstrument } from '../../neck/instruments.ts';
import type { Fix } from '../../text/problem.ts';
import { isPlainName, readChordName } from './read-names.ts';
import { readShape } from './read-shape.ts';
import { type Reading, report, type WordLine } from './reading.ts';

/** A line at the margin that is whole but for its keyword: told with the word that makes it whole. True when it was one. */
export function tellWithoutKeyword(reading: Reading, line: WordLine): boolean {
  const missing = missingKeyword(reading, line);
  if (missing === undefined) return false;
  const start = { start: line.span.start, end: line.span.start };
  const fix: Fix = {
    title: `Write ${missing.keyword} in front`,
    edits: [{ span: start, text: missing.inFront }],
    preferred: true,
  };
  report(reading, 'error', 'keyword.missing', line.span, missing.message, [fix]);
  return true;
}

/** The line as a sentence for the student. */
export function proseFix({ span }: WordLine): Fix {
  return { title: 'Make it a sentence: >', edits: [{ span: { start: span.start, end: span.start }, text: '> ' }] };
}

interface Missing {
  readonly keyword: string;
  readonly inFront: string;
  readonly message: string;
}

function missingKeyword(reading: Reading, { keyword, rest, span }: WordLine): Missing | undefined {
  const isChord = readChordName(keyword).symbol !== undefined;
  if (keyword.kind === 'bar-sign' || (isChord && rest.some((piece) => piece.kind === 'bar-sign'))) {
    const message = 'Bars stand indented under a progression that has a name: progression verse.';
    return { keyword: 'progression', inFront: 'progression\n  ', message };
  }
  if (rest[0]?.kind === 'bar-sign' && isPlainName(keyword.text)) {
    const message = `Bars with a name begin with progression: progression ${keyword.text}.`;
    return { keyword: 'progression', inFront: 'progression  ', message };
  }
  const behind = reading.text.slice(keyword.span.end, span.end).trim();
  if (isChord && /^[\dxX]/.test(behind) && readShape(behind.replace(/\s+fingers\s.*$/, '')).ok) {
    const message = `A shape begins with chord: chord ${keyword.text} ${behind}.`;
    return { keyword: 'chord', inFront: 'chord  ', message };
  }
  if (parseInstrument(reading.text.slice(span.start, span.end)).ok) {
    return {
      keyword: 'for',
      inFront: 'for  ',
      message: `An instrument begins with for: for ${keyword.text} ${behind}.`,
    };
  }
  return undefined;
}
