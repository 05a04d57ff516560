import { nearest } from '../text/nearest.ts';
import type { Fault, Outcome } from '../text/problem.ts';
import type { Pitch } from '../theory/note.ts';
import { parsePitch, printPitch } from '../theory/note.ts';
import type { Instrument } from './instrument.ts';
import { INSTRUMENTS, type InstrumentFacts, MM_PER_INCH, type TuningFacts } from './instrument-table.ts';

/** Fewest and most strings (or courses) that the tool plays. */
export const FEWEST_STRINGS = 4;
export const MOST_STRINGS = 8;

/** What an instrument is taken to be that is only given by its strings. Unit: mm, frets, mm. Source: the guitar's row. */
const UNNAMED = { kind: 'instrument', scaleLengthMm: 650, frets: 19, stringPitchMm: 8.4, bridgePitchMm: 11.6 };

/** Shortest and longest string a left hand plays on a neck. Unit: mm. Source: common practice, no source. */
const SCALE_RANGE_MM = [200, 1100] as const;
const FRET_RANGE = [5, 30] as const;
const PITCH_RANGE_MM = [4, 25] as const;

/** A word of the description, where it stands, and how it reads in small letters. */
interface Word {
  readonly text: string;
  readonly small: string;
  readonly start: number;
  readonly end: number;
  /** True when a comma follows. */
  readonly endsPart: boolean;
}

interface Draft {
  facts?: InstrumentFacts;
  tuning?: TuningFacts;
  openStrings?: readonly Pitch[];
  scaleLengthMm?: number;
  frets?: number;
  stringPitchMm?: number;
  capoFret?: number;
}

type Step = { readonly next: number } | { readonly fault: Fault };

/**
 * Reads `tenor ukulele, high G`, `baritone ukulele`, `tenor ukulele, low G, capo 2`, `guitar tuned D2 A2 D3 G3 B3 E4`,
 * `tuned G4 C4 E4 A4 scale 432 mm frets 19 spacing 9.4 mm`. Commas are free. Spans in a fault count from the start of `text`.
 */
export function parseInstrument(text: string): Outcome<Instrument> {
  const words = wordsOf(text);
  const whole = { start: 0, end: text.length };
  if (words.length === 0) {
    return fails({
      code: 'instrument.unknown',
      message: 'Say which instrument this is for, as in "tenor ukulele, high G".',
      span: whole,
    });
  }
  const draft: Draft = {};
  let at = 0;
  const kind = longestName(
    words,
    0,
    INSTRUMENTS.map((facts) => [facts, [facts.kind, ...facts.aliases]]),
  );
  if (kind !== undefined) {
    draft.facts = kind.value;
    at = kind.next;
  } else if (!isSetting(words[0])) {
    return unknownKind(words, text);
  }
  while (at < words.length) {
    const step = readSetting(draft, words, at);
    if ('fault' in step) {
      // "tenor ukelele" begins with a name that can stand alone: the slip is in the instrument, not in its tuning.
      const goesOn = at === kind?.next && words[at - 1]?.endsPart === false && !isSetting(words[at]);
      const slip = goesOn ? unknownKind(words, text) : undefined;
      return slip?.ok === false && slip.problem.instead !== undefined ? slip : fails(inWhole(step.fault, text));
    }
    at = step.next;
  }
  return finish(draft, whole);
}

/** The instrument with a capo at this fret, or without one for 0. Its name says so. */
export function withCapo(instrument: Instrument, capoFret: number): Instrument {
  const bare = instrument.name.replace(/,? capo \d+$/, '');
  return { ...instrument, capoFret, name: capoFret === 0 ? bare : `${bare}, capo ${capoFret}` };
}

/** What may stand behind `for`: every known instrument in every tuning, with its strings, most usual first. */
export function instrumentSuggestions(): readonly { readonly label: string; readonly detail: string }[] {
  return INSTRUMENTS.flatMap((facts) =>
    facts.tunings.map((tuning) => ({ label: nameOf(facts, tuning), detail: tuning.strings })),
  );
}

/** Every name of an instrument or of a tuning, with the other words for it. */
export function instrumentNames(): readonly string[] {
  return INSTRUMENTS.flatMap(({ kind, aliases, tunings }) => [
    kind,
    ...aliases,
    ...tunings.flatMap((tuning) => [tuning.name, ...tuning.aliases]),
  ]);
}

function readSetting(draft: Draft, words: readonly Word[], at: number): Step {
  const word = words[at];
  if (word === undefined) return { next: at + 1 };
  if (word.small === 'tuned') return readStrings(draft, words, at);
  if (word.small === 'scale') return readLength(draft, words, at, 'scaleLengthMm', SCALE_RANGE_MM);
  if (word.small === 'spacing') return readLength(draft, words, at, 'stringPitchMm', PITCH_RANGE_MM);
  if (word.small === 'frets') return readCount(draft, words, at, 'frets', FRET_RANGE);
  if (word.small === 'capo') return readCount(draft, words, at, 'capoFret', [0, 14]);
  const tunings = draft.facts?.tunings ?? [];
  const named = longestName(
    words,
    at,
    tunings.map((tuning) => [tuning, [tuning.name, ...tuning.aliases]]),
  );
  if (named !== undefined && draft.tuning === undefined) {
    draft.tuning = named.value;
    return { next: named.next };
  }
  return { fault: unknownTuning(draft, words, at) };
}

function readStrings(draft: Draft, words: readonly Word[], at: number): Step {
  const pitches: Pitch[] = [];
  let next = at + 1;
  for (; next < words.length; next += 1) {
    const word = words[next];
    const pitch = word === undefined ? undefined : parsePitch(word.text);
    if (word === undefined || pitch === undefined) break;
    if (pitch.ok) pitches.push(pitch.value);
    else if (isSetting(word)) break;
    else return { fault: { ...pitch.problem, span: spanOf(words, next, next + 1) } };
  }
  if (pitches.length < FEWEST_STRINGS || pitches.length > MOST_STRINGS) {
    const message = `Behind "tuned" stand ${FEWEST_STRINGS} to ${MOST_STRINGS} pitches, the highest-numbered string first, as in tuned G4 C4 E4 A4; here there are ${pitches.length}.`;
    return { fault: { code: 'instrument.string-count', message, span: spanOf(words, at, next) } };
  }
  draft.openStrings = pitches;
  return { next };
}

function readLength(
  draft: Draft,
  words: readonly Word[],
  at: number,
  field: 'scaleLengthMm' | 'stringPitchMm',
  range: readonly [number, number],
): Step {
  const match = /^(\d+(?:\.\d+)?)(mm|cm|in)?$/.exec(words[at + 1]?.small ?? '');
  const ahead = words[at + 2]?.small;
  const apart = match?.[2] === undefined && (ahead === 'mm' || ahead === 'cm' || ahead === 'in') ? ahead : undefined;
  const unit = match?.[2] ?? apart;
  const lengthMm = Number(match?.[1]) * (unit === 'in' ? MM_PER_INCH : unit === 'cm' ? 10 : 1);
  const next = at + (apart === undefined ? 2 : 3);
  if (match === null || lengthMm < range[0] || lengthMm > range[1]) {
    const message = `Behind "${words[at]?.text}" stands a length from ${range[0]} to ${range[1]} mm, as in scale 432 mm.`;
    return { fault: { code: 'instrument.length', message, span: spanOf(words, at, Math.min(next, words.length)) } };
  }
  draft[field] = round(lengthMm);
  return { next };
}

function readCount(
  draft: Draft,
  words: readonly Word[],
  at: number,
  field: 'frets' | 'capoFret',
  range: readonly [number, number],
): Step {
  const count = /^\d{1,2}$/.test(words[at + 1]?.small ?? '') ? Number(words[at + 1]?.small) : undefined;
  if (count === undefined || count < range[0] || count > range[1]) {
    const message = `Behind "${words[at]?.text}" stands a number from ${range[0]} to ${range[1]}.`;
    return { fault: { code: 'instrument.number', message, span: spanOf(words, at, Math.min(at + 2, words.length)) } };
  }
  draft[field] = count;
  return { next: at + 2 };
}

function finish(draft: Draft, whole: Fault['span']): Outcome<Instrument> {
  const { facts } = draft;
  const tuning = draft.tuning ?? facts?.tunings[0];
  const openStrings = draft.openStrings ?? (tuning === undefined ? undefined : pitchesOf(tuning));
  if (openStrings === undefined) {
    const message = 'An instrument without a name needs its strings, as in tuned G4 C4 E4 A4.';
    return fails({ code: 'instrument.without-strings', message, span: whole });
  }
  const made = { ...UNNAMED, ...facts };
  const stringPitchMm = draft.stringPitchMm ?? made.stringPitchMm;
  const instrument = {
    name: '',
    kind: facts?.kind ?? UNNAMED.kind,
    openStrings,
    scaleLengthMm: draft.scaleLengthMm ?? made.scaleLengthMm,
    frets: draft.frets ?? made.frets,
    stringPitchMm,
    // Strings that a lesson sets wider at the nut fan out as they do on others of their kind.
    bridgePitchMm: (stringPitchMm * made.bridgePitchMm) / made.stringPitchMm,
    capoFret: draft.capoFret ?? 0,
  };
  if (instrument.capoFret >= instrument.frets) {
    const message = `A capo at fret ${instrument.capoFret} leaves no frets on a neck of ${instrument.frets}.`;
    return fails({ code: 'instrument.capo-beyond-neck', message, span: whole });
  }
  const named =
    facts !== undefined && tuning !== undefined && draft.openStrings === undefined
      ? nameOf(facts, tuning)
      : facts?.kind;
  const parts = [
    ...(draft.openStrings === undefined ? [] : [`tuned ${openStrings.map((pitch) => printPitch(pitch)).join(' ')}`]),
    ...(draft.scaleLengthMm === undefined ? [] : [`scale ${round(draft.scaleLengthMm)} mm`]),
    ...(draft.frets === undefined ? [] : [`frets ${draft.frets}`]),
    ...(draft.stringPitchMm === undefined ? [] : [`spacing ${round(draft.stringPitchMm)} mm`]),
  ];
  const name = [named, parts.join(' ')].filter((part) => part !== undefined && part !== '').join(', ');
  return { ok: true, value: withCapo({ ...instrument, name }, instrument.capoFret) };
}

/** `baritone ukulele` in its one standard tuning needs no word for it; a ukulele's fourth string is always told. */
function nameOf(facts: InstrumentFacts, tuning: TuningFacts): string {
  return tuning.name === 'standard' ? facts.kind : `${facts.kind}, ${tuning.name}`;
}

function pitchesOf(tuning: TuningFacts): readonly Pitch[] {
  return tuning.strings.split(' ').flatMap((word) => {
    const pitch = parsePitch(word);
    return pitch.ok ? [pitch.value] : [];
  });
}

function unknownKind(words: readonly Word[], text: string): Outcome<never> {
  const firstComma = text.indexOf(',');
  const settingAt = words.findIndex((word) => isSetting(word));
  const settingStart = settingAt < 0 ? text.length : (words[settingAt]?.start ?? text.length);
  const end = Math.min(firstComma < 0 ? text.length : firstComma, settingStart);
  const written = text.slice(0, end).trimEnd();
  const near = nearest(
    written,
    INSTRUMENTS.flatMap((facts) => [facts.kind, ...facts.aliases]),
  );
  const message =
    near === undefined
      ? `"${written}" is not an instrument known here. Name its strings, as in tuned G4 C4 E4 A4 scale 432 mm frets 19.`
      : `"${written}" is not an instrument known here. Is it a ${near}?`;
  const fault = { code: 'instrument.unknown', message, span: { start: 0, end: written.length } };
  return fails(near === undefined ? fault : { ...fault, instead: near + text.slice(written.length) });
}

function unknownTuning(draft: Draft, words: readonly Word[], at: number): Fault {
  let end = at + 1;
  while (end < words.length && !isSetting(words[end]) && words[end - 1]?.endsPart === false) end += 1;
  const span = spanOf(words, at, end);
  const written = words
    .slice(at, end)
    .map((word) => word.text)
    .join(' ');
  const names = (draft.facts?.tunings ?? []).map((tuning) => tuning.name);
  const settings = ['tuned', 'scale', 'frets', 'spacing', 'capo'];
  const near = nearest(written, [...names, ...settings]) ?? nearest(words[at]?.text ?? '', settings);
  const known = names.length === 0 ? '' : ` A ${draft.facts?.kind} is tuned ${names.join(', ')}.`;
  const message = `"${written}" says nothing about this instrument that is known here.${known}`;
  const fault = { code: 'instrument.unknown-tuning', message, span };
  return near === undefined ? fault : { ...fault, instead: near };
}

/** The fault with what stands right in the place of its span grown to the whole text. */
function inWhole(fault: Fault, text: string): Fault {
  const { instead, span } = fault;
  if (instead === undefined) return fault;
  return { ...fault, instead: text.slice(0, span.start) + instead + text.slice(span.end) };
}

/** The name that takes up most words from `at` on. */
function longestName<T>(
  words: readonly Word[],
  at: number,
  named: readonly (readonly [T, readonly string[]])[],
): { readonly value: T; readonly next: number } | undefined {
  let best: { readonly value: T; readonly next: number } | undefined;
  for (const [value, names] of named) {
    for (const name of names) {
      const parts = name.toLowerCase().split(' ');
      const fits = parts.every((part, index) => words[at + index]?.small === part);
      if (fits && (best === undefined || at + parts.length > best.next)) best = { value, next: at + parts.length };
    }
  }
  return best;
}

function isSetting(word: Word | undefined): boolean {
  return word !== undefined && ['tuned', 'scale', 'frets', 'spacing', 'capo'].includes(word.small);
}

function wordsOf(text: string): readonly Word[] {
  return [...text.matchAll(/[^\s,]+/g)].map((match) => {
    const small = match[0].toLowerCase().replaceAll('♭', 'b').replaceAll('♯', '#');
    const end = match.index + match[0].length;
    return { text: match[0], small, start: match.index, end, endsPart: /^\s*,/.test(text.slice(end)) };
  });
}

function spanOf(words: readonly Word[], from: number, to: number): Fault['span'] {
  return { start: words[from]?.start ?? 0, end: words[to - 1]?.end ?? 0 };
}

function round(mm: number): number {
  return Math.round(mm * 100) / 100;
}

function fails(problem: Fault): { readonly ok: false; readonly problem: Fault } {
  return { ok: false, problem };
}
