import { compare, earlier, plus, type Rational, ZERO } from '../theory/rational.ts';
import { type HeldEvent, heldOf, isOfLine, lasts } from './held-sounds.ts';
import { closesRepeat, repeatStarts } from './repeat-ties.ts';
import type { Layer, ScoreBar, ScoreEvent } from './timeline.ts';

/** Whether a pattern has a row of the layer at the head of a bar, by its place. */
type Plays = (layer: Layer, bar: number) => boolean;

/**
 * What is held at the head of a later ending is what sounds in the bar before the first one, from which every ending is come to, and
 * not the end of the ending that stands before it; that one leads back to the repeat. Source: E. Gould, Behind Bars (2011), on ties and
 * repeats, from memory.
 */
export function withEndingTies(bars: readonly ScoreBar[], plays: Plays): readonly ScoreBar[] {
  if (!bars.some(({ ending }) => ending?.begins === true)) return bars;
  const starts = repeatStarts(bars);
  const tied = [...bars];
  let before: ScoreBar | undefined;
  bars.forEach(({ ending }, index) => {
    if (ending?.begins !== true) return;
    const last = bars[index - 1];
    if (ending.numbers.includes(1)) before = last;
    else if (before !== undefined && last !== undefined && closesRepeat(last)) {
      tied[index - 1] = leadingBackTo(bars[starts[index - 1] ?? 0], tied[index - 1] ?? last);
      putHeldSounds(tied, index, soundsAtEndOf(before), plays);
    }
  });
  return tied;
}

/** The last bar of an ending: where something is struck as the repeat begins anew, nothing is tied over. */
function leadingBackTo(first: ScoreBar | undefined, bar: ScoreBar): ScoreBar {
  const struck = (first?.events ?? []).filter(({ at }) => compare(at, ZERO) === 0);
  const events = bar.events.map((event): ScoreEvent => {
    if (event.goesOn !== true || !struck.some((other) => isOfLine(other, heldOf(event, bar.length, {})))) return event;
    const { goesOn: _, ...ends } = event;
    return ends;
  });
  return { ...bar, events };
}

function soundsAtEndOf({ events, length }: ScoreBar): readonly ScoreEvent[] {
  return events.filter(
    (event) => (lasts(event) || event.kind === 'held') && compare(plus(event.at, event.length), length) >= 0,
  );
}

/** Into the bars of a later ending, from its first on, as far as a sound was held there. */
function putHeldSounds(bars: ScoreBar[], first: number, carried: readonly ScoreEvent[], plays: Plays): void {
  for (let place = first; place < bars.length; place += 1) {
    const bar = bars[place];
    if (bar === undefined) return;
    const written = bar.events.filter(isHeldOver);
    const own = bar.events.filter((event) => !isHeldOver(event));
    const isSilent = bar.chords[0]?.at.numerator === 0 && bar.chords[0].chord === undefined;
    const held = carried.flatMap((event): readonly HeldEvent[] => {
      const sound = heldOf(event, bar.length, {});
      if (isSilent && sound.layer === 'accompaniment') return [];
      const known = written.find((one) => isOfLine(one, sound));
      if (known !== undefined) return [heldOf(event, known.length, known.goesOn === true ? { goesOn: true } : {})];
      if (place > first || !plays(sound.layer, place)) return [];
      const length = own
        .filter((other) => isOfLine(other, sound))
        .map(({ at }): Rational => at)
        .reduce(earlier, bar.length);
      return compare(length, ZERO) === 0 ? [] : [{ ...sound, length }];
    });
    bars[place] = { ...bar, events: [...held, ...own] };
    if (!written.some(({ goesOn }) => goesOn === true)) return;
  }
}

function isHeldOver(event: ScoreEvent): event is HeldEvent {
  return event.kind === 'held' && compare(event.at, ZERO) === 0;
}
