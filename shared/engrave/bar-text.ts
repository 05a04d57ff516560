import { unplayedBefore } from '../score/performance-clock.ts';
import type { ScoreBar, ScoreCount, ScoreEvent } from '../score/timeline.ts';
import { capitalised } from '../text/capital.ts';
import { listed } from '../text/counted.ts';
import { beatLength, isCompound } from '../theory/meter.ts';
import { compare, over, plus, type Rational, toNumber, ZERO } from '../theory/rational.ts';
import { spokenChordName } from './chord-name.ts';
import { describeMoment, type SayString } from './event-text.ts';
import type { BarCut } from './tab-bar.ts';

export interface BarTextRequest {
  /** The open strings in chart order as they are said; each string is called by its name too where a bar first comes to it. */
  readonly spokenStrings?: readonly string[] | undefined;
  /** Where only a part of the bar is told. */
  readonly cut?: BarCut | undefined;
}

/**
 * A bar as a player hears it read aloud, one sentence for each moment:
 * `Bar 3, G. Beat 1: thumb, string 4 (G) open. And: index, string 2 (E) fret 3.` Three or more moments in a row at which the same
 * is done share one.
 */
export function describeBar(bar: ScoreBar, { spokenStrings, cut }: BarTextRequest = {}): string {
  const sentences = [headOf(bar, cut)];
  const say = sayStrings(spokenStrings);
  let told: ScoreCount | undefined;
  for (const run of runsOf(bar)) {
    const [first] = run;
    if (first === undefined) continue;
    if (run.length > 2) sentences.push(`${momentNames(bar, run)}: ${describeMoment(first.events, say)}.`);
    else
      run.forEach(({ at, events }, index) => {
        const before = index === 0 ? told : numberAt(bar, run[index - 1]?.at ?? at);
        sentences.push(`${momentName(bar, at, before)}${newsAt(bar, at)}: ${describeMoment(events, say)}.`);
      });
    told = numberAt(bar, run.at(-1)?.at ?? first.at);
  }
  if (bar.same && bar.events.length === 0) sentences.push('The bar before again.');
  else if (bar.events.length === 0 && bar.chords.length > 1) sentences.push(changesOf(bar));
  sentences.push(...wordsOf(bar));
  if (bar.calls.length > 0) sentences.push(`Call: “${bar.calls.map((call) => call.text).join(' ')}”.`);
  sentences.push(...signsOf(bar));
  return sentences.join(' ');
}

/** `string 4 (G)` where a string is met for the first time, then `string 4`. */
function sayStrings(names: readonly string[] | undefined): SayString {
  const met = new Set<number>();
  return (string) => {
    const name = names?.[names.length - string];
    if (name === undefined || met.has(string)) return `string ${string}`;
    met.add(string);
    return `string ${string} (${name})`;
  };
}

interface Moment {
  readonly at: Rational;
  readonly events: readonly ScoreEvent[];
}

/** The moments of a bar in order, those in a row at which the same is done together. A change of chord begins a new run. */
function runsOf(bar: ScoreBar): readonly (readonly Moment[])[] {
  const moments: { at: Rational; events: ScoreEvent[] }[] = [];
  for (const event of [...bar.events].sort((a, b) => compare(a.at, b.at))) {
    const last = moments.at(-1);
    if (last !== undefined && compare(last.at, event.at) === 0) last.events.push(event);
    else moments.push({ at: event.at, events: [event] });
  }
  const runs: Moment[][] = [];
  for (const moment of moments) {
    const run = runs.at(-1);
    const last = run?.at(-1);
    if (run !== undefined && last !== undefined && soundAlike(last, moment) && newsAt(bar, moment.at) === '')
      run.push(moment);
    else runs.push([moment]);
  }
  return runs;
}

/** True where the same would be said of both. */
function soundAlike({ events: some }: Moment, { events: others }: Moment): boolean {
  const [one] = some;
  const [other] = others;
  if (some.length !== others.length || one?.kind !== other?.kind) return false;
  // Most moments are single notes on strings of their own, and need no sentence to be told apart.
  if (
    one?.kind === 'notes' &&
    other?.kind === 'notes' &&
    some.length === 1 &&
    one.notes[0]?.string !== other.notes[0]?.string
  )
    return false;
  return describeMoment(some, plainString) === describeMoment(others, plainString);
}

const plainString: SayString = (string) => `string ${string}`;

function headOf(bar: ScoreBar, cut: BarCut | undefined): string {
  const [chord] = bar.chords;
  const number = bar.number === undefined ? 'Pickup' : `Bar ${bar.number}`;
  const goesOn = cut?.before === true ? ' goes on' : '';
  const name = chord === undefined ? '' : `, ${chordName(chord)}`;
  const meter = bar.showsMeter ? `, ${bar.meter.counts} ${bar.meter.unit} time` : '';
  const repeat = bar.opens === '|:' || bar.opens === ':|:' ? ', repeat begins' : '';
  const ending = bar.ending?.begins === true ? `, ending ${listed(bar.ending.numbers.map(String))}` : '';
  return `${number}${goesOn}${name}${meter}${repeat}${ending}.`;
}

function chordName({ chord }: ScoreBar['chords'][number]): string {
  return chord === undefined ? 'no chord' : spokenChordName(chord.name);
}

/** The changes of a bar in which nothing is played. */
function changesOf(bar: ScoreBar): string {
  return bar.chords
    .slice(1)
    .map((chord) => `${momentName(bar, chord.at)}: ${chordName(chord)}.`)
    .join(' ');
}

function wordsOf(bar: ScoreBar): readonly string[] {
  const verses = [...new Set(bar.syllables.map(({ verse }) => verse))].sort((a, b) => a - b);
  return verses.map((verse) => {
    const words = bar.syllables.filter((syllable) => syllable.verse === verse).map(({ text }) => text);
    return `${verse === 1 ? 'Words' : `Verse ${verse}`}: ${words.join(' ').replaceAll('- ', '-')}.`;
  });
}

function signsOf(bar: ScoreBar): readonly string[] {
  if (bar.closes === ':|' || bar.closes === ':|:')
    return [bar.times === undefined ? 'Repeat.' : `Repeat, ${bar.times} times in all.`];
  return bar.closes === '|:' ? ['Repeat begins.'] : [];
}

/** What changes in the middle of a bar is said where it comes: the chord, and a pattern that begins anew. */
function newsAt(bar: ScoreBar, at: Rational): string {
  if (bar.chords.length < 2 && bar.patternStarts === undefined) return '';
  const change = bar.chords.slice(1).find((chord) => compare(chord.at, at) === 0);
  const starts = (bar.patternStarts ?? []).filter(
    (start) => compare(start.at, ZERO) > 0 && compare(start.at, at) === 0,
  );
  const names = starts.map(({ name }) => `, ${name} begins`).join('');
  return `${change === undefined ? '' : `, ${chordName(change)}`}${names}`;
}

const SYLLABLES: Readonly<Record<string, string>> = { '&': 'And', e: 'E', a: 'A', la: 'La', li: 'Li' };

/**
 * What is counted there aloud; where nothing is, the place in beats. What is said between two numbers is said alone behind its own
 * number, and else with it: `Beat 5 and`. `told` is the number that was told last.
 */
function momentName(bar: ScoreBar, at: Rational, told?: ScoreCount): string {
  const count = countAt(bar, at);
  if (count === undefined) return `Beat ${placeInBeats(bar, at)}`;
  const number = numberAt(bar, at);
  if (number !== undefined && !isInPlace(bar, number))
    return `Beat ${placeInBeats(bar, at)}${isNumber(count) ? `, counted ${spokenRange(count)}` : ''}`;
  if (isNumber(count)) return numberName(bar, count);
  if (number === undefined || number === told) return capitalised(SYLLABLES[count] ?? count);
  return `${numberName(bar, number.text)}${isRange(number.text) ? ',' : ''} ${syllable(count)}`;
}

/** `Beats 1, 2, 3 and 4`, `Beat 1, and, 2, and`, `Beat 2 and, 3 and, 4 and`. */
function momentNames(bar: ScoreBar, moments: readonly Moment[]): string {
  const counts = moments.map(({ at }) => countAt(bar, at));
  if (moments.some(({ at }) => !isInPlace(bar, numberAt(bar, at))))
    return `Beats ${listed(moments.map(({ at }) => placeInBeats(bar, at)))}`;
  if (counts.every((count) => count !== undefined && /^\d+$/.test(count)))
    return `${numberWord(bar)}s ${listed(counts.map(String))}`;
  let before: ScoreCount | undefined;
  const names = moments.map(({ at }, index) => {
    const count = counts[index];
    const number = numberAt(bar, at);
    const isNew = number !== before;
    before = number;
    if (count === undefined) return placeInBeats(bar, at);
    if (isNumber(count)) return spokenRange(count);
    return number !== undefined && isNew ? `${spokenRange(number.text)} ${syllable(count)}` : syllable(count);
  });
  return /^\d/.test(names[0] ?? '') ? `${numberWord(bar)} ${names.join(', ')}` : capitalised(names.join(', '));
}

function isNumber(count: string): boolean {
  const first = count.charCodeAt(0);
  return first >= 48 && first <= 57;
}

function isRange(count: string): boolean {
  return /^\d+-\d+$/.test(count);
}

function spokenRange(count: string): string {
  return count.replace('-', ' to ');
}

/** `Beat 2`, `Beats 2 to 3` */
function numberName(bar: ScoreBar, count: string): string {
  return `${numberWord(bar)}${isRange(count) ? 's' : ''} ${spokenRange(count)}`;
}

function syllable(count: string): string {
  return (SYLLABLES[count] ?? count).toLowerCase();
}

/** The number that is counted there or last before. */
function numberAt({ counts }: ScoreBar, at: Rational): ScoreCount | undefined {
  return counts.findLast((count) => compare(count.at, at) <= 0 && isNumber(count.text));
}

function countAt(bar: ScoreBar, at: Rational): string | undefined {
  return bar.counts.find((candidate) => compare(candidate.at, at) === 0)?.text;
}

/** In 6/8 a teacher counts six small counts to two beats. */
function numberWord({ meter }: ScoreBar): 'Count' | 'Beat' {
  return isCompound(meter) ? 'Count' : 'Beat';
}

/** False for a count of a pattern that runs on over the bars and is another than theirs. */
function isInPlace(bar: ScoreBar, count: ScoreCount | undefined): boolean {
  if (count === undefined) return true;
  const { meter } = bar;
  const { numerator, denominator } = bar.number === undefined ? plus(unplayedBefore(bar), count.at) : count.at;
  const before = (Number.parseInt(count.text, 10) - 1) * denominator;
  // By counts, or by beats of three of them; cross-multiplied, as this is asked for each moment of each bar.
  return numerator * meter.unit === before || (isCompound(meter) && numerator * meter.unit === 3 * before);
}

/** Counted from 1; a pickup is the end of a bar. */
function placeInBeats(bar: ScoreBar, at: Rational): string {
  const beats = toNumber(over(plus(unplayedBefore(bar), at), beatLength(bar.meter))) + 1;
  const whole = Math.floor(beats + 1e-9);
  const part = beats - whole;
  if (part < 1e-9) return String(whole);
  const fractions: readonly (readonly [number, string])[] = [
    [1 / 2, 'and a half'],
    [1 / 3, 'and a third'],
    [2 / 3, 'and two thirds'],
    [1 / 4, 'and a quarter'],
    [3 / 4, 'and three quarters'],
  ];
  const named = fractions.find(([value]) => Math.abs(value - part) < 1e-6)?.[1];
  return `${whole} ${named ?? `and ${part.toFixed(2)}`}`;
}
