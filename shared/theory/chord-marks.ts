import type { Role } from './role.ts';

export type Quality = 'major' | 'minor' | 'diminished' | 'half-diminished' | 'augmented';
export type Suspension = '2' | '4' | '24';

/** What the marks behind the root have said so far. */
export interface Heard {
  quality?: Quality;
  /** `maj`, `M` or a triangle: the seventh, where one follows, is the major one. */
  majorSeventh: boolean;
  /** A triangle alone says the seventh. */
  triangle: boolean;
  /** `dom`: the flat seventh, also where no 7 follows. */
  dominant: boolean;
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

/** How "major" is written. `M` before an i or an a is the beginning of another word, but not in `Madd9`. */
const MAJOR = '(?:maj(?:or)?|MA(?:J(?:OR)?)?|Maj(?:or)?|[Mm]a(?![a-z])|M(?!i|I|A|a(?!dd))|[△Δ∆▵▲^])';
const TRIANGLE = /[△Δ∆▵▲^]/;
/** A minus: hyphen, minus sign, dashes. */
const MINUS = '[-−–‐‑]';
const BENT = '[b♭#♯]';

/** Every mark of a chord name that the reader knows. Source: common practice, no source. */
const MARKS: readonly Mark[] = [
  {
    pattern: /(?:omit|no)\s*((?:root|13|11|[13579])(?:rd|th|st)?(?:\s*[,&]\s*(?:root|13|11|[13579])(?:rd|th|st)?)*)/iy,
    hear: (heard, match) => {
      const named = (match[1] ?? '').match(/root|\d+/gi) ?? [];
      for (const degree of named) heard.omissions.push({ degree: degreeOf(degree), alter: 0 });
      return true;
    },
  },
  {
    pattern: /add\s*([b♭#♯+\-−–]?)\s*(13|11|10|9|6|4|3|2)(?:th|nd|rd)?/iy,
    hear: (heard, match) => push(heard.additions, { degree: addedDegree(match[2]), alter: alterOf(match[1]) }),
  },
  {
    pattern: new RegExp(`add\\s*${MAJOR}7`, 'y'),
    hear: (heard) => push(heard.additions, { degree: 7, alter: 0 }),
  },
  {
    pattern: /sus(?:pended)?\s*(2\s*[/,&]?\s*(?:sus)?\s*4|4\s*[/,&]?\s*(?:sus)?\s*2|4|2)?/iy,
    hear: (heard, match) => {
      const digits = (match[1] ?? '4').replace(/\D/g, '');
      const before = heard.suspension;
      heard.suspension =
        digits.length === 2 || (before !== undefined && before !== digits) ? '24' : suspensionOf(digits);
      return true;
    },
  },
  { pattern: /7?\s*alt(?:ered)?7?/iy, hear: (heard) => setExtension(heard, 7) && setAltered(heard) },
  // A fifth may be bent in words too: "7aug5", "7dim5"; so may a ninth over a seventh.
  {
    pattern: /(aug|dim)\s*(5|9|11|13)(?!\d)/iy,
    hear: (heard, match) => {
      if (heard.extension === undefined && !(match[2] === '5' && match[1]?.toLowerCase() === 'aug')) return false;
      const alter = match[1]?.toLowerCase() === 'aug' ? 1 : -1;
      return push(heard.alterations, { degree: degreeOf(match[2]), alter });
    },
  },
  {
    pattern: /h(?:alf)?[\s-]?dim(?:inished)?|h(?=$|[79(/]|11)|[øØ∅⌀]/iy,
    hear: (heard) => setQuality(heard, 'half-diminished'),
  },
  {
    pattern: /[dD](?:im|IM)(?:inished)?|[°º˚]|[oO](?=$|[^a-zA-Z]|M|maj|add)/y,
    hear: (heard) => setQuality(heard, 'diminished'),
  },
  // "m+7" and "m#7" raise the seventh of a minor chord.
  {
    pattern: /[+#♯]7/y,
    hear: (heard) => heard.quality === 'minor' && setMajorSeventh(heard) && setExtension(heard, 7),
  },
  { pattern: /aug(?:mented)?/iy, hear: (heard) => setAugmented(heard) },
  // A plus or minus before 5 bends the fifth; before 9, 11, 13 it bends them once a seventh or ninth is there, and is else the triad.
  {
    pattern: new RegExp(`(\\+|${MINUS})(5|9|11|13)|(\\+)(4)`, 'y'),
    hear: (heard, match, inBrackets) => {
      const [, sign = match[3], number = match[4]] = match;
      const known = heard.extension !== undefined || inBrackets;
      if (number !== '5' && !known) return false;
      return push(heard.alterations, tensionOf(degreeOf(number), alterOf(sign)));
    },
  },
  // Behind the number the sign bends it only where the number cannot be the chord's own: "7(9-)", "m7/5-", "5+".
  {
    pattern: new RegExp(`(\\/?)\\s*(5|9|11|13)(\\+|${MINUS})(?=[\\s,)/(]|$)`, 'y'),
    hear: (heard, match, inBrackets) => {
      const apart = inBrackets || match[1] === '/' || heard.extension !== undefined;
      if (match[2] !== '5' && !apart) return false;
      return push(heard.alterations, { degree: degreeOf(match[2]), alter: alterOf(match[3]) });
    },
  },
  { pattern: /\+/y, hear: (heard) => setAugmented(heard) },
  // "m9(maj7)" and "6(maj7)": the major seventh is told after the number.
  { pattern: new RegExp(`${MAJOR}\\s*7`, 'y'), hear: (heard) => setLateMajorSeventh(heard) },
  {
    pattern: new RegExp(MAJOR, 'y'),
    hear: (heard, match) => {
      // Behind the 7 of "7M" and "m7M" no further number may follow.
      const late = heard.extension !== undefined;
      if (late && /^\s*\d/.test(match.input.slice(match.index + match[0].length))) return false;
      return setMajorSeventh(heard) && setTriangle(heard, TRIANGLE.test(match[0]));
    },
  },
  // "m-maj7", "m/maj7" and "6/maj7": the sign only parts the two words.
  {
    pattern: new RegExp(`(?:\\/|${MINUS})\\s*(?=${MAJOR})`, 'y'),
    hear: (heard) => heard.quality === 'minor' || heard.extension === 6,
  },
  {
    pattern: new RegExp(`min(?:or)?|MIN(?:OR)?|Min(?:or)?|[Mm]i|MI|m|${MINUS}`, 'y'),
    hear: (heard) => setQuality(heard, 'minor'),
  },
  { pattern: /dom(?:inant)?/iy, hear: (heard) => setDominant(heard) },
  {
    pattern: new RegExp(`\\/?\\s*(${BENT})\\s*(13|11|10|9|6|5|4|2)`, 'y'),
    hear: (heard, match) => push(heard.alterations, tensionOf(degreeOf(match[2]), alterOf(match[1]))),
  },
  {
    pattern: /6\s*[/,]\s*9|69/y,
    hear: (heard) => setExtension(heard, 6) && push(heard.additions, { degree: 9, alter: 0 }),
  },
  {
    pattern: /6\s*\/?\s*7/y,
    hear: (heard) => setExtension(heard, 7) && push(heard.additions, { degree: 6, alter: 0 }),
  },
  // "9/6" is left to the reader of names that stand for two chords.
  {
    pattern: /\/\s*(13|11|9|6)/y,
    hear: (heard, match) =>
      !(heard.extension === 9 && match[1] === '6') && push(heard.additions, { degree: degreeOf(match[1]), alter: 0 }),
  },
  {
    pattern: /(13|11|9|7|6|5)(?:th)?/y,
    hear: (heard, match, inBrackets) => {
      const degree = degreeOf(match[1]);
      const further = heard.extension !== undefined || (inBrackets && degree > 7 && !heard.majorSeventh);
      if (!further) return setExtension(heard, degree);
      return degree === 5 || degree === 7 ? false : push(heard.additions, { degree, alter: 0 });
    },
  },
];

/** Reads one mark at `at` into `heard` and says where it ends; nothing where no mark stands there. */
export function hearMark(heard: Heard, suffix: string, at: number, inBrackets: boolean): number | undefined {
  for (const mark of MARKS) {
    // A sticky pattern tries this one place and carries nothing over to the next call.
    mark.pattern.lastIndex = at;
    const match = mark.pattern.exec(suffix);
    if (match !== null && match[0].length > 0 && mark.hear(heard, match, inBrackets)) return at + match[0].length;
  }
  return undefined;
}

/** The third is told first: "C7m" and "C7-" are left to the reader of slips, who asks what they mean. */
function setQuality(heard: Heard, quality: Quality): boolean {
  const begun =
    heard.quality !== undefined ||
    heard.majorSeventh ||
    heard.dominant ||
    heard.extension !== undefined ||
    heard.suspension !== undefined ||
    heard.alterations.length + heard.additions.length > 0;
  if (begun) return false;
  heard.quality = quality;
  return true;
}

/** The raised fifth may be told late (C7+), and over a minor third (Cm+). */
function setAugmented(heard: Heard): boolean {
  if (heard.quality === 'minor') return push(heard.alterations, { degree: 5, alter: 1 });
  if (heard.quality !== undefined) return false;
  heard.quality = 'augmented';
  return true;
}

function setMajorSeventh(heard: Heard): boolean {
  if (heard.majorSeventh || heard.dominant || heard.quality === 'half-diminished') return false;
  if (heard.extension !== undefined && heard.extension !== 7) return false;
  heard.majorSeventh = true;
  return true;
}

function setTriangle(heard: Heard, triangle: boolean): boolean {
  heard.triangle = triangle;
  return true;
}

function setLateMajorSeventh(heard: Heard): boolean {
  const { extension } = heard;
  // Only the diminished seventh leaves room for a second seventh beside it.
  if (extension === 7 && heard.quality === 'diminished') return push(heard.additions, { degree: 7, alter: 0 });
  if (extension === undefined || extension === 5 || extension === 7) return false;
  if (heard.majorSeventh || heard.dominant || heard.quality === 'half-diminished') return false;
  heard.majorSeventh = true;
  if (extension === 6) {
    heard.extension = 7;
    heard.additions.push({ degree: 6, alter: 0 });
  }
  return true;
}

function setDominant(heard: Heard): boolean {
  if (heard.quality !== undefined || heard.majorSeventh || heard.extension !== undefined) return false;
  heard.dominant = true;
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

/** The tenth is the third an octave up: where both are written, only the octave differs. */
function addedDegree(text: string | undefined): number {
  return text === '10' ? 3 : degreeOf(text);
}

function alterOf(sign: string | undefined): number {
  if (sign === undefined || sign === '') return 0;
  return /[#♯+]/.test(sign) ? 1 : -1;
}
