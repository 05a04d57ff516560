import { parseChordSymbol } from './chord-symbol.ts';

/** What a chord name may be in the middle of: its words, numbers of two figures, signs and brackets. Common practice, no source. */
const ENDS: readonly string[] = [
  ...['sus4', 'add9', 'maj7', 'major', 'min', 'minor', 'dim', 'dim7', 'diminished', 'aug', 'augmented', 'dom7', 'alt'],
  ...['omit5', 'no3', '11', '13'],
  ...['b5', 'b9', '♭5', '♭9', '#5', '#9', '♯5', '♯9', '+5', '-5'],
  ...[
    '/B',
    '/Bb',
    '/9',
    '/maj7',
    '(add9',
    '(b5',
    '(#11',
    '(9',
    '(maj7',
    '(no3',
    '(sus4',
    ',9',
    ',b9',
    ',#9',
    ',11',
    ',b13',
    ',no3',
  ],
];

/**
 * True when the text is no chord name but the beginning of one: `C(`, `G/`, `Csu`, `D(ad`, `Am7b`. Whoever is still typing has
 * made no mistake.
 */
export function isBegunChordName(text: string): boolean {
  if (isName(text)) return false;
  return isNameOnceClosed(text) || ENDS.some((end) => goesOnTo(text, end));
}

/** Whether the text stops inside `end` and is a name with the rest of it. */
function goesOnTo(text: string, end: string): boolean {
  for (let typed = 1; typed < end.length; typed += 1) {
    if (text.endsWith(end.slice(0, typed)) && isNameOnceClosed(text + end.slice(typed))) return true;
  }
  return false;
}

function isNameOnceClosed(text: string): boolean {
  return isName(text) || (text.includes('(') && isName(`${text})`));
}

function isName(text: string): boolean {
  return parseChordSymbol(text).ok;
}
