import { toPlainSigns } from './plain-signs.ts';
import { nextLineStart } from './scan-lines.ts';

/**
 * Where the entries of a lesson start. An entry is a statement with the indented, empty and comment lines behind it, or a
 * run of prose lines in column 0. The first entry always starts at 0 and may hold nothing but blanks and comments.
 *
 * Whether a line starts an entry depends on that line and on whether the entry it would end is prose, on nothing else; so
 * reading may begin at any entry and may stop as soon as it meets a start that was known before.
 */
export function* entryStarts(text: string, from = 0): Generator<number> {
  yield from;
  let previous = headOf(text, from);
  for (let at = nextLineStart(text, from); at < text.length; at = nextLineStart(text, at)) {
    const head = headOf(text, at);
    if (head === 'continues' || (head === 'prose' && previous === 'prose')) continue;
    yield at;
    previous = head;
  }
}

type LineHead = 'statement' | 'prose' | 'continues';

function headOf(text: string, lineStart: number): LineHead {
  const at = lineStart === 0 && text.charCodeAt(0) === 0xfeff ? 1 : lineStart;
  const first = text[at];
  if (first === undefined || /\s/.test(first)) return 'continues';
  const head = toPlainSigns(text.slice(at, at + 2));
  if (head === '//') return 'continues';
  return head.startsWith('>') ? 'prose' : 'statement';
}
