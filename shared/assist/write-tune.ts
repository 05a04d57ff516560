import type { GridStatement } from '../lesson/syntax/statement.ts';
import { printMeter } from '../theory/meter.ts';
import type { Tune } from '../voicing/tune/tune.ts';
import type { TuneRequest } from '../voicing/tune/tune-problem.ts';
import { printTune } from '../voicing/tune/tune-text.ts';
import { laidOutText, remarked, sentencesOf, type WrittenPlace, type WrittenText } from './written-place.ts';

/** A tune as a teacher would write it: a `melody` of the name that the question has, with its count, its notes and their fingers. */
export function writtenTune(
  place: WrittenPlace,
  { name, meter }: GridStatement,
  request: TuneRequest,
  { notes, why }: Tune,
): WrittenText {
  const [head = '', ...rows] = printTune(name?.text ?? UNNAMED, request, notes)
    .trimEnd()
    .split('\n');
  const text = laidOutText(place, [
    ...remarked(place),
    `// Found: ${why}.`,
    head,
    ...(meter === undefined ? [] : [`  meter  ${printMeter(meter.meter)}`]),
    ...rows,
    ...sentencesOf(place),
  ]);
  return { text, usual: [] };
}

/** What a tune without a name of its own is called. */
const UNNAMED = 'tune';
