import type { WrittenBar } from '../syntax/statement.ts';

/** A bar with the signs that endings go by. */
interface SignedBar {
  readonly bar: Pick<WrittenBar, 'ending' | 'closes'>;
}

/** The numbers of the ending that a bar belongs to, and whether the ending begins and ends with it. */
export interface BarEnding {
  readonly numbers: readonly number[];
  readonly begins: boolean;
  readonly ends: boolean;
}

/** Which bars an ending covers: up to a closing repeat, a double bar or the next ending; the last one without a sign is as long as the first. */
export function endingsOf(planned: readonly SignedBar[]): readonly (BarEnding | undefined)[] {
  const endings: (BarEnding | undefined)[] = planned.map(() => undefined);
  let firstLength: number | undefined;
  planned.forEach(({ bar }, start) => {
    if (bar.ending === undefined) return;
    let end = start;
    const limit = planned.findIndex((other, index) => index > start && other.bar.ending !== undefined);
    const before = limit < 0 ? planned.length : limit;
    while (end < before - 1 && !isEndSign(planned[end])) end++;
    if (!isEndSign(planned[end]) && limit < 0 && firstLength !== undefined)
      end = Math.min(start + firstLength - 1, planned.length - 1);
    firstLength ??= end - start + 1;
    for (let index = start; index <= end; index++) {
      endings[index] = { numbers: bar.ending.numbers, begins: index === start, ends: index === end };
    }
  });
  return endings;
}

function isEndSign(planned: SignedBar | undefined): boolean {
  const sign = planned?.bar.closes?.text;
  return sign === '||' || sign?.startsWith(':') === true;
}
