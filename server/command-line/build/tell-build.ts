import { printFinding } from '../../findings.ts';
import type { ToldLeftOut } from '../../hand-out/desk.ts';
import type { BuiltInTerm, BuiltTerm } from './build-term.ts';

/** What is wrong in a lesson and what is left out for it, a line each, with file and line. */
export function lessonLines({ file, told, older }: BuiltInTerm): readonly string[] {
  const errors = told.errors.map((error) => printFinding({ ...error, file }));
  const byNumber = new Map<number, ToldLeftOut[]>();
  for (const one of told.leftOut) byNumber.set(one.number, [...(byNumber.get(one.number) ?? []), one]);
  const several = new Set(told.leftOut.map(({ edition }) => edition)).size > 1;
  const leftOut = [...byNumber.values()].flatMap((same) => {
    const [first] = same;
    if (first === undefined) return [];
    const { line, number, title, because } = first;
    const on = several ? ` on ${same.map(({ edition }) => edition).join('; ')}` : '';
    return [
      `${file}:${line}: left out: exercise ${number}, ${title},${on} because of line ${because.line}: ${because.message}\n`,
    ];
  });
  const remarks = [...told.remarks, ...olderRemark(older)];
  return [...errors, ...leftOut, ...remarks.map((remark) => `${file}: note: ${remark}\n`)];
}

/** Files of kinds and editions that are not asked for now stay; that the lesson has changed since is said. */
function olderRemark(older: readonly string[]): readonly string[] {
  const [first] = older;
  if (first === undefined) return [];
  const which = older.length === 1 ? first : `${first} and ${older.length - 1} more`;
  return [`made by an earlier build from another text of the lesson, and left as it was: ${which}`];
}

/** One line that says what was done. */
export function summaryLine({ lessons, removed }: Pick<BuiltTerm, 'lessons' | 'removed'>, to: string): string {
  const written = sumOf(lessons, ({ written: names }) => names.length);
  const unchanged = sumOf(lessons, (lesson) => lesson.unchanged);
  const gone = removed.length + sumOf(lessons, (lesson) => lesson.removed.length);
  const faulty = lessons.filter(({ told }) => told.errors.length > 0).length;
  const parts = [
    `${counted(written, 'file')} written`,
    `${unchanged} as before`,
    ...(gone > 0 ? [`${gone} removed`] : []),
  ];
  const errors = faulty === 0 ? '' : `, ${faulty} with errors`;
  return `${to}: ${counted(lessons.length, 'lesson')}${errors}; ${parts.join(', ')}\n`;
}

/** The whole as scripts read it. */
export function buildAsJson(term: BuiltTerm, to: string): string {
  const { lessons, removed, complaints, finished } = term;
  const told = lessons.map(({ file, written, unchanged, removed: gone, older, told: said }) => ({
    file,
    written,
    unchanged,
    removed: gone,
    older,
    errors: said.errors.map((error) => ({ ...error, file })),
    leftOut: said.leftOut,
    remarks: said.remarks,
  }));
  return `${JSON.stringify({ to, finished, lessons: told, removed, complaints }, undefined, 2)}\n`;
}

function sumOf<T>(list: readonly T[], count: (one: T) => number): number {
  return list.reduce((sum, one) => sum + count(one), 0);
}

export function counted(count: number, what: string): string {
  return `${count} ${what}${count === 1 ? '' : 's'}`;
}
