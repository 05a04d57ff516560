import { readFrets } from '../../neck/shape-reader.ts';
import { figuresFor } from '../../text/figures-for-letters.ts';
import { nearest } from '../../text/nearest.ts';
import { shifted } from '../../text/span.ts';
import { isNoChord, readChordName, reportUnknownChord } from './read-names.ts';
import { readShape } from './read-shape.ts';
import { afterLine, type Piece, type Reading, replacing, report, type WordLine } from './reading.ts';
import type { ChordStatement } from './statement.ts';
import type { ChordName, Word } from './words.ts';

/** The words that a chord line may hold beside names and numbers. */
const AS = 'as';
const FINGERS = 'fingers';

/** `chord NAME FRETS [fingers …]`; in an edition block also `chord NAME as OTHER FRETS`. The number of strings is not known here. */
export function readChord(reading: Reading, line: WordLine): ChordStatement {
  const pieces = line.rest.filter((piece) => piece.kind === 'word');
  const base = { kind: 'chord' as const, keyword: line.keyword, span: line.span };
  const [name, ...afterName] = pieces;
  if (name === undefined) {
    report(reading, 'hint', 'chord.no-name', line.span, 'Write the chord’s name, then its frets: chord Em 0-4-3-2.');
    return { ...base, fretSpans: [] };
  }
  const apart = nameInParts(name, afterName);
  if (apart !== undefined) {
    const span = { start: name.span.start, end: apart.end };
    const message = `A chord name is written without a gap: ${apart.text}.`;
    report(reading, 'error', 'chord.apart', span, message, replacing(span, apart.text));
    return readChordBehind(reading, line, readChordName({ text: apart.text, span }), apart.behind);
  }
  const chord = readChordName(name);
  return readChordBehind(reading, line, chord, afterName);
}

/** What stands behind the name. */
function readChordBehind(
  reading: Reading,
  line: WordLine,
  chord: ChordName,
  afterName: readonly Piece[],
): ChordStatement {
  const base = { kind: 'chord' as const, keyword: line.keyword, span: line.span };
  let whole = true;
  if (isNoChord(chord.text)) {
    report(
      reading,
      'error',
      'chord.none',
      chord.span,
      `${chord.text} means that no chord is played; it needs no shape.`,
    );
  } else whole = reportUnknownChord(reading, chord, afterName.length === 0);

  let rest = afterName;
  let as: ReturnType<typeof readChordName> | undefined;
  if (rest[0]?.text === AS && rest[1] !== undefined) {
    as = readChordName(rest[1]);
    whole = reportUnknownChord(reading, as, rest.length === 2) && whole;
    rest = rest.slice(2);
  }
  const { fretPieces, fingerPieces } = cutAtFingers(reading, line, rest, as === undefined);
  const fretWord = joined(reading, fretPieces);
  const fingerWord = joined(reading, fingerPieces);
  const fingers = fingerWord && readFingers(reading, fingerWord);
  const result: ChordStatement = {
    ...base,
    chord,
    fretSpans: [],
    ...(as !== undefined ? { as } : {}),
    ...(fingers !== undefined && fingerWord !== undefined ? { fingers, fingersWord: fingerWord } : {}),
  };
  if (fretWord === undefined) {
    // Whoever is still at the name is told of that alone.
    if (whole) {
      report(
        reading,
        'hint',
        'chord.no-frets',
        chord.span,
        `${chord.text} has no shape yet; write its frets behind the name.`,
      );
    }
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

/**
 * A name that stands in several words, such as `E min` or `C maj 7`, and what comes behind it. A figure belongs to the name only where
 * the frets behind it are one whole word: `G 7 0-2-1-2`.
 */
function nameInParts(
  name: Piece,
  behind: readonly Piece[],
): { readonly text: string; readonly end: number; readonly behind: readonly Piece[] } | undefined {
  const alone = readChordName(name);
  if (alone.symbol === undefined || alone.label !== undefined) return undefined;
  for (let parts = 2; parts >= 1; parts -= 1) {
    const [pieces, rest] = [behind.slice(0, parts), behind.slice(parts)];
    const last = pieces.at(-1);
    if (pieces.length < parts || last === undefined) continue;
    if (pieces.some(({ text }) => text === AS || FINGERS.startsWith(text) || /^(?!\d{1,2}$)[\dx]/i.test(text)))
      continue;
    const text = [name, ...pieces].map((piece) => piece.text).join('');
    const isFigure = pieces.some((piece) => /^\d+$/.test(piece.text));
    const isFollowed = rest[0] !== undefined && readFrets(rest[0].text).ok;
    if ((!isFigure || isFollowed) && readChordName({ ...name, text }).symbol !== undefined) {
      return { text, end: last.span.end, behind: rest };
    }
  }
  return undefined;
}

interface ChordLineParts {
  readonly fretPieces: readonly Piece[];
  readonly fingerPieces: readonly Piece[];
}

/** What stands before and behind `fingers`. A word that may still become one of the line's own words is no mistake. */
function cutAtFingers(reading: Reading, line: WordLine, pieces: readonly Piece[], mayHaveAs: boolean): ChordLineParts {
  const at = pieces.findIndex((piece) => piece.text === FINGERS);
  const last = pieces.at(-1);
  if (at >= 0) {
    const fingerPieces = pieces.slice(at + 1);
    if (fingerPieces.length === 0) {
      const message = 'Write one finger for each string: fingers 0-3-2-1.';
      report(reading, 'hint', 'fingers.empty', afterLine(line), message);
    }
    return { fretPieces: cutAtStrayWord(reading, pieces.slice(0, at)), fingerPieces };
  }
  if (last === undefined) return { fretPieces: [], fingerPieces: [] };
  if (mayHaveAs && pieces.length === 1 && last.text === AS) {
    const message = 'Behind as stands the name that the chord has on this instrument: chord G as A 2-2-2-0.';
    report(reading, 'hint', 'as.empty', afterLine(line), message);
    return { fretPieces: [], fingerPieces: [] };
  }
  const begun = mayHaveAs && pieces.length === 1 && AS.startsWith(last.text) ? AS : FINGERS;
  if (begun.startsWith(last.text)) {
    const message = `${last.text} is not a whole word yet; ${begun} is one.`;
    report(reading, 'hint', 'keyword.half-typed', last.span, message, replacing(last.span, begun));
    return { fretPieces: cutAtStrayWord(reading, pieces.slice(0, -1)), fingerPieces: [] };
  }
  return { fretPieces: cutAtStrayWord(reading, pieces), fingerPieces: [] };
}

/** A word behind frets that are whole makes no frets of theirs wrong: it is reported by itself, and the frets end before it. */
function cutAtStrayWord(reading: Reading, pieces: readonly Piece[]): readonly Piece[] {
  const at = pieces.findIndex((piece) => /^(?![xX])\p{L}{2,}/u.test(piece.text));
  const stray = pieces[at];
  const before = pieces.slice(0, Math.max(at, 0));
  const fretWord = joined(reading, before);
  if (stray === undefined || fretWord === undefined || !readFrets(fretWord.text).ok) return pieces;
  const meant = FINGERS.startsWith(stray.text) ? FINGERS : nearest(stray.text, [FINGERS]);
  report(
    reading,
    'error',
    'chord.unknown-word',
    stray.span,
    `${stray.text} means nothing behind the frets${meant === undefined ? '.' : `; did you mean ${meant}?`}`,
    meant === undefined ? [] : replacing(stray.span, meant),
  );
  return before;
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

/** `0-3-2-1`, `0321` or `0 3 2 1`; `T` is the thumb, `x` stands where no finger does. A hyphen at the end waits for the next one. */
function readFingers(reading: Reading, word: Word): readonly (number | 'T')[] | undefined {
  const compact = /^[0-4Tx]+$/i.test(word.text);
  const parts = compact ? [...word.text] : (word.text.match(/[^-\s]+/g) ?? []);
  const fingers = parts.map((part) =>
    /^t$/i.test(part) ? 'T' : /^x$/i.test(part) ? 0 : /^[0-4]$/.test(part) ? Number(part) : undefined,
  );
  if (fingers.some((finger) => finger === undefined)) {
    const meant = figuresFor(word.text);
    report(
      reading,
      'error',
      'fingers.not-a-finger',
      word.span,
      'Fingers are 1 to 4 from index to little finger, 0 for an open string, T for the thumb: fingers 0-3-2-1.',
      meant === word.text ? [] : replacing(word.span, meant),
    );
    return undefined;
  }
  return fingers.filter((finger) => finger !== undefined);
}
