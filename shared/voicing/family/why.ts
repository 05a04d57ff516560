import { printShape, stringNumber } from '../../neck/shape.ts';
import { listed } from '../../text/counted.ts';
import { printChordSymbol } from '../../theory/chord-symbol.ts';
import { FAMILY_POINTS } from './family-table.ts';
import { outlineDifference } from './outline.ts';
import type { FamilyChord } from './request.ts';

/**
 * What holds a family together, in one line: `same outline in 5 of 8 chords, strings 1 and 2 open throughout, moves down the neck
 * from 7 to 2`.
 */
export function tellWhy(chords: readonly FamilyChord[]): string {
  return [tellOutline(chords), tellOpen(chords), tellWay(chords), tellThirds(chords)]
    .filter((part) => part !== '')
    .join(', ');
}

/** Chords that come again share their outline with themselves, which is nothing to tell. */
function tellOutline(chords: readonly FamilyChord[]): string {
  const groups = new Map<string, FamilyChord[]>();
  for (const one of chords) {
    if (one.place === undefined) continue;
    const key = printShape(one.outline);
    groups.set(key, [...(groups.get(key) ?? []), one]);
  }
  const shared = [...groups.values()].filter((group) => new Set(group.map(nameOf)).size > 1);
  const largest = shared.sort((one, other) => other.length - one.length)[0];
  if (largest === undefined) return tellChanges(chords);
  if (largest.length === chords.length) return `same outline in all ${chords.length} chords`;
  return `same outline in ${largest.length} of ${chords.length} chords`;
}

/** Where no outline comes twice, neighbours may still be all but alike. */
function tellChanges(chords: readonly FamilyChord[]): string {
  const changes = chords.flatMap((here, at) => {
    const before = chords[at - 1];
    return before === undefined || nameOf(before) === nameOf(here) ? [] : [outlineDifference(before.shape, here.shape)];
  });
  const small = changes.filter((points) => points <= FAMILY_POINTS.stringDiffers).length;
  if (small === 0) return 'no two outlines alike';
  return small === changes.length
    ? 'one finger differs from each chord to the next'
    : `one finger differs in ${small} of ${changes.length} changes`;
}

function nameOf({ chord }: FamilyChord): string {
  return printChordSymbol(chord);
}

function tellOpen(chords: readonly FamilyChord[]): string {
  const strings = chords[0]?.shape.length ?? 0;
  const open: number[] = [];
  for (let at = strings - 1; at >= 0; at -= 1) {
    if (chords.every(({ shape }) => shape[at] === 0)) open.push(stringNumber(at, strings));
  }
  return open.length === 0 ? '' : `${tellStrings(open)} open throughout`;
}

/** `string 1`, `strings 1, 2 and 4` */
export function tellStrings(numbers: readonly number[]): string {
  return `${numbers.length === 1 ? 'string' : 'strings'} ${listed(numbers.map(String))}`;
}

function tellWay(chords: readonly FamilyChord[]): string {
  const places = chords.flatMap(({ place }) => place ?? []);
  const [first] = places;
  const last = places.at(-1);
  if (first === undefined || last === undefined) return 'all strings open';
  const [lowest, highest] = [Math.min(...places), Math.max(...places)];
  if (lowest === highest) return `stays at fret ${lowest}`;
  const never = (wrong: (before: number, here: number) => boolean) =>
    places.every((place, at) => at === 0 || !wrong(places[at - 1] ?? place, place));
  if (never((before, here) => here > before)) return `moves down the neck from ${first} to ${last}`;
  if (never((before, here) => here < before)) return `moves up the neck from ${first} to ${last}`;
  return `moves between frets ${lowest} and ${highest}`;
}

/** The third says whether a chord is major or minor: where it is missing, that is told. */
function tellThirds(chords: readonly FamilyChord[]): string {
  const without = chords.filter(({ omits }) => omits.some(({ degree }) => degree === 3)).map(nameOf);
  return without.length === 0 ? '' : `no third in ${listed([...new Set(without)])}`;
}
