import type { Instrument } from '../../neck/instrument.ts';
import type { Fault, Outcome } from '../../text/problem.ts';
import type { Span } from '../../text/span.ts';
import { type Meter, printMeter } from '../../theory/meter.ts';
import { accidentalAt, midiNumber, type Pitch, parsePitch, pitchClass, pitchNamed } from '../../theory/note.ts';
import { noteOfRole } from '../../theory/role.ts';
import { type BarTime, barTimes, tellBar, ticksOf } from './bar-times.ts';
import type { TuneBar } from './ground.ts';
import { openMidi } from './neck-range.ts';
import { type BarRhythm, TICKS_OF_COUNT } from './rhythm.ts';
import type { Scale } from './scale.ts';

/** A note of a tune that somebody wrote, before it has a place on the neck. */
export interface GivenNote {
  readonly pitch: Pitch;
  readonly midi: number;
  /** Counted from 0. */
  readonly bar: number;
  /** From the bar's start. Unit: ticks. */
  readonly tick: number;
}

/** What written notes are read against. */
export interface NotesContext {
  readonly scale: Scale;
  readonly instrument: Instrument;
  readonly meter: Meter;
  /** The bars that the notes are for; where none are given, or beyond them, bars are full and in the meter. */
  readonly bars?: readonly TuneBar[];
  /** Where every bar has its notes; where nothing is said, notes share their bar, or have a count each. */
  readonly rhythm?: BarRhythm;
}

type Word = { readonly text: string; readonly span: Span };

/**
 * Reads a tune in note names with octaves, `E4 G4 | C5 . B4`, or in steps of the scale, `5 6 1' 7`: 1 is the lowest home note that
 * the instrument has, a mark behind a step is an octave up and a comma one down. `.` lets a note go on. Between bar lines the notes
 * share the bar evenly; without bar lines each has a count. Spans count from the start of `text`.
 */
export function readGivenNotes(text: string, context: NotesContext): Outcome<readonly GivenNote[]> {
  const bars = cutBars(text);
  const notes: GivenNote[] = [];
  const oneEach = bars.length === 1;
  const known = barTimes({ meter: context.meter, bars: context.bars ?? [] });
  const timeOf = (bar: number): PlayedBar =>
    known[bar] ?? { meter: context.meter, from: 0, to: ticksOf(context.meter) };
  for (const [bar, words] of bars.entries()) {
    const ticks = oneEach ? runningTicks(words, context, timeOf) : ticksInBar(words, context, timeOf(bar));
    if (!ticks.ok) return fails(`In ${tellBar(context.bars ?? [], bar)}, ${ticks.problem.message}`, ticks.problem.span);
    for (const [at, word] of words.entries()) {
      if (isHold(word)) continue;
      const pitch = readNote(word, context);
      if (!pitch.ok) return pitch;
      const place = ticks.value[at] ?? { bar: 0, tick: 0 };
      notes.push({ pitch: pitch.value, midi: midiNumber(pitch.value), bar: bar + place.bar, tick: place.tick });
    }
  }
  if (notes.length > 0) return { ok: true, value: notes };
  return fails('Write the notes of the tune, as in E4 G4 A4 B4, or steps of the scale, as in 1 3 5.', {
    start: 0,
    end: text.length,
  });
}

function cutBars(text: string): readonly (readonly Word[])[] {
  const bars: Word[][] = [[]];
  for (const { 0: word, index } of text.matchAll(/\||[^\s|]+/g)) {
    if (word !== '|') bars.at(-1)?.push({ text: word, span: { start: index, end: index + word.length } });
    else if (index > 0 && text.slice(0, index).trim() !== '') bars.push([]);
  }
  // A bar line at the end closes the last bar.
  return bars.length > 1 && bars.at(-1)?.length === 0 ? bars.slice(0, -1) : bars;
}

type Places = readonly { readonly bar: number; readonly tick: number }[];

type PlayedBar = Pick<BarTime, 'meter' | 'from' | 'to'>;

/** Where notes stand in a bar: as the rhythm says, else on each count. */
function momentsOf({ from, to }: PlayedBar, rhythm: BarRhythm | undefined): BarRhythm {
  const counts = Math.ceil((to - from) / TICKS_OF_COUNT);
  const moments = rhythm ?? Array.from({ length: counts }, (_, count) => from + count * TICKS_OF_COUNT);
  return moments.filter((tick) => tick >= from && tick < to);
}

/** Without bar lines: a count for each word, or the next moment of the rhythm, bar after bar. */
function runningTicks(
  words: readonly Word[],
  { rhythm }: NotesContext,
  timeOf: (bar: number) => PlayedBar,
): Outcome<Places> {
  const places: { bar: number; tick: number }[] = [];
  let bar = 0;
  // A bar of which the rhythm has no moment is passed by; every rhythm has one in a full bar of the meter that it was read in.
  while (places.length < words.length) {
    for (const tick of momentsOf(timeOf(bar), rhythm)) places.push({ bar, tick });
    bar += 1;
  }
  return { ok: true, value: places.slice(0, words.length) };
}

function ticksInBar(words: readonly Word[], { rhythm }: NotesContext, time: PlayedBar): Outcome<Places> {
  const [first, last] = [words[0], words.at(-1)];
  if (first === undefined || last === undefined) return { ok: true, value: [] };
  const span = { start: first.span.start, end: last.span.end };
  if (rhythm !== undefined) {
    const moments = momentsOf(time, rhythm);
    if (words.length > moments.length) {
      return fails(`there are ${words.length} notes, and this rhythm has ${moments.length}.`, span);
    }
    return { ok: true, value: words.map((_, at) => ({ bar: 0, tick: moments[at] ?? time.from })) };
  }
  const { meter, from, to } = time;
  const counts = (to - from) / TICKS_OF_COUNT;
  if (!isEven(words.length, counts)) {
    const bar = counts === meter.counts ? `a bar of ${printMeter(meter)}` : `${counts} counts`;
    const dots = dotsFor(words.length, counts);
    const filled = [...words.map((word) => word.text), ...dots].join(' ');
    const way =
      dots.length === 0 ? 'a count has four notes at most.' : `fill it up with . where a note goes on, as in ${filled}`;
    const message = `${words.length} notes do not share ${bar} evenly; ${way}`;
    return fails(message, span);
  }
  const each = (to - from) / words.length;
  return { ok: true, value: words.map((_, at) => ({ bar: 0, tick: from + at * each })) };
}

/** True where so many words share so many counts: one to four in each, or one for some counts. */
function isEven(words: number, counts: number): boolean {
  return [1, 2, 3, 4].some((pieces) => words === counts * pieces) || counts % words === 0;
}

/** What would fill the bar up at its end; nothing where it has more words than any bar of its counts. */
function dotsFor(words: number, counts: number): readonly string[] {
  const most = 4 * counts;
  let filled = words;
  while (filled < most && !isEven(filled, counts)) filled += 1;
  return Array.from({ length: isEven(filled, counts) ? filled - words : 0 }, () => '.');
}

function isHold({ text }: Word): boolean {
  return text === '.' || text === '-';
}

function readNote({ text, span }: Word, { scale, instrument }: NotesContext): Outcome<Pitch> {
  const step = /^([#b♯♭]*)([1-9])('+|’+|,+)?$/u.exec(text);
  if (step === null) {
    const pitch = parsePitch(text);
    if (pitch.ok) return pitch;
    const { message, code, instead } = pitch.problem;
    const moved = { start: span.start + pitch.problem.span.start, end: span.start + pitch.problem.span.end };
    return { ok: false, problem: { code, message, span: moved, ...(instead === undefined ? {} : { instead }) } };
  }
  const [, signs = '', number = '', marks = ''] = step;
  const role = scale.roles.find(({ degree }) => degree === Number(number));
  if (role === undefined) {
    const has = [...new Set(scale.roles.map(({ degree }) => degree))].join(' ');
    const octave = Number(number) > 7 ? ", and 1' is the first an octave up" : '';
    return fails(`${scale.name} has no step ${number}; its steps are ${has}${octave}.`, span);
  }
  const note = noteOfRole(scale.tonic, { degree: role.degree, alter: role.alter + accidentalAt(signs, 0).accidental });
  const lowest = Math.min(...openMidi(instrument));
  const home = lowest + ((pitchClass(scale.tonic) - lowest + 120) % 12);
  const above = (pitchClass(note) - pitchClass(scale.tonic) + 12) % 12;
  const octaves = marks.startsWith(',') ? -marks.length : marks.length;
  return { ok: true, value: pitchNamed(note, home + above + 12 * octaves) };
}

function fails(message: string, span: Span): { readonly ok: false; readonly problem: Fault } {
  return { ok: false, problem: { code: 'tune.notes', message, span } };
}
