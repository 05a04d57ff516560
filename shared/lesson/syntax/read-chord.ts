import { shifted } from '../../text/span.ts';
import { isNoChord, readChordName, reportUnknownChord } from './read-names.ts';
import { readShape } from './read-shape.ts';
import { type Piece, type Reading, replacing, report, type WordLine } from './reading.ts';
import type { ChordStatement } from './statement.ts';
import type { Word } from './words.ts';

/** `chord NAME FRETS [fingers …]`; in an edition block also `chord NAME as OTHER FRETS`. The number of strings is not known here. */
export function readChord(reading: Reading, line: WordLine): ChordStatement {
  const pieces = line.rest.filter((piece) => piece.kind === 'word');
  const base = { kind: 'chord' as const, keyword: line.keyword, span: line.span };
  const [name, ...afterName] = pieces;
  if (name === undefined) {
    report(reading, 'hint', 'chord.no-name', line.span, 'Write the chord’s name, then its frets: chord Em 0-4-3-2.');
    return { ...base, fretSpans: [] };
  }
  const chord = readChordName(name);
  if (isNoChord(name.text)) {
    report(
      reading,
      'error',
      'chord.none',
      chord.span,
      `${name.text} means that no chord is played; it needs no shape.`,
    );
  } else reportUnknownChord(reading, chord);

  let rest = afterName;
  let as: ReturnType<typeof readChordName> | undefined;
  if (rest[0]?.text === 'as' && rest[1] !== undefined) {
    as = readChordName(rest[1]);
    reportUnknownChord(reading, as);
    rest = rest.slice(2);
  }
  const at = rest.findIndex((piece) => piece.text === 'fingers');
  const fretWord = joined(reading, at < 0 ? rest : rest.slice(0, at));
  const fingerWord = at < 0 ? undefined : joined(reading, rest.slice(at + 1));
  const fingers = fingerWord && readFingers(reading, fingerWord);
  const result: ChordStatement = {
    ...base,
    chord,
    fretSpans: [],
    ...(as !== undefined ? { as } : {}),
    ...(fingers !== undefined && fingerWord !== undefined ? { fingers, fingersWord: fingerWord } : {}),
  };
  if (fretWord === undefined) {
    report(
      reading,
      'hint',
      'chord.no-frets',
      chord.span,
      `${chord.text} has no shape yet; write its frets behind the name.`,
    );
    return result;
  }
  const frets = readShape(fretWord.text);
  if (!frets.ok) {
    const span = shifted(frets.problem.span, fretWord.span.start);
    const fixes = frets.problem.instead === undefined ? [] : replacing(fretWord.span, frets.problem.instead);
    report(reading, 'error', frets.problem.code, span, frets.problem.message, fixes);
    return { ...result, frets: fretWord };
  }
  return {
    ...result,
    frets: fretWord,
    shape: frets.value.shape,
    fretSpans: frets.value.spans.map((span) => shifted(span, fretWord.span.start)),
  };
}

/** Words side by side as one: `12 12 11 0`. */
function joined(reading: Reading, pieces: readonly Piece[]): Word | undefined {
  const first = pieces[0];
  const last = pieces.at(-1);
  if (first === undefined || last === undefined) return undefined;
  if (first === last) return first;
  const span = { start: first.span.start, end: last.span.end };
  const text = pieces.reduce((sofar, piece) => sofar.padEnd(piece.span.start - span.start) + piece.text, '');
  return { text: text || reading.text.slice(span.start, span.end), span };
}

/** `0-3-2-1`, `0321` or `0 3 2 1`; `T` is the thumb, `x` or `-` stands where no finger does. */
function readFingers(reading: Reading, word: Word): readonly (number | 'T')[] | undefined {
  const compact = /^[0-4Tx]+$/i.test(word.text);
  const parts = compact ? [...word.text] : word.text.split(/[-\s]+/);
  const fingers = parts.map((part) =>
    /^t$/i.test(part) ? 'T' : /^x$/i.test(part) ? 0 : /^[0-4]$/.test(part) ? Number(part) : undefined,
  );
  if (fingers.some((finger) => finger === undefined)) {
    report(
      reading,
      'error',
      'fingers.not-a-finger',
      word.span,
      'Fingers are 1 to 4 from index to little finger, 0 for an open string, T for the thumb: fingers 0-3-2-1.',
    );
    return undefined;
  }
  return fingers.filter((finger) => finger !== undefined);
}
