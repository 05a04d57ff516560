import { problemsOf } from '../../shared/lesson/check/problems.ts';
import { openDocument } from '../../shared/lesson/document.ts';
import type { GridStatement, ProgressionStatement } from '../../shared/lesson/syntax/statement.ts';
import { parseInstrument } from '../../shared/neck/instruments.ts';
import { type ReadingWish, readText, type TextReading } from '../../shared/reading/read-text.ts';
import { parseRhythmWish } from '../../shared/reading/rhythm-wish.ts';
import { COMMON_TIME, parseMeter } from '../../shared/theory/meter.ts';

/** How a text is to be read, in the words of the command line. */
export interface Asked {
  readonly on?: string;
  readonly rhythm?: string;
  readonly meter?: string;
  readonly as?: ReadingWish['as'];
}

export function read(
  text: string,
  { on = 'tenor ukulele, high G', rhythm, meter: asked, as }: Asked = {},
): TextReading {
  const instrument = parseInstrument(on);
  if (!instrument.ok) throw new Error(instrument.problem.message);
  const meter = asked === undefined ? COMMON_TIME : parseMeter(asked);
  if (meter === undefined) throw new Error(`${asked} is no meter`);
  const wish = rhythm === undefined ? undefined : parseRhythmWish(rhythm, meter);
  if (wish?.ok === false) throw new Error(wish.problem.message);
  return readText(text, {
    instrument: instrument.value,
    meter,
    ...(wish === undefined ? {} : { rhythm: wish.value }),
    ...(as === undefined ? {} : { as }),
  });
}

/** The reading put into a lesson for the instrument that it was read for. */
function inLesson({ text }: TextReading, { on = 'tenor ukulele, high G', meter = '4/4' }: Asked = {}): string {
  return `lesson  Pasted\nfor     ${on}\nmeter   ${meter}\n\n${text}`;
}

/** Errors that the checks find in the reading. */
export function errorsIn(reading: TextReading, asked: Asked = {}): readonly string[] {
  const text = inLesson(reading, asked);
  return problemsOf(openDocument(text))
    .filter(({ severity }) => severity === 'error')
    .map(({ code, message, span }) => `${code} "${text.slice(span.start, span.end)}": ${message}`);
}

/**
 * What the grids of a reading play, column by column, as the reader of lessons has it: `1=2:0 &=. 2=1:0|h3`. Rows of one column are
 * joined by `|`; columns where nothing begins are left out; a stroke marks a bar line of the count.
 */
export function playedIn({ text }: TextReading): string {
  return gridsIn(text)
    .flatMap(({ lines }) =>
      lines.map(({ count, rows }) => {
        const columns = (count?.columns ?? []).map(({ word }, index) => {
          const signs = (count?.signs ?? []).filter(({ column }) => column === index && index > 0);
          const marks = rows
            .filter(({ kind }) => kind !== 'chord')
            .flatMap(({ cells }) => cells[index]?.word.text ?? [])
            .filter((mark) => mark !== '.');
          return [
            ...signs.map(({ sign }) => sign.text),
            ...(marks.length === 0 ? [] : [`${word.text}=${marks.join('|')}`]),
          ];
        });
        return columns.flat().join(' ');
      }),
    )
    .join('\n');
}

/** The lines of the reading without its remarks, blanks run together. */
export function linesIn({ text }: TextReading): readonly string[] {
  return text
    .split('\n')
    .map((line) => line.trim().replaceAll(/\s+/g, ' '))
    .filter((line) => line !== '' && !line.startsWith('//'));
}

/** What is kept as a remark. */
export function remarksIn({ text }: TextReading): readonly string[] {
  return text.split('\n').flatMap((line) => /^\s*\/\/ (.*)$/.exec(line)?.[1] ?? []);
}

export function gridsIn(text: string): readonly GridStatement[] {
  return openDocument(text).entries.flatMap(({ statement }) =>
    statement.kind === 'melody' || statement.kind === 'pattern' ? [statement] : [],
  );
}

export function progressionsIn(text: string): readonly ProgressionStatement[] {
  return openDocument(text).entries.flatMap(({ statement }) => (statement.kind === 'progression' ? [statement] : []));
}
