import type { Span } from '../text/span.ts';

/** A slip in a chord name with its mend: the whole name as it should be, what a teacher says, and where the slip stands. */
export interface Respelling {
  readonly text: string;
  readonly message: string;
  readonly span: Span;
}

interface Slip {
  readonly pattern: RegExp;
  /** What stands in its place, from the whole match and its groups. */
  readonly instead: (...found: string[]) => string;
  /** What is said before the colon and the mended name. */
  readonly rule: string;
}

const ROOT = '^[A-G][b#♭♯]*';
const END = '(?=$|\\s*\\/)';

/** Slips that leave no doubt about what was meant. Source: common practice, no source. */
const SLIPS: readonly Slip[] = [
  slip(/\\/, () => '/', 'The bass note stands behind a stroke that leans to the right'),
  slip(/\/{2,}/, () => '/', 'One stroke is enough before the bass note'),
  slip(/\s+(?:over|on)\s+(?=[A-G])/i, () => '/', 'The bass note stands behind a stroke'),
  slip(
    /(?<=\/\s*)[a-g][b#♭♯]?(?=\s*$)/,
    (note) => note.charAt(0).toUpperCase() + note.slice(1),
    'The bass note has a capital letter',
  ),
  slip(/(?<=\/\s*)[Hh](?=[b#♭♯]?\s*$)/, () => 'B', 'The note below C is called B here'),
  slip(
    /^[([{|]\s*(.+?)\s*[)\]}|]$/,
    (_all, inner = '') => inner,
    'A chord name stands for itself, without brackets around it',
  ),
  slip(/^[^(]*\)/, (all) => all.slice(0, -1), 'This closing bracket has none that opens it'),
  slip(/\(\s*\)/, () => '', 'There is nothing between the brackets'),
  slip(/\s*[.,;:!?*]+$/, () => '', 'A chord name ends with its last letter, number or sign'),
  slip(
    /(?<=^[A-G])[\s-]*(flat|sharp)\s*/i,
    (_all, word = '') => signOf(word),
    'A raised note is written with #, a lowered one with b',
  ),
  slip(
    /[\s-]*(flat|sharp)\s*(?=\d)/i,
    (_all, word = '') => signOf(word),
    'A raised tone is written with #, a lowered one with b',
  ),
  slip(/^[AE]s|^[A-G][ie]s/, (all) => germanNote(all), 'Raised notes are written with #, lowered ones with b'),
  slip(
    /(?<=\/\s*)(?:[AE]s|[A-G][ie]s)$/,
    (all) => germanNote(all),
    'Raised notes are written with #, lowered ones with b',
  ),
  slip(/(?<=[^/])B(?=(?:5|9|13)(?!\d))/, () => 'b', 'A lowered tone has a small b'),
  slip(
    /(5|9|11|13)([b#♭♯])(?=[\s,)/]|$)/,
    (_all, number = '', sign = '') => sign + number,
    'The sign stands before its number',
  ),
  slip(/[-−–](?=[b♭]\d)|\+(?=[#♯]\d)/, () => '', 'One sign is enough to lower or raise a tone'),
  slip(/(?<=maj|Maj|ma|MA|M)[-−–]\s*(?=7|9|11|13)/, () => '', 'Nothing stands between maj and its number'),
  slip(behindRoot('0'), () => 'dim', 'The circle of a diminished chord is written ° or dim'),
  slip(behindRoot('[jJ](?=\\s*(?:7|9|11|13))'), () => 'maj', 'The major seventh is written maj7'),
  slip(
    behindRoot(`(6|7|9|11|13)\\s*(m|mi|min|minor|dim|°|o|ø|ø7)${END}`),
    (_all, number = '', third = '') => third.replace('7', '') + number,
    'The sign for minor or diminished stands before the number',
  ),
  slip(
    behindRoot(`(?:m|mi|min|-|maj|M)5${END}`),
    () => '5',
    'A power chord has no third, so it is neither major nor minor',
  ),
  slip(
    behindRoot(`(m|mi|min|-)2${END}`),
    (_all, minor = '') => `${minor}(add9)`,
    'A minor chord keeps its third, so the second on top of it is an added ninth',
  ),
  slip(
    behindRoot('7\\s*[(/]?\\s*4\\s*[,/]\\s*9\\)?$'),
    () => '9sus4',
    'The fourth that stands for the third is called sus4',
  ),
  slip(
    new RegExp(`([24])sus${END}`),
    (_all, number = '') => `sus${number}`,
    'The number of the tone that stands for the third comes behind sus',
  ),
  slip(
    new RegExp(`(?<=.)(?:maj|Maj|ma|MA|M)${END}`),
    (major) => `${major}7`,
    'Beside another triad, major speaks of the seventh, and then the 7 is written',
  ),
];

/** Names that some write for one chord and some for another, with both in canonical spelling. Source: common practice, no source. */
const AMBIGUOUS: readonly (readonly [pattern: RegExp, meant: (...found: string[]) => readonly string[]])[] = [
  [/^\(?2\)?$/, () => ['sus2', '(add9)']],
  // The triangle is a sign for major as well as for its seventh; its stand-in on a keyboard is used for both.
  [/^\^$/, () => ['', 'maj7']],
  [/^\(?add\s*7\)?$/, () => ['7', 'maj7']],
  // The theory class calls a seventh chord by its third and its seventh; a chart would mean the minor chord with major seventh.
  [/^(?:M|maj|Maj)(?:m|min)7$/, () => ['7', 'm(maj7)']],
  // The plus is the raised fifth of a ninth chord to some, the ninth on top of a triad to others. "C-5" and "Csus9" are not asked
  // about: nobody writes a minor triad with its fifth, so the first is C(b5), and the second is C9sus4.
  [/^\+\s*9$/, () => ['9#5', '(add9)']],
  [/^9\s*\/?\s*6$/, () => ['6/9', '13']],
  [/^7[-−–]$/, () => ['m7', '7b5']],
  // A fourth in the third's place leaves no minor third; a fourth on top of it is the eleventh.
  [/^(?:m|mi|min|-)(7|9)?\s*sus4?$/, (_all, number = '') => [`${number}sus4`, `m${number}(add11)`]],
  [/^(?:m|mi|min|-)7?\s*sus2$/, (all) => (all.includes('7') ? ['7sus2', 'm9'] : ['sus2', 'm(add9)'])],
];

/**
 * Every single mend that could make a name of the text, likeliest first, and last all of them together; whether one does, the
 * reader of names decides.
 */
export function respellings(text: string): readonly Respelling[] {
  const single = SLIPS.flatMap((slip) => {
    const mended = mend(slip, text);
    return mended === undefined ? [] : [mended];
  });
  if (single.length < 2) return single;
  const together = SLIPS.reduce((before, slip) => mend(slip, before)?.text ?? before, text);
  const message = `More than one thing is spelled differently here: ${together}.`;
  return [...single, { text: together, message, span: { start: 0, end: text.length } }];
}

/** The suffixes that an ambiguous one is written for; none where it has one meaning at most. */
export function suffixesMeant(suffix: string): readonly string[] {
  for (const [pattern, meant] of AMBIGUOUS) {
    const match = pattern.exec(suffix);
    if (match !== null) return meant(...match.map((group) => group ?? ''));
  }
  return [];
}

function mend({ pattern, instead, rule }: Slip, text: string): Respelling | undefined {
  const match = pattern.exec(text);
  if (match === null) return undefined;
  const [all, ...groups] = match;
  const end = match.index + all.length;
  const mended = text.slice(0, match.index) + instead(all, ...groups.map((group) => group ?? '')) + text.slice(end);
  return { text: mended, message: `${rule}: ${mended}.`, span: { start: match.index, end } };
}

function slip(pattern: RegExp, instead: Slip['instead'], rule: string): Slip {
  return { pattern, instead, rule };
}

/** The pattern right behind the root of a name. */
function behindRoot(pattern: string): RegExp {
  return new RegExp(`(?<=${ROOT})${pattern}`);
}

function signOf(word: string): string {
  return word.toLowerCase() === 'flat' ? 'b' : '#';
}

/** `Cis` is C#, `Des` is Db, `As` and `Es` have lost their e. */
function germanNote(name: string): string {
  return name.charAt(0) + (name.endsWith('is') ? '#' : 'b');
}
