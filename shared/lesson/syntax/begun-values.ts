import { HAND_NAMES, parseHand } from '../../hand/hand.ts';
import { instrumentNames, parseInstrument } from '../../neck/instruments.ts';
import { completed } from '../../text/begun.ts';
import { parseKey } from '../../theory/key.ts';
import { isVideoTime, readFeel, readMeter, readMinutes, readRing, readTempo } from './read-values.ts';
import { type Reading, replacing, report, reportUnfinished } from './reading.ts';
import type { Word } from './words.ts';

/** A value of which only the beginning stands there, and how it may go on. */
export function tellBegun(text: string, whole: string): string {
  return `${text} is begun; go on, as in ${whole}.`;
}

type ValueKind = 'tempo' | 'meter' | 'feel' | 'ring' | 'minutes' | 'video' | 'restart' | 'within';

interface Endings {
  /** What a value of this kind may end with; of several the first that makes it whole is offered. */
  readonly endings: readonly string[];
  readonly isWhole: (text: string) => boolean;
  /** What was probably meant by a value in other words; it is offered where it is whole. */
  readonly meant?: (text: string) => string;
}

/** Minutes that are written in letters; more are written in figures. */
const COUNT_WORDS = ['one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine', 'ten', 'eleven', 'twelve'];

/** `five`, `5 min` */
function minutesMeant(text: string): string {
  const [, number = ''] = /^(\S*?)\s*(?:m|min|mins|minutes?|['′])?\.?$/i.exec(text) ?? [];
  const at = COUNT_WORDS.indexOf(number.toLowerCase());
  return at < 0 ? number : String(at + 1);
}

const VALUES: Readonly<Record<ValueKind, Endings>> = {
  tempo: {
    endings: ['0', '00', ' to 92', ' to 120', ' by 4', ' every 2', ' halves', ' quarters', ' eighths', ' sixteenths'],
    isWhole: (text) => typeof readTempo(text) !== 'string',
    meant: (text) => text.replace(/^(\d+)\s*[-‐‑‒–—−]\s*(?=\d)/u, '$1 to '),
  },
  meter: { endings: ['/4'], isWhole: (text) => typeof readMeter(text) !== 'string' },
  feel: {
    endings: ['straight', 'swing', ' 3 to 2', ' eighths', ' sixteenths'],
    isWhole: (text) => typeof readFeel(text) !== 'string',
  },
  ring: { endings: ['all', 'none'], isWhole: (text) => typeof readRing(text.split(/[\s,]+/)) !== 'string' },
  minutes: { endings: ['5'], isWhole: (text) => readMinutes(text) !== undefined, meant: minutesMeant },
  video: { endings: [':25', '5'], isWhole: isVideoTime },
  restart: { endings: ['chord', 'bar'], isWhole: (text) => text === 'chord' || text === 'bar' },
  within: { endings: [' to 10', '-10'], isWhole: (text) => /^\d{1,2}(\s+to\s+|-)\d{1,2}$/.test(text) },
};

/** Tells why a value cannot be read, quietly where it is only begun. `fault` says what is wrong. */
export function reportValue(reading: Reading, kind: ValueKind, value: Word, fault: string): void {
  const { endings, isWhole, meant } = VALUES[kind];
  const plain = meant?.(value.text);
  if (plain !== undefined && plain !== value.text && isWhole(plain)) {
    report(reading, 'error', `${kind}.unreadable`, value.span, fault, replacing(value.span, plain));
    return;
  }
  const whole = completed(value.text, endings, isWhole);
  const code = `${kind}.unreadable`;
  if (whole === undefined) report(reading, 'error', code, value.span, fault);
  else reportUnfinished(reading, code, value.span, tellBegun(value.text, whole));
}

/** `E mino` on its way to E minor. */
export function begunKey(text: string): string | undefined {
  return completed(
    text,
    [' major', ' minor', ' dorian', ' mixolydian', ' phrygian', ' lydian'],
    (one) => parseKey(one).ok,
  );
}

export function begunHand(text: string): string | undefined {
  return completed(text, [...HAND_NAMES, '200 mm', '180 mm'], (one) => parseHand(one).ok);
}

/** `tenor uk`, `tenor ukulele, lo`, `guitar cap`, `tuned G4 C4`. */
export function begunInstrument(text: string): string | undefined {
  const settings = ['capo 2', 'frets 19', 'scale 430 mm', 'spacing 10 mm', 'tuned G4 C4 E4 A4'];
  const strings = ['4', ' E4', ' E4 A4', ' C4 E4 A4', '4 E4', '4 E4 A4', '4 C4 E4 A4'];
  return completed(text, [...instrumentNames(), ...settings, ...strings], (one) => parseInstrument(one).ok);
}
