import { barLength, countLength, type Meter, printMeter } from '../../theory/meter.ts';
import { minus, type Rational, toNumber } from '../../theory/rational.ts';
import { ticksOf } from '../../voicing/tune/bar-times.ts';
import type { BarSigns, TuneBar, TuneChord } from '../../voicing/tune/ground.ts';
import { TICKS_OF_COUNT } from '../../voicing/tune/rhythm.ts';
import { type PlannedBar, planBars } from '../model/bar-plan.ts';
import type { ProgressionStatement } from '../syntax/statement.ts';
import type { ChordName } from '../syntax/words.ts';

/** Finds the shape of a chord, or says what is in the way, to be read behind the progression's name. */
export type ShapeOf = (chord: ChordName) => TuneChord | string;

/**
 * The bars of a progression for a tune over them, as they are written: each with its own meter, a pickup as long as it is, and where no
 * chord is played nothing to hold. What is in the way of a tune is told, to be read behind the progression's name.
 */
export function tuneBars(
  progression: ProgressionStatement,
  meter: Meter,
  shapeOf: ShapeOf,
): readonly TuneBar[] | string {
  const planned = planBars(progression, meter);
  const ordered = hasOrder(planned);
  const bars: TuneBar[] = [];
  for (const [index, bar] of planned.entries()) {
    if (bar.sum === 'too-long') return `has a bar that is longer than ${printMeter(bar.meter)}.`;
    const chords = chordsOf(bar, bars.at(-1), shapeOf);
    if (typeof chords === 'string') return chords;
    bars.push({
      chords,
      ...(printMeter(bar.meter) === printMeter(meter) ? {} : { meter: bar.meter }),
      ...partOf(bar),
      ...(ordered ? { signs: signsOf(bar, planned[index - 1]) } : {}),
    });
  }
  return bars;
}

/** Which part of a bar is played, where it is not the whole: the end for a pickup, else the beginning. */
function partOf({ number, length, meter }: PlannedBar): Pick<TuneBar, 'part'> {
  const full = ticksOf(meter);
  const played = ticksIn(length, meter);
  if (number === undefined) return { part: { from: full - played, to: full } };
  return played === full ? {} : { part: { from: 0, to: played } };
}

function ticksIn(length: Rational, meter: Meter): number {
  return Math.round((toNumber(length) / toNumber(countLength(meter))) * TICKS_OF_COUNT);
}

/** What begins when; the first item of a bar begins with it, and what went on before may go on. */
function chordsOf(bar: PlannedBar, before: TuneBar | undefined, shapeOf: ShapeOf): TuneBar['chords'] | string {
  const { items, length, meter } = bar;
  const late = bar.number === undefined ? ticksIn(minus(barLength(meter), length), meter) : 0;
  const held = before?.chords.at(-1)?.chord;
  const goesOn = held === undefined ? {} : { chord: held };
  const chords: TuneBar['chords'][number][] = [];
  for (const { item, at } of items) {
    const tick = late + ticksIn(at, meter);
    if (item.kind === 'chord') {
      const chord = shapeOf(item.chord);
      if (typeof chord === 'string') return chord;
      chords.push({ tick, chord });
    } else if (item.kind === 'same') chords.push(...chordsAgain(bar, before));
    else if (item.kind === 'silence') chords.push({ tick });
    else chords.push({ tick, ...goesOn });
  }
  return chords.length === 0 ? [{ tick: late, ...goesOn }] : chords;
}

/** The chords of the bar before once more; behind a pickup or another meter its last one goes on. */
function chordsAgain({ meter }: PlannedBar, before: TuneBar | undefined): TuneBar['chords'] {
  const isAlike = before?.part === undefined && (before?.chords ?? []).every(({ tick }) => tick < ticksOf(meter));
  if (before !== undefined && isAlike) return before.chords;
  const held = before?.chords.at(-1)?.chord;
  return [{ tick: 0, ...(held === undefined ? {} : { chord: held }) }];
}

/** True where bars are played in another order than they are written in. One that only says to play it all again has its tune once. */
function hasOrder(planned: readonly PlannedBar[]): boolean {
  const closing = planned.filter(({ bar }) => bar.closes?.text.startsWith(':') === true);
  if (closing.length === 0) return false;
  const opensLater = planned.some(({ bar }, index) => index > 0 && bar.opens?.text.endsWith(':') === true);
  const hasEndings = planned.some(({ bar }) => bar.ending !== undefined);
  return closing.length > 1 || closing[0] !== planned.at(-1) || opensLater || hasEndings;
}

function signsOf(planned: PlannedBar, before: PlannedBar | undefined): BarSigns {
  const sign = planned.bar.closes?.text ?? '|';
  const closes = sign.startsWith(':') ? ':|' : sign === '||' ? '||' : '|';
  const times = planned.bar.times === undefined ? '' : ` x${planned.bar.times}`;
  const ending = planned.bar.ending?.numbers;
  return {
    opens: [planned.bar.opens, before?.bar.closes].some((sign) => sign?.text.endsWith(':') === true),
    closes: `${closes}${times}`,
    ...(ending === undefined ? {} : { ending }),
  };
}
