import { type LessonDocument, openDocument } from '../../shared/lesson/document.ts';
import type { Entry } from '../../shared/lesson/syntax/read-entry.ts';

/** A fenced example of the reference. */
export interface Example {
  /** Line of its opening fence in the reference, from 1. */
  readonly line: number;
  readonly text: string;
  /** How it becomes a whole lesson; absent where it is one. */
  readonly completion?: 'statements' | 'progression' | 'pattern' | 'melody' | 'exercise' | 'family';
  /** A meter of its own, where it needs another than the first example's. */
  readonly meter?: string;
  /** The code that the mistake in it must be told with; absent in good examples. */
  readonly mistake?: string;
}

const COMPLETIONS = ['statements', 'progression', 'pattern', 'melody', 'exercise', 'family'] as const;

/** Every example in the order of the text. Throws where a fence's words are not understood: that is a slip in the reference. */
export function examplesIn(markdown: string): readonly Example[] {
  return [...markdown.matchAll(/^```(\S+)[ \t]*(.*)\n([\s\S]*?)^```$/gm)].map((match): Example => {
    const [, language, words = '', text = ''] = match;
    const line = markdown.slice(0, match.index).split('\n').length;
    const info = words.split(' ').filter((word) => word !== '');
    const completion = COMPLETIONS.find((known) => info[0] === known);
    if (completion !== undefined) info.shift();
    const meter = /^\d+\/\d+$/.test(info[0] ?? '') ? info.shift() : undefined;
    const mistake = language === 'lesson-mistake' ? info.shift() : undefined;
    const known = language === 'lesson' || (language === 'lesson-mistake' && mistake !== undefined);
    if (!known || info.length > 0)
      throw new Error(`The fence in line ${line} of the reference says ${language} ${words}.`);
    return {
      line,
      text,
      ...(completion === undefined ? {} : { completion }),
      ...(meter === undefined ? {} : { meter }),
      ...(mistake === undefined ? {} : { mistake }),
    };
  });
}

/**
 * The example as a whole lesson: what is indented in the reference stands under a statement of its kind, and what the example does
 * not say itself is borrowed from `frame`, the reference's first example.
 */
export function completed({ text, completion, meter }: Example, frame: string): string {
  if (completion === undefined) return text;
  const own = completion === 'statements' ? text : `${completion}  example\n${text.replace(/^(?=.)/gm, '  ')}`;
  const ownNames = new Set(openDocument(own).entries.map(nameOf));
  const borrowed = openDocument(frame).entries.filter(
    (entry) =>
      !ownNames.has(nameOf(entry)) &&
      // What the frame practises is not made for another meter: its eighths would be sixteenths there.
      (meter === undefined || entry.statement.kind !== 'exercise'),
  );
  const head = borrowed
    .map((entry) => (meter !== undefined && entry.statement.kind === 'meter' ? `meter  ${meter}\n` : entry.text))
    .join('');
  return `${head}\n${own}`;
}

/** What may stand only once in a lesson: a header's keyword, a block's kind and name. */
function nameOf({ statement }: Entry): string {
  switch (statement.kind) {
    case 'chord':
      return `chord ${statement.chord?.text}`;
    case 'progression':
    case 'pattern':
    case 'melody':
    case 'family':
      return `${statement.kind} ${statement.name?.text}`;
    case 'prose':
    case 'exercise':
      return 'never the same';
    default:
      return statement.kind;
  }
}

export function openCompleted(example: Example, frame: string): LessonDocument {
  return openDocument(completed(example, frame));
}
