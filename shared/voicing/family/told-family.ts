import { fingersOfSequence } from '../../hand/kept-fingerings.ts';
import type { FingeredSequence } from '../../hand/sequence.ts';
import type { AskedFamily } from './asked-family.ts';
import type { Candidate } from './candidates.ts';
import { FAMILY_POINTS } from './family-table.ts';
import { familyName } from './names.ts';
import { costBetween, directionOf } from './neighbours.ts';
import { outlineOf } from './outline.ts';
import type { Family, FamilyChord, FamilyCost } from './request.ts';
import { tellWhy } from './why.ts';

/** A family as it is told: the shape of each chord of the progression with its name and fingers, and what all of it costs. */
export function toldFamily(asked: AskedFamily, line: readonly Candidate[]): Family {
  const fingered = fingeredAlike(asked, line);
  const chords = line.flatMap((candidate, at): readonly FamilyChord[] => {
    const named = namedAt(asked, candidate, at);
    if (named === undefined) return [];
    const fingers = fingered.chords[at];
    return [
      {
        ...named,
        shape: candidate.shape,
        ...(fingers?.kind === 'held' ? { fingering: fingers.fingering } : {}),
        adds: candidate.fit.adds,
        omits: candidate.fit.omits,
        outline: outlineOf(candidate.shape),
        ...(candidate.place === undefined ? {} : { place: candidate.place }),
      },
    ];
  });
  return { chords, cost: costOf(asked, line), why: tellWhy(chords), fingered };
}

/** The fingers of the whole, each chord always with the same: as they come out best where it first comes. */
function fingeredAlike({ request, held, limits, chordOf }: AskedFamily, line: readonly Candidate[]): FingeredSequence {
  const { secondsPerChord: seconds } = request;
  const sequence = line.map(({ shape }) => ({ shape, ...(seconds === undefined ? {} : { seconds }) }));
  const free = fingersOfSequence(held, sequence, limits.hand, false);
  if (new Set(chordOf).size === chordOf.length) return free;
  const kept = sequence.map((chord, at) => {
    const first = free.chords[chordOf.indexOf(chordOf[at] ?? 0)];
    return first?.kind === 'held' ? { ...chord, given: first.fingering.fingers.map((finger) => finger ?? 0) } : chord;
  });
  return fingersOfSequence(held, kept, limits.hand, false);
}

function namedAt(
  { request, held }: AskedFamily,
  { shape }: Candidate,
  at: number,
): Pick<FamilyChord, 'chord' | 'as' | 'also'> | undefined {
  const { chords, key } = request;
  const chord = chords[at];
  if (chord === undefined) return undefined;
  const [previous, next] = [chords[at - 1], chords[at + 1]];
  const context = {
    ...(key === undefined ? {} : { key }),
    ...(previous === undefined ? {} : { previous }),
    ...(next === undefined ? {} : { next }),
  };
  return { chord, ...familyName(held, shape, chord, context) };
}

/** The cost of a family in its parts: the same as the search reckons with, added up once more. */
function costOf({ neck, chordOf }: AskedFamily, line: readonly Candidate[]): FamilyCost {
  const parts = { outline: 0, way: 0, change: 0, top: 0, harmony: 0, hold: 0 };
  let heading = 0;
  for (const [at, here] of line.entries()) {
    parts.harmony += here.harmony;
    parts.hold += here.hold;
    const before = line[at - 1];
    if (before === undefined || chordOf[at - 1] === chordOf[at]) continue;
    const step = costBetween(neck, before, here);
    parts.outline += step.outline;
    parts.way += step.way;
    parts.change += step.change;
    parts.top += step.top;
    const direction = directionOf(before, here);
    if (direction !== 0 && heading !== 0 && direction !== heading) parts.way += FAMILY_POINTS.turn;
    if (direction !== 0) heading = direction;
  }
  const total = Object.values(parts).reduce((sum, part) => sum + part);
  return { ...parts, total };
}
