import type { Technique } from '../lesson/syntax/marks.ts';
import { compare, type Rational } from '../theory/rational.ts';
import { group, type Item } from './drawing.ts';
import type { Piece, Staff } from './tab-piece.ts';
import type { PlacedBar } from './tab-spans.ts';
import { ROOM_FOR_BOW_MM, slur } from './tab-technique.ts';

/** How far a bow reaches over the room of the figures at its ends, and how long it is where nothing stands before it. Unit: mm. */
const OVER_ROOM_MM = 0.5;
const ALONE_MM = 2.6;

/** Ways to go on from the note before without a stroke; a slide has a line of its own, and a harmonic is plucked. */
const BOWED: ReadonlySet<Technique['kind']> = new Set(['hammer-on', 'pull-off', 'vibrato', 'bend', 'trill']);

/**
 * Bows to notes of a bar that a finger of the fretting hand sounds, or keeps on, in a column of their own: from what stands before them
 * to the note. They can be drawn when the moments have their places.
 */
export function slursInBar(bar: PlacedBar, staffTop: number, staff: Staff): readonly Item[] {
  const items: Item[] = [];
  for (const event of bar.ready.bar.events) {
    if (event.kind !== 'notes') continue;
    for (const { arrivesBy, string } of event.notes) {
      if (arrivesBy === undefined || !BOWED.has(arrivesBy)) continue;
      const slot = slotAt(bar, event.at);
      if (slot === undefined) continue;
      const to = bar.at(slot) - (roomOf(bar, slot, string)?.left ?? 0) + ROOM_FOR_BOW_MM + OVER_ROOM_MM;
      const from = startOf(bar, slot, string) ?? Math.max(bar.left + OVER_ROOM_MM, to - ALONE_MM);
      items.push(group(0, staffTop, [slur(Math.min(from, to - ALONE_MM / 2), to, staff.y(string))]));
    }
  }
  return items;
}

function slotAt({ ready }: PlacedBar, at: Rational): number | undefined {
  return ready.moments.find((moment) => compare(moment.at, at) === 0)?.slot;
}

/** Where the nearest thing before a slot ends that a bow over this string cannot pass; undefined where the bar has none. */
function startOf(bar: PlacedBar, slot: number, string: number): number | undefined {
  const first = bar.ready.moments[0]?.slot ?? 0;
  for (let before = slot - 1; before >= first; before--) {
    const room = roomOf(bar, before, string);
    if (room !== undefined) return bar.at(before) + room.right - OVER_ROOM_MM;
  }
  return undefined;
}

/** What stands at a slot on a string or on the one drawn above it, or over all of them; undefined where a bow can pass. */
function roomOf({ ready }: PlacedBar, slot: number, string: number): Pick<Piece, 'left' | 'right'> | undefined {
  const pieces =
    ready.slots[slot]?.pieces.filter(
      ({ row, openings }) =>
        row === 'staff' &&
        (openings === undefined || openings.some((one) => one.string === string || one.string === string - 1)),
    ) ?? [];
  if (pieces.length === 0) return undefined;
  return { left: Math.max(...pieces.map(({ left }) => left)), right: Math.max(...pieces.map(({ right }) => right)) };
}
