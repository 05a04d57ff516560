import { type Meter, parseMeter } from '../../theory/meter.ts';
import type { Ring } from './statement.ts';
import type { Feel, Tempo } from './words.ts';

/** Slowest and fastest tempo that a metronome offers. Unit: beats a minute. Common practice, no source. */
const TEMPO_RANGE = { slowest: 20, fastest: 400 };

const NOTE_VALUES: Readonly<Record<string, number>> = {
  halves: 2,
  half: 2,
  quarters: 4,
  quarter: 4,
  eighths: 8,
  eighth: 8,
  sixteenths: 16,
};

/** `80`, `60 to 92`, `60 to 92 by 4 every 2`, `180 eighths`. The text says what is wrong when it cannot be read. */
export function readTempo(text: string): Tempo | string {
  const match =
    /^(\d+)(?:\s+to\s+(\d+))?(?:\s+by\s+(\d+))?(?:\s+every\s+(\d+)(?:\s+(?:pass|passes|times?))?)?(?:\s+([a-z]+))?$/i.exec(
      text,
    );
  if (match === null) return 'A tempo is a number, or a way up: 80, or 60 to 92 by 4.';
  const from = Number(match[1]);
  const to = match[2] === undefined ? from : Number(match[2]);
  const unit = match[5] === undefined ? undefined : NOTE_VALUES[match[5].toLowerCase()];
  if (match[5] !== undefined && unit === undefined) {
    return `What ${match[5]} counts is not known here; say halves, quarters, eighths or sixteenths.`;
  }
  for (const tempo of [from, to]) {
    if (tempo < TEMPO_RANGE.slowest || tempo > TEMPO_RANGE.fastest) {
      return `${tempo} beats a minute cannot be set on a metronome; it goes from ${TEMPO_RANGE.slowest} to ${TEMPO_RANGE.fastest}.`;
    }
  }
  const by = match[3] === undefined ? undefined : Number(match[3]);
  if (by === 0) return 'by 0 never gets any faster; say how many beats a minute each step adds.';
  return {
    from,
    to,
    ...(by !== undefined ? { by } : {}),
    ...(match[4] !== undefined ? { everyPasses: Number(match[4]) } : {}),
    ...(unit !== undefined ? { unit } : {}),
  };
}

/** `straight`, `swing`, `swing 3 to 2`, `swing sixteenths`. Plain swing is two to one. Source: facts of the trade, common practice. */
export function readFeel(text: string): Feel | string {
  if (/^straight$/i.test(text)) return { kind: 'straight' };
  const match = /^swing(?:\s+(\d+)\s+to\s+(\d+))?(?:\s+(eighths|sixteenths))?$/i.exec(text);
  if (match === null) return 'The feel is straight, swing, swing 3 to 2 or swing sixteenths.';
  const long = Number(match[1] ?? 2);
  const short = Number(match[2] ?? 1);
  if (short === 0 || long < short)
    return 'In swing the first of two notes is the longer one: swing 2 to 1, swing 3 to 2.';
  return { kind: 'swing', long, short, unit: match[3]?.toLowerCase() === 'sixteenths' ? 16 : 8 };
}

/** `4/4`, `C`-free: the trade's letters for common and cut time are left to the printed page. */
export function readMeter(text: string): Meter | string {
  return (
    parseMeter(text.replace(/\s+/g, '')) ??
    'A meter is two numbers: 4/4, 3/4, 6/8. The lower one is 1, 2, 4, 8, 16 or 32.'
  );
}

/** `all`, `none`, or string numbers. */
export function readRing(words: readonly string[]): Ring | string {
  if (words.length === 1 && words[0] === 'all') return { kind: 'all' };
  if (words.length === 1 && words[0] === 'none') return { kind: 'none' };
  if (words.length === 0 || words.some((word) => !/^[1-8]$/.test(word))) {
    return 'Say which strings ring on: ring all, ring none, or their numbers, as in ring 1 2.';
  }
  return { kind: 'strings', strings: [...new Set(words.map(Number))] };
}

/** A number of minutes: `5`, `2.5`. */
export function readMinutes(text: string): number | undefined {
  return /^\d{1,3}(\.\d+)?$/.test(text) && Number(text) > 0 ? Number(text) : undefined;
}

/** A place in the video, minutes and seconds, hours before them where needed: `3:25`, `1:03:25`. */
export function isVideoTime(text: string): boolean {
  return /^(\d{1,2}:)?\d{1,2}:[0-5]\d$/.test(text);
}
