import { neckAboveCapo } from '../../neck/capo.ts';
import type { Span } from '../../text/span.ts';
import { barLength, countLength, type Meter, printMeter } from '../../theory/meter.ts';
import { compare, toNumber } from '../../theory/rational.ts';
import type { BarSigns, TuneBar, TuneChord } from '../../voicing/tune/ground.ts';
import { keyOfChords } from '../../voicing/tune/key-of-chords.ts';
import { TICKS_OF_COUNT } from '../../voicing/tune/rhythm.ts';
import { scaleOfKey } from '../../voicing/tune/scale.ts';
import type { TuneRequest } from '../../voicing/tune/tune-problem.ts';
import { type PlannedBar, planBars } from '../model/bar-plan.ts';
import { resolveChord } from '../model/chords.ts';
import { fingeringFor } from '../model/fingerings.ts';
import { meterOf } from '../model/grid.ts';
import { secondsOfWholeNote } from '../model/progression-sequence.ts';
import type { ResolvedChord } from '../model/resolved-chord.ts';
import type { Scope } from '../model/scope.ts';
import type { GridStatement, ProgressionStatement } from '../syntax/statement.ts';
import type { Word } from '../syntax/words.ts';

/** A tune of the lesson as it can be looked for, or what it still lacks and where. */
type AskedTune =
  | { readonly kind: 'request'; readonly request: TuneRequest }
  | { readonly kind: 'not-yet'; readonly message: string; readonly span: Span };

/** A melody that asks for a tune. */
export type TuneStatement = GridStatement & { readonly kind: 'melody'; readonly inside: Word };

/** A tune is found for so many bars at most. Common practice, no source: two verses of sixteen. */
const MOST_BARS = 32;

/** How the tune goes where nothing is said. Common practice, no source: most tunes of songs rise and come back. */
const USUAL_CONTOUR = 'arch';

/**
 * What a `melody` with `inside` asks for on this edition: a tune over the bars of its progression as they are played, each repeat that
 * is nothing but a repeat of the whole once, inside the shapes and fingers of the lesson, at its greatest tempo, in its key. What cannot
 * be looked for is told as not there yet. Spans count like the statement's own.
 */
export function tuneRequest(scope: Scope, statement: TuneStatement): AskedTune {
  const { inside, ring, contour } = statement;
  const notYet = (message: string, span: Span = inside.span): AskedTune => ({ kind: 'not-yet', message, span });
  const progression = scope.progression(inside.text);
  if (progression === undefined) return notYet(`There is no progression ${inside.text}.`);
  if (ring?.ring.kind === 'all') return notYet('Say which strings the tune leaves alone: ring 1 2.', ring.span);
  const meter = meterOf(scope, statement);
  const bars = barsOf(scope, progression, meter);
  if (typeof bars === 'string') return notYet(`${inside.text} ${bars}`);
  if (bars.length > MOST_BARS) {
    return notYet(`A tune is found for ${MOST_BARS} bars at most, and ${inside.text} has ${bars.length}.`);
  }
  const chords = bars.flatMap((bar) => bar.chords.map(({ chord }) => chord.symbol));
  if (chords.length === 0) return notYet(`${inside.text} has no chords yet.`);
  const tempo = scope.setting('tempo');
  const secondsPerCount = tempo && secondsOfWholeNote(tempo, meter) / meter.unit;
  return {
    kind: 'request',
    request: {
      instrument: neckAboveCapo(scope.edition().instrument),
      hand: scope.setting('hand'),
      meter,
      bars,
      scale: scaleOfKey(scope.setting('key') ?? keyOfChords(chords)),
      contour: contour?.contour ?? USUAL_CONTOUR,
      ring: ring?.ring.kind === 'strings' ? ring.ring.strings : [],
      ...(secondsPerCount === undefined ? {} : { secondsPerCount }),
    },
  };
}

/** The bars as they are written, or what is in the way of a tune over them, to be said behind the progression's name. */
function barsOf(scope: Scope, progression: ProgressionStatement, meter: Meter): readonly TuneBar[] | string {
  const planned = planBars(progression, meter);
  const full = barLength(meter);
  const bars: TuneBar[] = [];
  for (const bar of planned) {
    if (bar.number === undefined) return 'begins before its first bar; a tune is found for whole bars only.';
    if (compare(bar.length, full) !== 0 || printMeter(bar.meter) !== printMeter(meter)) {
      return `has a bar that is not in ${printMeter(meter)}; a tune is found in one meter only.`;
    }
    const read = barOf(scope, bar, bars.at(-1));
    if (typeof read === 'string') return read;
    bars.push(read);
  }
  return hasOrder(planned)
    ? bars.map((bar, index) => ({ ...bar, signs: signsOf(planned[index], planned[index - 1]) }))
    : bars;
}

/** True where bars are played in another order than they are written in. One that only says to play it all again has its tune once. */
function hasOrder(planned: readonly PlannedBar[]): boolean {
  const closing = planned.filter(({ bar }) => bar.closes?.text.startsWith(':') === true);
  if (closing.length === 0) return false;
  const opensLater = planned.some(({ bar }, index) => index > 0 && bar.opens?.text.endsWith(':') === true);
  const hasEndings = planned.some(({ bar }) => bar.ending !== undefined);
  return closing.length > 1 || closing[0] !== planned.at(-1) || opensLater || hasEndings;
}

function signsOf(planned: PlannedBar | undefined, before: PlannedBar | undefined): BarSigns {
  const sign = planned?.bar.closes?.text ?? '|';
  const closes = sign.startsWith(':') ? ':|' : sign === '||' ? '||' : '|';
  const times = planned?.bar.times === undefined ? '' : ` x${planned.bar.times}`;
  const ending = planned?.bar.ending?.numbers;
  return {
    opens: [planned?.bar.opens, before?.bar.closes].some((sign) => sign?.text.endsWith(':') === true),
    closes: `${closes}${times}`,
    ...(ending === undefined ? {} : { ending }),
  };
}

function barOf(scope: Scope, { items, meter }: PlannedBar, before: TuneBar | undefined): TuneBar | string {
  const count = countLength(meter);
  const chords: { tick: number; chord: TuneChord }[] = [];
  const held = before?.chords.at(-1)?.chord;
  for (const { item, at } of items) {
    const tick = Math.round((toNumber(at) / toNumber(count)) * TICKS_OF_COUNT);
    if (item.kind !== 'chord') {
      if (item.kind === 'silence') return WITHOUT_CHORD;
      if (item.kind === 'same' && before !== undefined) return before;
      // The chord of the bar before goes on.
      if (item.kind === 'beat' && held !== undefined) chords.push({ tick, chord: held });
      continue;
    }
    const chord = resolveChord(scope, item.chord);
    if (chord === undefined) return `has ${item.chord.text}, which has no shape on this instrument.`;
    chords.push({ tick, chord: tuneChord(scope, chord) });
  }
  return chords[0]?.tick === 0 ? { chords } : WITHOUT_CHORD;
}

const WITHOUT_CHORD = 'has a bar without a chord; a tune inside shapes needs one in every bar.';

/** With the fingers that the lesson holds it with, so that the tune counts on those that the sheet shows. */
function tuneChord(scope: Scope, chord: ResolvedChord): TuneChord {
  const { text, symbol, shape } = chord;
  const fingering = fingeringFor(scope, chord);
  const works = fingering !== undefined && fingering.verdict !== 'out-of-reach';
  return { name: text, symbol, shape, ...(works ? { given: fingering.fingers.map((finger) => finger ?? 0) } : {}) };
}
