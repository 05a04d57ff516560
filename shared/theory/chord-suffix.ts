import type { Fault, Outcome } from '../text/problem.ts';
import type { ChordKind } from './chord-kinds.ts';
import type { ChordParts } from './chord-parts.ts';
import { canonicalParts, rolesOfParts } from './chord-parts.ts';
import type { Role } from './role.ts';

type Quality = 'major' | 'minor' | 'diminished' | 'half-diminished' | 'augmented';
type Suspension = '2' | '4' | '24';

/** What the marks behind the root have said so far. */
interface Heard {
  quality?: Quality;
  /** `maj`, `M` or a triangle: the seventh, where one follows, is the major one. */
  majorSeventh: boolean;
  triangle: boolean;
  extension?: number;
  suspension?: Suspension;
  altered: boolean;
  readonly alterations: Role[];
  readonly additions: Role[];
  readonly omissions: Role[];
}

/** One mark that may stand behind the root; the first that fits is taken. */
interface Mark {
  readonly pattern: RegExp;
  /** False where the mark, though it fits, makes no sense after what was heard. */
  readonly hear: (heard: Heard, match: RegExpExecArray, inBrackets: boolean) => boolean;
}

const MARKS: readonly Mark[] = [
  {
    pattern: /(?:omit|no)\s*(root|13|11|[13579])(?:rd|th|st)?/iy,
    hear: (heard, match) => push(heard.omissions, { degree: degreeOf(match[1]), alter: 0 }),
  },
  {
    pattern: /add\s*([b♭#♯]?)(13|11|9|6|4|2)/iy,
    hear: (heard, match) => push(heard.additions, { degree: degreeOf(match[2]), alter: alterOf(match[1]) }),
  },
  { pattern: /add\s*(?:maj|M|△|Δ)7/y, hear: (heard) => push(heard.additions, { degree: 7, alter: 0 }) },
  {
    pattern: /sus\s*(2\s*(?:sus)?\s*4|4\s*(?:sus)?\s*2|4|2)?/iy,
    hear: (heard, match) => {
      const digits = (match[1] ?? '4').replace(/\D/g, '');
      const before = heard.suspension;
      heard.suspension =
        digits.length === 2 || (before !== undefined && before !== digits) ? '24' : suspensionOf(digits);
      return true;
    },
  },
  { pattern: /7?\s*alt(?:ered)?/iy, hear: (heard) => setExtension(heard, 7) && setAltered(heard) },
  { pattern: /half-?dim(?:inished)?|[øØ]/iy, hear: (heard) => setQuality(heard, 'half-diminished') },
  { pattern: /dim(?:inished)?|[°º˚]|o(?![a-z])/iy, hear: (heard) => setQuality(heard, 'diminished') },
  { pattern: /aug(?:mented)?/iy, hear: (heard) => setQuality(heard, 'augmented') },
  // A plus or minus before 5 bends the fifth; before 9, 11, 13 it bends them once a seventh or ninth is there, and is else the triad.
  {
    pattern: /([+\-−–])(5|9|11|13)/y,
    hear: (heard, match, inBrackets) => {
      const known = heard.extension !== undefined || inBrackets;
      if (match[2] !== '5' && !known) return false;
      return push(heard.alterations, { degree: degreeOf(match[2]), alter: match[1] === '+' ? 1 : -1 });
    },
  },
  { pattern: /\+/y, hear: (heard) => setQuality(heard, 'augmented') },
  { pattern: /[△Δ∆]/y, hear: (heard) => setMajorSeventh(heard, true) },
  {
    pattern: /maj(?:or)?|MA(?:J(?:OR)?)?|Maj(?:or)?|[Mm]a(?![a-z])|M(?![a-zI])/y,
    hear: (heard) => setMajorSeventh(heard, false),
  },
  { pattern: /min(?:or)?|MIN(?:OR)?|Min(?:or)?|[Mm]i|MI|m|[-−–]/y, hear: (heard) => setQuality(heard, 'minor') },
  { pattern: /dom(?:inant)?/iy, hear: () => true },
  {
    pattern: /\/?\s*([b♭#♯])(13|11|10|9|6|5|4|2)/y,
    hear: (heard, match) => push(heard.alterations, tensionOf(degreeOf(match[2]), alterOf(match[1]))),
  },
  {
    pattern: /6\s*\/\s*9|69/y,
    hear: (heard) => setExtension(heard, 6) && push(heard.additions, { degree: 9, alter: 0 }),
  },
  { pattern: /\/\s*(?=maj7|Maj7|M7|△|Δ)/y, hear: (heard) => heard.quality === 'minor' },
  {
    pattern: /\/\s*(13|11|9|6)/y,
    hear: (heard, match) => push(heard.additions, { degree: degreeOf(match[1]), alter: 0 }),
  },
  {
    pattern: /13|11|9|7|6|5/y,
    hear: (heard, match, inBrackets) => {
      const degree = degreeOf(match[0]);
      const further = heard.extension !== undefined || (inBrackets && degree > 7 && !heard.majorSeventh);
      if (!further) return setExtension(heard, degree);
      return degree === 5 || degree === 7 ? false : push(heard.additions, { degree, alter: 0 });
    },
  },
];

/** Reads what stands between the root and the bass: `m7b5`, `(add9)`, `6/9`. Spans count from the start of `suffix`. */
export function readSuffix(suffix: string): Outcome<ChordParts> {
  const heard: Heard = {
    majorSeventh: false,
    triangle: false,
    altered: false,
    alterations: [],
    additions: [],
    omissions: [],
  };
  const brackets: number[] = [];
  let at = 0;
  while (at < suffix.length) {
    const character = suffix.charAt(at);
    if (character === '(') brackets.push(at);
    if (character === ')' && brackets.pop() === undefined) return unreadable(suffix, at);
    // Blanks and commas part the marks inside brackets only: outside them they end the name.
    if (character === '(' || character === ')' || (brackets.length > 0 && /[\s,]/.test(character))) {
      at += 1;
      continue;
    }
    const next = hearMark(heard, suffix, at, brackets.length > 0);
    if (next === undefined) return unreadable(suffix, at);
    at = next;
  }
  const open = brackets[0];
  if (open !== undefined) {
    const message = 'The bracket in this chord name is not closed.';
    const span = { start: open, end: suffix.length };
    return { ok: false, problem: { code: 'chord.open-bracket', message, span, instead: `${suffix})` } };
  }
  const parts = partsOf(heard);
  return parts === undefined ? unreadable(suffix, 0) : checkOmissions(parts, heard, suffix);
}

function hearMark(heard: Heard, suffix: string, at: number, inBrackets: boolean): number | undefined {
  for (const mark of MARKS) {
    // A sticky pattern tries this one place and carries nothing over to the next call.
    mark.pattern.lastIndex = at;
    const match = mark.pattern.exec(suffix);
    if (match !== null && match[0].length > 0 && mark.hear(heard, match, inBrackets)) return at + match[0].length;
  }
  return undefined;
}

function partsOf(heard: Heard): ChordParts | undefined {
  const quality = heard.quality ?? 'major';
  const extension = heard.extension ?? (heard.triangle || quality === 'half-diminished' ? 7 : undefined);
  const alterations = [...heard.alterations];
  const additions = [...heard.additions];
  if (heard.altered) return canonicalParts({ ...heard, kind: 'altered-dominant' });
  if (extension === 5) {
    if (heard.quality !== undefined || heard.suspension !== undefined || heard.majorSeventh) return undefined;
    return canonicalParts({ ...heard, kind: 'power' });
  }
  const kind = heard.suspension
    ? suspendedKind(heard.suspension, extension, heard.majorSeventh, additions)
    : stackedKind(quality, extension, heard.majorSeventh, additions);
  // Where the kind has no triad of its own, the quality bends its fifth.
  if (heard.suspension || (extension !== undefined && extension !== 7)) {
    if (quality === 'augmented') alterations.push({ degree: 5, alter: 1 });
    if (quality === 'half-diminished') alterations.push({ degree: 5, alter: -1 });
    if (quality === 'diminished' && heard.suspension) alterations.push({ degree: 5, alter: -1 });
  }
  if (quality === 'augmented' && extension === 7 && heard.majorSeventh) alterations.push({ degree: 5, alter: 1 });
  return canonicalParts({ kind, alterations, additions, omissions: heard.omissions });
}

function suspendedKind(
  suspension: Suspension,
  extension: number | undefined,
  major: boolean,
  additions: Role[],
): ChordKind {
  const second = suspension === '2';
  if (suspension === '24') additions.push({ degree: 9, alter: 0 });
  if (extension === undefined) return second ? 'suspended-second' : 'suspended-fourth';
  if (extension === 6) {
    additions.push({ degree: 6, alter: 0 });
    return second ? 'suspended-second' : 'suspended-fourth';
  }
  if (!second && !major && extension >= 9)
    return extension === 13 ? 'thirteenth-suspended-fourth' : 'ninth-suspended-fourth';
  if (extension >= 9) additions.push({ degree: 9, alter: 0 });
  if (extension === 13) additions.push({ degree: 13, alter: 0 });
  if (major) return second ? 'major-seventh-suspended-second' : 'major-seventh-suspended-fourth';
  return second ? 'seventh-suspended-second' : 'seventh-suspended-fourth';
}

function stackedKind(quality: Quality, extension: number | undefined, major: boolean, additions: Role[]): ChordKind {
  if (extension === undefined) return quality === 'half-diminished' ? 'half-diminished' : quality;
  if (extension === 6) {
    additions.push({ degree: 6, alter: 0 });
    return quality === 'half-diminished' ? 'half-diminished' : quality;
  }
  if (quality === 'diminished') {
    for (const degree of [9, 11, 13]) if (degree <= extension) additions.push({ degree, alter: 0 });
    return major ? 'diminished-major-seventh' : 'diminished-seventh';
  }
  const minor = quality === 'minor' || quality === 'half-diminished';
  if (minor && major) {
    for (const degree of [11, 13]) if (degree <= extension) additions.push({ degree, alter: 0 });
    return extension === 7 ? 'minor-major-seventh' : 'minor-major-ninth';
  }
  if (extension === 7) {
    if (quality === 'half-diminished') return 'half-diminished';
    if (quality === 'augmented' && !major) return 'augmented-seventh';
    return minor ? 'minor-seventh' : major ? 'major-seventh' : 'dominant';
  }
  const family = minor ? 'minor' : major ? 'major' : 'dominant';
  return extension === 9 ? `${family}-ninth` : extension === 11 ? `${family}-11th` : `${family}-13th`;
}

/** A name that leaves out what its chord does not have is a slip. */
function checkOmissions(parts: ChordParts, heard: Heard, suffix: string): Outcome<ChordParts> {
  const wanted = heard.omissions.length;
  const gone = new Set([...parts.omissions.map((role) => role.degree), ...(parts.kind === 'power' ? [3] : [])]);
  const idle = heard.omissions.find((role) => !gone.has(role.degree));
  if (wanted === 0 || (idle === undefined && rolesOfParts(parts).length > 0)) return { ok: true, value: parts };
  const message = 'This name leaves out a tone that the chord does not have.';
  return { ok: false, problem: { code: 'chord.nothing-left-out', message, span: { start: 0, end: suffix.length } } };
}

function unreadable(suffix: string, at: number): { readonly ok: false; readonly problem: Fault } {
  const rest = suffix.slice(at);
  const message = `No chord name goes on with "${rest}". Names look like Em, Cmaj7, F#m7b5, D(add9), G6/9, Asus4 or G/B.`;
  return { ok: false, problem: { code: 'chord.unreadable', message, span: { start: at, end: suffix.length } } };
}

function setQuality(heard: Heard, quality: Quality): boolean {
  if (heard.quality !== undefined) {
    // "m" behind "dim" or a second "m" is a slip; "+" behind a seventh is the raised fifth (C7+).
    return false;
  }
  heard.quality = quality;
  return true;
}

function setMajorSeventh(heard: Heard, triangle: boolean): boolean {
  if (heard.majorSeventh) return false;
  heard.majorSeventh = true;
  heard.triangle = triangle;
  return true;
}

function setExtension(heard: Heard, degree: number): boolean {
  if (heard.extension !== undefined) return heard.extension === degree && degree === 7;
  heard.extension = degree;
  return true;
}

function setAltered(heard: Heard): boolean {
  if (heard.quality !== undefined || heard.majorSeventh) return false;
  heard.altered = true;
  return true;
}

/** ♯4 is written for ♯11, ♭6 for ♭13, ♭2 for ♭9 and ♭10 for ♯9: the same tones, one spelling. */
function tensionOf(degree: number, alter: number): Role {
  if (degree === 10) return { degree: 9, alter: 1 };
  if (degree === 2 || degree === 4 || degree === 6) return { degree: degree + 7, alter };
  return { degree, alter };
}

function push(roles: Role[], role: Role): boolean {
  roles.push(role);
  return true;
}

function suspensionOf(digits: string): Suspension {
  return digits === '2' ? '2' : '4';
}

function degreeOf(text: string | undefined): number {
  return text === undefined || text.toLowerCase() === 'root' ? 1 : Number(text);
}

function alterOf(sign: string | undefined): number {
  if (sign === 'b' || sign === '♭') return -1;
  return sign === '#' || sign === '♯' ? 1 : 0;
}
