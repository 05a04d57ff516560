import { figuresFor } from '../text/figures-for-letters.ts';
import type { Fault, Outcome } from '../text/problem.ts';
import type { Span } from '../text/span.ts';
import { FEWEST_STRINGS, MOST_STRINGS } from './instruments.ts';
import type { Fret, Shape } from './shape.ts';

/** A shape and where in the word each of its frets stands. */
export interface ReadShape {
  readonly shape: Shape;
  /** One for every fret, in chart order. */
  readonly spans: readonly Span[];
}

/** No neck has more; what is beyond the neck of the lesson's instrument is checked where that is known. */
const HIGHEST_FRET = 36;

/** Everything that parts frets: the hyphens and dashes that keyboards and word processors write, blanks, commas. */
const SEPARATORS = /[\s,‐‑‒–—−-]+/u;

const MARK = /[^\s,‐‑‒–—−-]+/gu;

/**
 * Reads `0-4-3-2`, `x-0-1-0`, `0–4–3–2`, `12 12 11 0`, and run together `0432` or `x02210` where every fret is one digit.
 * Codes: `shape.too-few-frets` (what is there is right so far, perhaps still being typed), `shape.too-many-frets`,
 * `shape.unreadable-fret`, `shape.no-such-fret`. Spans count from the start of `text`.
 */
export function readFrets(text: string, stringCount?: number): Outcome<ReadShape> {
  const plain = text.replace(/[０-９]/g, (digit) => String.fromCharCode(digit.charCodeAt(0) - 0xfee0));
  const trimmed = plain.trim();
  const together = trimmed.length > 0 && !SEPARATORS.test(trimmed);
  const marks = [...plain.matchAll(together ? /[^\s]/gu : MARK)];
  const shape: Fret[] = [];
  const spans: Span[] = [];
  for (const match of marks) {
    const span = { start: match.index, end: match.index + match[0].length };
    const fret = readFret(match[0]);
    if (fret === undefined) {
      const meant = figuresFor(plain);
      const isMeant = meant !== plain && readFrets(meant, stringCount).ok;
      const message = isMeant
        ? `"${match[0]}" is a letter here; frets are figures: ${meant.trim()}.`
        : `"${match[0]}" is not a fret. A fret is a number, 0 for an open string, or x for a string that is not to sound.`;
      return fails({ code: 'shape.unreadable-fret', message, span, ...(isMeant ? { instead: meant.trim() } : {}) });
    }
    if (fret !== 'muted' && fret > HIGHEST_FRET) {
      const message = `No neck has a fret ${fret}.`;
      return fails({ code: 'shape.no-such-fret', message, span });
    }
    shape.push(fret);
    spans.push(span);
  }
  const fewest = stringCount ?? FEWEST_STRINGS;
  const most = stringCount ?? MOST_STRINGS;
  if (shape.length < fewest) {
    const message = `${shape.length} of ${fewest} frets so far: write one for each string, 0 for an open one, x for a silent one.`;
    return fails({ code: 'shape.too-few-frets', message, span: { start: 0, end: text.length } });
  }
  if (shape.length > most) {
    const message = `${shape.length} frets for ${most} strings: ${shape.length - most} too many.`;
    const span = { start: spans[most]?.start ?? 0, end: text.trimEnd().length };
    return fails({ code: 'shape.too-many-frets', message, span });
  }
  return { ok: true, value: { shape, spans } };
}

function readFret(mark: string): Fret | undefined {
  if (/^[xX×ｘＸ]$/u.test(mark)) return 'muted';
  return /^\d{1,3}$/.test(mark) ? Number(mark) : undefined;
}

function fails(problem: Fault): { readonly ok: false; readonly problem: Fault } {
  return { ok: false, problem };
}
