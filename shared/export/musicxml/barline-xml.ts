import { playedBars } from '../../score/played-bars.ts';
import type { ScoreBar } from '../../score/timeline.ts';
import { element, emptyElement, textElement, type XmlElement } from './xml.ts';

/** The bar lines of a measure that are more than a line. */
export interface Barlines {
  readonly left: XmlElement | undefined;
  readonly right: XmlElement | undefined;
}

/** Bar lines, repeats and endings of a pass. A repeat that goes back to where no sign stands gets one, since programs would go elsewhere. */
export function barlinesOf(bars: readonly ScoreBar[], isLastPass: boolean): readonly Barlines[] {
  const forward = repeatStarts(bars);
  return bars.map((bar, index): Barlines => {
    const after = bars[index + 1];
    const numbers = bar.ending?.numbers.join(', ');
    const repeats = bar.closes.startsWith(':');
    const beginsEnding =
      bar.ending?.begins === true || (numbers !== undefined && bars[index - 1]?.ending === undefined);
    const endsEnding =
      bar.ending !== undefined && (bar.ending.ends || after?.ending === undefined || after.ending.begins || repeats);
    const isEnd = after === undefined && isLastPass;
    const style = repeats || isEnd ? 'light-heavy' : bar.closes === '||' ? 'light-light' : undefined;
    return {
      left:
        forward.has(index) || beginsEnding
          ? element('barline', { location: 'left' }, [
              forward.has(index) ? textElement('bar-style', 'heavy-light') : undefined,
              beginsEnding ? emptyElement('ending', { number: numbers, type: 'start' }) : undefined,
              forward.has(index) ? emptyElement('repeat', { direction: 'forward' }) : undefined,
            ])
          : undefined,
      right:
        style !== undefined || endsEnding
          ? element('barline', { location: 'right' }, [
              style === undefined ? undefined : textElement('bar-style', style),
              endsEnding
                ? emptyElement('ending', { number: numbers, type: repeats ? 'stop' : 'discontinue' })
                : undefined,
              repeats ? emptyElement('repeat', { direction: 'backward', times: timesOf(bar) }) : undefined,
            ])
          : undefined,
    };
  });
}

/** How often a repeat is played in all, where that is not twice. */
function timesOf({ times, ending }: ScoreBar): number | undefined {
  if (times !== undefined) return times;
  return ending !== undefined && ending.numbers.length > 1 ? ending.numbers.length + 1 : undefined;
}

/** Where a repeat begins: the bars that are played after a later one. */
function repeatStarts(bars: readonly ScoreBar[]): ReadonlySet<number> {
  const starts = new Set(bars.flatMap(({ opens }, index) => (opens?.endsWith(':') === true ? [index] : [])));
  const order = playedBars(bars);
  order.forEach(({ index }, place) => {
    const before = order[place - 1];
    if (before !== undefined && before.index >= index) starts.add(index);
  });
  return starts;
}
