import { parseHand } from '../../hand/hand.ts';
import type { Instrument } from '../../neck/instrument.ts';
import { parseInstrument } from '../../neck/instruments.ts';
import { completed } from '../../text/begun.ts';
import { languageTag } from '../../text/language-tag.ts';
import type { Fault } from '../../text/problem.ts';
import { shifted } from '../../text/span.ts';
import { parseKey } from '../../theory/key.ts';
import { begunHand, begunInstrument, begunKey, reportValue, tellBegun } from './begun-values.ts';
import { readMembers } from './read-names.ts';
import { readFeel, readMeter, readTempo } from './read-values.ts';
import {
  afterLine,
  phraseOf,
  type Reading,
  replacing,
  report,
  reportUnfinished,
  titleOf,
  type WordLine,
} from './reading.ts';
import type { AlsoStatement, Statement } from './statement.ts';
import type { Word } from './words.ts';

/** A statement of one line: everything but blocks and chords. Undefined when the keyword is none of these. */
export function readHeader(reading: Reading, line: WordLine, keyword: string): Statement | undefined {
  const base = { keyword: line.keyword, span: line.span };
  const value = phraseOf(reading, line.rest);
  const withValue = value === undefined ? {} : { value };
  switch (keyword) {
    case 'lesson':
    case 'by':
    case 'dated':
    case 'part': {
      const title = titleOf(reading, line.rest);
      if (title === undefined)
        report(reading, 'hint', `${keyword}.empty`, afterLine(line), `${keyword} what? Write it behind the word.`);
      return { ...base, kind: keyword, ...(title === undefined ? {} : { value: title }) };
    }
    case 'corrected': {
      const note = titleOf(reading, line.rest);
      return { ...base, kind: 'corrected', ...(note === undefined ? {} : { value: note }) };
    }
    case 'page':
      if (value !== undefined)
        report(reading, 'hint', 'page.value', value.span, 'page stands alone; what follows it is not read.');
      return { ...base, kind: 'page' };
    case 'show':
      return { ...base, kind: 'show', names: readMembers(reading, line.rest) };
    case 'for': {
      const instrument = value === undefined ? undefined : readInstrument(reading, value);
      needed(reading, line, value, 'For which instrument? for tenor ukulele, high G');
      if (instrument !== undefined) return { ...base, kind: 'for', ...withValue, instrument };
      const guess = value && guessedInstrument(value.text);
      return { ...base, kind: 'for', ...withValue, ...(guess === undefined ? {} : { guess }) };
    }
    case 'also':
      return readAlso(reading, line);
    case 'key': {
      const key = value && readValue(reading, value, parseKey(value.text), begunKey(value.text));
      needed(reading, line, value, 'Which key? key E minor');
      return { ...base, kind: 'key', ...withValue, ...(key === undefined ? {} : { key }) };
    }
    case 'hand': {
      const hand = value && readValue(reading, value, parseHand(value.text), begunHand(value.text));
      needed(reading, line, value, 'Whose hand? small, medium, large, child, or a reach in millimetres');
      return { ...base, kind: 'hand', ...withValue, ...(hand === undefined ? {} : { hand }) };
    }
    case 'language': {
      const language = value && languageTag(value.text);
      needed(reading, line, value, 'Which language? language pt-BR');
      if (value !== undefined && language === undefined) {
        const meant = languageTag(value.text.replace('_', '-'));
        const message =
          'A language is said by its tag: two or three letters, and where it matters a country, as in de, pt-BR or zh-Hant.';
        const fixes = meant === undefined ? [] : replacing(value.span, meant);
        if (/^[a-z]$|^[a-z]{2,3}-[a-z]{0,3}$/i.test(value.text))
          reportUnfinished(reading, 'language.unreadable', value.span, message);
        else report(reading, 'error', 'language.unreadable', value.span, message, fixes);
      }
      return { ...base, kind: 'language', ...withValue, ...(language === undefined ? {} : { language }) };
    }
    case 'meter': {
      const meter = value && readMeter(value.text);
      needed(reading, line, value, 'Which meter? meter 4/4');
      if (typeof meter === 'string' && value) reportValue(reading, 'meter', value, meter);
      return { ...base, kind: 'meter', ...withValue, ...(typeof meter === 'object' ? { meter } : {}) };
    }
    case 'feel': {
      const feel = value && readFeel(value.text);
      needed(reading, line, value, 'straight or swing?');
      if (typeof feel === 'string' && value) reportValue(reading, 'feel', value, feel);
      return { ...base, kind: 'feel', ...withValue, ...(typeof feel === 'object' ? { feel } : {}) };
    }
    case 'tempo': {
      const tempo = value && readTempo(value.text);
      needed(reading, line, value, 'How many beats a minute? tempo 80, or tempo 60 to 92 by 4');
      if (typeof tempo === 'string' && value) reportValue(reading, 'tempo', value, tempo);
      return { ...base, kind: 'tempo', ...withValue, ...(typeof tempo === 'object' ? { tempo } : {}) };
    }
    case 'level': {
      const level = value && /^\d{1,2}(?=\s|$)/.exec(value.text);
      const number = level ? Number(level[0]) : undefined;
      needed(reading, line, value, 'How hard, from 0 to 10?');
      if (value !== undefined && (number === undefined || number > 10)) {
        report(
          reading,
          'error',
          'level.unreadable',
          value.span,
          'A level is a number from 0 to 10; words may follow it.',
        );
        return { ...base, kind: 'level', ...withValue };
      }
      return { ...base, kind: 'level', ...withValue, ...(number === undefined ? {} : { level: number }) };
    }
    default:
      return undefined;
  }
}

/** `also baritone ukulele, same shapes, called bari` */
function readAlso(reading: Reading, line: WordLine): AlsoStatement {
  const value = phraseOf(reading, line.rest);
  needed(reading, line, value, 'For which further instrument? also baritone ukulele, same shapes');
  const base = { kind: 'also' as const, keyword: line.keyword, span: line.span };
  if (value === undefined) return { ...base, keeps: 'shapes' };
  let keeps: AlsoStatement['keeps'] = 'shapes';
  let keepsWord: Word | undefined;
  let called: Word | undefined;
  let end = value.text.length;
  for (const match of value.text.matchAll(
    /(?<![\p{L}\p{N}])(?:same\s+(shapes|key)(?!\p{L})|called\s+([\p{L}\p{N}-]+))/giu,
  )) {
    if (match[1] !== undefined) {
      const start = value.span.start + match.index;
      keeps = match[1].toLowerCase() === 'key' ? 'key' : 'shapes';
      keepsWord = { text: match[0], span: { start, end: start + match[0].length } };
    }
    if (match[2] !== undefined) {
      const start = value.span.start + match.index + match[0].length - match[2].length;
      called = { text: match[2], span: { start, end: start + match[2].length } };
    }
    end = Math.min(end, match.index);
  }
  // Blanks and commas before the first of them belong to neither. Taken off here: a pattern that did it would try every blank anew.
  while (end > 0 && /[\s,]/.test(value.text.charAt(end - 1))) end--;
  const name: Word = { text: value.text.slice(0, end), span: { start: value.span.start, end: value.span.start + end } };
  const instrument = readFurther(reading, name);
  return {
    ...base,
    value: name,
    keeps,
    ...(instrument === undefined ? {} : { instrument }),
    ...(keepsWord === undefined ? {} : { keepsWord }),
    ...(called === undefined ? {} : { called }),
  };
}

type Parsed<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: Fault };

/** `whole` is what the value may be the beginning of. */
function readValue<T>(reading: Reading, word: Word, parsed: Parsed<T>, whole: string | undefined): T | undefined {
  if (parsed.ok) return parsed.value;
  const { code, message, span, instead } = parsed.problem;
  if (whole !== undefined) {
    reportUnfinished(reading, code, word.span, tellBegun(word.text, whole), replacing(word.span, whole));
    return undefined;
  }
  report(
    reading,
    'error',
    code,
    shifted(span, word.span.start),
    message,
    instead === undefined ? [] : replacing(word.span, instead),
  );
  return undefined;
}

function readInstrument(reading: Reading, value: Word): Instrument | undefined {
  return readValue(reading, value, parseInstrument(value.text), begunInstrument(value.text));
}

/** The instrument that a fix proposes for what cannot be read, else that of the words before the fault. */
function guessedInstrument(text: string): Instrument | undefined {
  const parsed = parseInstrument(text);
  if (parsed.ok) return parsed.value;
  const { instead, span } = parsed.problem;
  const meant = begunInstrument(text) ?? instead ?? text.slice(0, span.start).replace(/[\s,]+$/, '');
  const guess = parseInstrument(meant);
  return guess.ok ? guess.value : undefined;
}

/** What an `also` line may go on with behind its instrument. */
const BEHIND_INSTRUMENT = ['same shapes', 'same key', 'called six'];

/** The instrument of an `also` line; where a word of what comes behind it is half typed, that is asked for. */
function readFurther(reading: Reading, value: Word): Instrument | undefined {
  const isWhole = (text: string) => BEHIND_INSTRUMENT.some((ending) => parsesBefore(text, ending) !== undefined);
  const parsed = parseInstrument(value.text);
  const whole = parsed.ok ? undefined : completed(value.text, BEHIND_INSTRUMENT, isWhole);
  if (whole === undefined) return readInstrument(reading, value);
  const before = BEHIND_INSTRUMENT.map((ending) => parsesBefore(whole, ending)).find((one) => one !== undefined);
  const message = 'Go on: same shapes, same key, or called and a short name.';
  reportUnfinished(reading, 'also.half-typed', { start: value.span.end, end: value.span.end }, message);
  return before;
}

function parsesBefore(text: string, ending: string): Instrument | undefined {
  if (!text.endsWith(ending)) return undefined;
  const parsed = parseInstrument(text.slice(0, -ending.length).replace(/[\s,]+$/, ''));
  return parsed.ok ? parsed.value : undefined;
}

function needed(reading: Reading, line: WordLine, value: Word | undefined, question: string): void {
  if (value === undefined)
    report(reading, 'hint', `${line.keyword.text.toLowerCase()}.empty`, afterLine(line), question);
}
