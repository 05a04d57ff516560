import { isPlainName } from '../lesson/syntax/read-names.ts';
import { parseChordSymbol } from '../theory/chord-symbol.ts';

/** What parts of songs are called. Common practice, no source. */
const PARTS =
  /^(?:verse|chorus|refrain|bridge|intro(?:duction)?|outro|coda|tag|interlude|pre-?chorus|ending|instrumental|solo|turnaround|hook|break|vamp|middle|part|strophe|couplet|estribillo|estrofa|refr[aã]o)s?$/i;

/** A number or letter behind the part, and how often it is sung: `Verse 2`, `Chorus x2`, `Part B`. */
const BEHIND = /\s*(?:[([]?\s*(?:x\s*(\d{1,2})|(\d{1,2})\s*x)\s*[)\]]?)$/i;

/** More often than that a section is not sung in a row. */
const MOST_TIMES = 16;

/**
 * The name that a progression gets from a heading: `verse-2` from `[Verse 2]`, `Verse 2:`, `** VERSE 2 **`, or `Verse 2` alone. Any
 * other words are a heading in square brackets or before a colon, where they are no greeting or sentence. Nothing where the line is none.
 */
export function sectionName(written: string): string | undefined {
  const line = written.trim().replace(/^[-=*_#~\s]+|[-=*_#~\s]+$/g, '');
  const framed = /^[[(<{](.*)[\])>}]:?$/.exec(line)?.[1];
  const said = (framed ?? line).replace(/:$/, '').replace(BEHIND, '').trim();
  const words = said.split(/[\s.,]+/).filter((word) => word !== '');
  const [first = ''] = words;
  const isPart =
    PARTS.test(first) &&
    words.length <= 3 &&
    words.slice(1).every((word) => /^(?:\d{1,2}|[A-Z]|[ivxIVX]{1,4})$/.test(word));
  const isMarked = /^\[.*\]:?$/.test(line) || (/^[^|[\],;!?]{1,30}:$/.test(line) && words.length <= 4);
  if (!isPart && !isMarked) return undefined;
  const name = words
    .join('-')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}-]/gu, '')
    .replace(/^-+|-+$/g, '')
    .replace(/-{2,}/g, '-');
  if (!/\p{L}/u.test(name)) return isMarked && name !== '' ? `part-${name}` : undefined;
  const taken = parseChordSymbol(name).ok || parseChordSymbol(words.join('')).ok || !isPlainName(name);
  return taken ? plainPart(name) : name;
}

/** How often a heading says that its section is sung: 2 from `Chorus (x2)`, 1 where it says nothing. */
export function timesOfSection(written: string): number {
  const line = written.trim().replace(/^[-=*_#~\s]+|[-=*_#~\s]+$/g, '');
  const framed = /^[[(<{](.*)[\])>}]:?$/.exec(line)?.[1] ?? line;
  const [, behind, before] = BEHIND.exec(framed.replace(/:$/, '')) ?? [];
  return Math.min(MOST_TIMES, Math.max(1, Number(behind ?? before ?? 1)));
}

function plainPart(name: string): string | undefined {
  const called = `part-${name}`;
  return isPlainName(called) ? called : undefined;
}
