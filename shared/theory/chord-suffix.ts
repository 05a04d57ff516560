import type { Fault, Outcome } from '../text/problem.ts';
import type { ChordKind } from './chord-kinds.ts';
import type { Heard, Quality, Suspension } from './chord-marks.ts';
import { hearMark } from './chord-marks.ts';
import type { ChordParts } from './chord-parts.ts';
import { canonicalParts, rolesOfParts } from './chord-parts.ts';
import type { Role } from './role.ts';

/**
 * Reads what stands between the root and the bass: `m7b5`, `(add9)`, `6/9`. Blanks between the marks mean nothing; commas part
 * them. Spans count from the start of `suffix`.
 */
export function readSuffix(suffix: string): Outcome<ChordParts> {
  const heard = nothingHeard();
  const brackets: number[] = [];
  let at = 0;
  while (at < suffix.length) {
    const character = suffix.charAt(at);
    const behind = suffix.slice(0, at).trimEnd();
    if (character === '(') brackets.push(at);
    if (character === ')' && (behind.endsWith('(') || brackets.pop() === undefined))
      return unreadable(suffix, at, at + 1);
    // A comma stands between two marks, never at an end.
    if (character === ',' && (/^$|[(,]$/.test(behind) || /^[\s),]*$/.test(suffix.slice(at)))) {
      return unreadable(suffix, at, at + 1);
    }
    if (/[(),\s]/.test(character)) {
      at += 1;
      continue;
    }
    // A figure that touches the one before it is a slip of the finger: "add99", "711".
    const touches = /\d/.test(suffix.charAt(at)) && /\d/.test(suffix.charAt(at - 1));
    const next = touches ? undefined : hearMark(heard, suffix, at, brackets.length > 0);
    if (next === undefined) return unreadable(suffix, at, endOfSlip(suffix, at));
    at = next;
  }
  const open = brackets[0];
  if (open !== undefined) {
    const message = 'The bracket in this chord name is not closed.';
    const span = { start: open, end: suffix.length };
    return { ok: false, problem: { code: 'chord.open-bracket', message, span, instead: `${suffix})` } };
  }
  const parts = partsOf(heard);
  return parts === undefined ? unreadable(suffix, 0, suffix.length) : checkOmissions(parts, heard, suffix);
}

function nothingHeard(): Heard {
  return {
    majorSeventh: false,
    triangle: false,
    dominant: false,
    altered: false,
    alterations: [],
    additions: [],
    omissions: [],
  };
}

/** Where the reader finds its feet again behind what it cannot read: the nearest place from which all the rest is marks. */
function endOfSlip(suffix: string, start: number): number {
  for (let end = start + 1; end < suffix.length; end += 1) {
    const heard = nothingHeard();
    let at: number | undefined = end;
    while (at !== undefined && at < suffix.length) {
      at = /[(),\s]/.test(suffix.charAt(at)) ? at + 1 : hearMark(heard, suffix, at, true);
    }
    if (at !== undefined) return end;
  }
  return suffix.length;
}

function partsOf(heard: Heard): ChordParts | undefined {
  const quality = heard.quality ?? 'major';
  const understood = heard.triangle || heard.dominant || quality === 'half-diminished';
  const extension = heard.extension ?? (understood ? 7 : undefined);
  if (contradicts(heard, extension)) return undefined;
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
  }
  if (quality === 'augmented' && extension === 7 && heard.majorSeventh) alterations.push({ degree: 5, alter: 1 });
  return canonicalParts({ kind, alterations, additions, omissions: heard.omissions });
}

/** A fourth or second in the third's place leaves no minor third, and "major" beside another triad speaks of a seventh that is not there. */
function contradicts(heard: Heard, extension: number | undefined): boolean {
  const { quality, suspension, majorSeventh } = heard;
  if (suspension !== undefined && quality !== undefined && quality !== 'augmented') return true;
  if (quality === 'half-diminished' && extension === 6) return true;
  const seventh = extension !== undefined && extension >= 7;
  return majorSeventh && !seventh && (quality !== undefined || suspension !== undefined);
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

/** A name that leaves out what its chord does not have is a slip, and so is one that leaves out everything. */
function checkOmissions(parts: ChordParts, heard: Heard, suffix: string): Outcome<ChordParts> {
  if (heard.omissions.length === 0) return { ok: true, value: parts };
  const whole = partsOf({ ...heard, omissions: [] });
  const tones = whole === undefined ? [] : rolesOfParts(whole);
  const idle = heard.omissions.some((omitted) => !tones.some((role) => role.degree === omitted.degree));
  if (!idle && rolesOfParts(parts).length > 0) return { ok: true, value: parts };
  const message = 'This name leaves out a tone that the chord does not have.';
  return { ok: false, problem: { code: 'chord.nothing-left-out', message, span: { start: 0, end: suffix.length } } };
}

function unreadable(suffix: string, start: number, end: number): { readonly ok: false; readonly problem: Fault } {
  const wrong = suffix.slice(start, end);
  const message = `No chord name goes on with "${wrong}". Names look like Em, Cmaj7, F#m7b5, D(add9), G6/9, Asus4 or G/B.`;
  return { ok: false, problem: { code: 'chord.unreadable', message, span: { start, end } } };
}
