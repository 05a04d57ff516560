import type { Fix } from '../../text/problem.ts';
import { type Reading, report, type WordLine } from './reading.ts';
import type { InstrumentStatement, Statement } from './statement.ts';

/** `capo 2` as a line of its own. */
export function isCapo({ keyword, rest }: Pick<WordLine, 'keyword' | 'rest'>): boolean {
  return keyword.text.toLowerCase() === 'capo' && rest.length <= 1;
}

/** Where a capo is said, for all who write it somewhere else. `fret` as written, where there is one. */
export function tellCapoPlace(fret: string | undefined): string {
  return `A capo is written on the line of its instrument, behind its name: for guitar, capo ${fret ?? 2}. In an edition block it stands indented.`;
}

/** An instrument's line with the capo in it, in place of one that it has. */
export function withCapoWritten(value: string, fret: string): string {
  const written = /,?\s*\bcapo\s+\d+/i;
  return `${value.replace(written, '')}, capo ${fret}`;
}

/** A capo on a line under another one; under `for` and `also` the fix moves it up. */
export function reportCapoBelow(reading: Reading, line: WordLine, statement: Statement): void {
  const fret = /^\d{1,2}$/.exec(line.rest[0]?.text ?? '')?.[0];
  const above = statement.kind === 'for' || statement.kind === 'also' ? statement.value : undefined;
  const fixes: readonly Fix[] =
    above === undefined || fret === undefined ? [] : [movedUp(reading, line, above, withCapoWritten(above.text, fret))];
  report(reading, 'error', 'capo.place', line.span, tellCapoPlace(fret), fixes);
}

function movedUp(
  { text }: Reading,
  { span }: WordLine,
  above: NonNullable<InstrumentStatement['value']>,
  instrument: string,
): Fix {
  // With the line break and the blanks before it.
  const start = text.slice(0, span.start).replace(/\s+$/, '').length;
  const edits = [
    { span: above.span, text: instrument },
    { span: { start: Math.max(start, above.span.end), end: span.end }, text: '' },
  ];
  return { title: `Write it there: ${instrument}`, edits, preferred: true };
}
