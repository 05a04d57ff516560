/** A lesson of our own scenario, small, with one of most things. */
export const LANTERNS = `// Paper lanterns: week 3 of the beginners' term
lesson  Paper Lanterns
for     tenor ukulele, high G
key     E minor
meter   4/4
tempo   60 to 92 by 4

> Warm up for two minutes before you stretch. If it hurts, stop.

chord  Em         0-4-3-2   fingers 0-3-2-1
chord  C          0-0-0-3
chord  G          0-2-3-2
chord  D          2-2-2-0

progression  verse
  | Em | C | G | D |

pattern  roll
  count   1    &    2    &    3    &    4    &
  pick    4p   2i   3p   1m   4p   2i   3p   1m

exercise  Roll the changes
  play    verse
  with    roll
  minutes 5
  > Plant i and m together before the thumb moves.
`;

/** The position of a stretch of text within a lesson, as the protocol counts it; `into` moves it to the right. */
export function positionOf(text: string, part: string, into = 0): { line: number; character: number } {
  const offset = text.indexOf(part);
  if (offset < 0) throw new Error(`the lesson does not say ${part}`);
  const before = text.slice(0, offset + into).split('\n');
  return { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
}

/** The range of a stretch of text within a lesson. */
export function rangeOf(text: string, part: string) {
  return { start: positionOf(text, part), end: positionOf(text, part, part.length) };
}

/** What a range of a lesson says. Written apart from the product's own conversion, for lessons with plain line ends. */
export function textAt(
  text: string,
  range: { start: { line: number; character: number }; end: { line: number; character: number } },
): string {
  const lines = text.split('\n');
  const offset = ({ line, character }: { line: number; character: number }): number =>
    lines.slice(0, line).reduce((sum, each) => sum + each.length + 1, 0) + character;
  return text.slice(offset(range.start), offset(range.end));
}
