import type { ProgressionStatement } from '../syntax/statement.ts';
import { chordsIn } from './chords-in.ts';
import type { Scope } from './scope.ts';

/**
 * The lines of a progression by another name and with other chords in the same places, one for each chord in the order it is written.
 * Words that are sung and sentences stay behind.
 */
export function overNames(
  scope: Scope,
  progression: ProgressionStatement,
  name: string,
  names: readonly string[],
): readonly string[] {
  const entry = scope.entryOf(progression);
  if (entry === undefined) return [];
  const sung = new Set(progression.lines.flatMap(({ words }) => words.map(({ span }) => span.start)));
  const replaced = [
    ...(progression.name === undefined ? [] : [{ span: progression.name.span, text: name }]),
    ...chordsIn(progression).map(({ span }, at) => ({ span, text: names[at] ?? '' })),
  ];
  return entry.lines
    .filter(({ kind, start, end }) => kind === 'statement' && ![...sung].some((at) => at >= start && at < end))
    .map(({ start, end }) =>
      replaced
        .filter(({ span }) => span.start >= start && span.end <= end)
        .reduceRight(
          (line, { span, text }) => line.slice(0, span.start - start) + text + line.slice(span.end - start),
          entry.text.slice(start, end).trimEnd(),
        ),
    );
}
