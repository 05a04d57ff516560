import { type Finger, fingerName } from '../../hand/finger.ts';
import type { Press } from '../../hand/fingering.ts';
import { type NeckInMm, neckInMm } from '../../hand/neck-in-mm.ts';
import { stringNumber } from '../../neck/shape.ts';
import { chordTones } from '../../theory/chord-symbol.ts';
import { pitchClass, printPitch } from '../../theory/note.ts';
import { roleOnTop } from '../describe.ts';
import { tellStrings } from '../family/why.ts';
import { atOnce } from '../in-steps.ts';
import { barTimes, headOfNote, tellBar } from './bar-times.ts';
import { type Candidate, candidatesFrom, leavesRinging, pointsOfPair } from './candidates.ts';
import type { GivenNote } from './given-notes.ts';
import { type ChordInHand, chordsInHand, holdGround, type TuneGround } from './ground.ts';
import { handLinks } from './hand-links.ts';
import { type OutsideWay, waysInside } from './inside-way.ts';
import { type NeckPlace, placesOf } from './neck-range.ts';
import { TICKS_OF_COUNT } from './rhythm.ts';
import type { ToneOver } from './scale.ts';
import { type Slot, slotsOf } from './slots.ts';
import type { TuneNote } from './tune.ts';
import { bestTunePath, type PathLink } from './tune-path.ts';
import { HAND_POINTS, PLACE_POINTS } from './tune-table.ts';
import { bestUncrossedPath, runsOf } from './uncrossed-path.ts';
import { waysOut, whyNotOnNeck } from './ways-out.ts';

export interface PlaceRequest extends TuneGround {
  /** In time order; one note at a time. */
  readonly notes: readonly GivenNote[];
}

/** A note that cannot be where it is wanted. */
export interface NoPlace {
  readonly note: GivenNote;
  readonly chord: string;
  /** Why, as a teacher would say it. */
  readonly message: string;
  /** What could be done instead, a sentence each. */
  readonly waysOut: readonly string[];
}

export type PlacedTune =
  | {
      readonly ok: true;
      /** How the chords are held. */
      readonly chords: readonly ChordInHand[];
      /** Those that have a place. */
      readonly notes: readonly TuneNote[];
      readonly nowhere: readonly NoPlace[];
      /** What a player should know: notes that leave the shape or lift a finger of it, and changes that are too quick. */
      readonly remarks: readonly string[];
    }
  /** A chord that cannot be held, or notes beyond the last bar. */
  | { readonly ok: false; readonly message: string };

/**
 * Puts a tune on the neck inside the shapes of its chords: with as few notes as can be for which the shape is left, then with as few
 * lifted fingers, then with the least effort. Exact: no other choice of strings and fingers does with less. Pitches decide, never the
 * order of the strings. No ringing string is stopped, and no fingers are crossed while that can be. What is too quick at the tempo is avoided where it can be, and told where not.
 */
export function placeTune(request: PlaceRequest): PlacedTune {
  const ground = holdGround(request);
  if (!ground.ok) return ground;
  const { bars, notes } = request;
  const beyond = notes.find(({ bar }) => bar >= bars.length);
  if (beyond !== undefined) {
    const has = bars.length === 1 ? 'one bar' : `${bars.length} bars`;
    return { ok: false, message: `The tune goes on in ${tellBar(bars, beyond.bar)}, but the progression has ${has}.` };
  }
  const rhythms = bars.map((_, at) => notes.filter(({ bar }) => bar === at).map(({ tick }) => tick));
  const slots = slotsOf(ground.stretches, rhythms, barTimes(request));
  const isAt =
    ({ bar, tick }: Slot) =>
    (note: GivenNote) =>
      note.bar === bar && note.tick === tick;
  const wanted = slots.flatMap((slot): readonly WantedNote[] => {
    const note = notes.find(isAt(slot));
    if (note === undefined) return [];
    return [{ slot, note, candidates: candidatesFor(request, slot.stretch.inHand, note) }];
  });
  const nowhere = notes.flatMap((note): readonly NoPlace[] => {
    const one = wanted.find((other) => other.note === note);
    if (one === undefined) return [withoutChord(note)];
    return one.candidates.length === 0 ? [noPlace(request, one)] : [];
  });
  const placeable = wanted.filter(({ candidates }) => candidates.length > 0);
  const { placed, quick } = chosen(request, neckInMm(request.instrument), placeable);
  return {
    ok: true,
    chords: chordsInHand(ground.stretches),
    notes: placed,
    nowhere,
    remarks: [...tellOutside(bars, placed), ...tellLifted(bars, placed), ...quick],
  };
}

interface WantedNote {
  readonly slot: Slot;
  readonly note: GivenNote;
  readonly candidates: readonly Candidate[];
}

function candidatesFor(ground: TuneGround, inHand: ChordInHand, note: GivenNote): readonly Candidate[] {
  const { instrument } = ground;
  const tone = toneOf(inHand, note);
  const waysAt = waysInside(inHand.held);
  const strings = instrument.openStrings.length;
  return placesOf(instrument, note.midi).flatMap((place): readonly Candidate[] => {
    const inside = waysAt(place.stringIndex, place.fret);
    const ways = [...inside, ...outsideWays(inHand, place)].filter((way) => leavesRinging(ground, way));
    const string = stringNumber(place.stringIndex, strings);
    const known = { ...place, string, midi: note.midi, pitch: note.pitch, tone };
    return ways.map((way) => ({ note: known, way }));
  });
}

function toneOf({ chord: { symbol } }: ChordInHand, { pitch, midi }: GivenNote): ToneOver {
  const own = chordTones(symbol).find(({ note }) => pitchClass(note) === midi % 12);
  if (own !== undefined) return { note: pitch, role: own.role, inChord: true };
  return { note: pitch, role: roleOnTop((midi - pitchClass(symbol.root) + 120) % 12), inChord: false };
}

const FINGERS: readonly Finger[] = [1, 2, 3, 4];

/** The hand lets the whole shape go and stops this note with any finger, or with none. */
function outsideWays({ held }: ChordInHand, { stringIndex, fret }: NeckPlace): readonly OutsideWay[] {
  const { shape } = held;
  const takes = shape.flatMap((own, at) => {
    const sounds = at === stringIndex ? fret : 0;
    return own !== 'muted' && own !== sounds ? [at] : [];
  });
  const way = { sort: 'outside', verdict: 'comfortable', effort: 0, takes } as const;
  if (fret === 0) return [{ ...way, presses: [] }];
  return FINGERS.map((finger): OutsideWay => {
    const press: Press = { finger, fret, from: stringIndex, to: stringIndex, sounding: 1 };
    return { ...way, finger, presses: [press] };
  });
}

function chosen(request: PlaceRequest, neck: NeckInMm, wanted: readonly WantedNote[]) {
  const layers = wanted.map(({ slot, candidates }) => ({
    points: Float64Array.from(candidates, ({ way }) => pointsOfWay(slot.stretch.inHand, way)),
  }));
  const hands = wanted.map(({ slot, candidates }) => candidatesFrom(slot.stretch.inHand, candidates));
  const slow: Uint8Array[] = [];
  const links = wanted.slice(1).map((one, at): PathLink => {
    const [from, to] = [hands[at], hands[at + 1]];
    const width = one.candidates.length;
    const rows = from?.list.length ?? 0;
    const points = new Float64Array(rows * width);
    const tooQuick = new Uint8Array(rows * width);
    const moves = from === undefined || to === undefined ? undefined : handLinks(neck, from.hands, to.hands);
    for (let row = 0; row < rows; row += 1) {
      const seconds = secondsFrom(request, wanted, at, from?.list[row]?.way.finger !== undefined);
      for (let column = 0; column < width; column += 1) {
        const change = (from?.handOf[row] ?? 0) * (to?.hands.hands.length ?? 0) + (to?.handOf[column] ?? 0);
        const quick = seconds !== undefined && (moves?.seconds[change] ?? 0) > seconds;
        tooQuick[row * width + column] = quick ? 1 : 0;
        const [before, after] = [from?.list[row], to?.list[column]];
        const pair = one.slot.isChange || before === undefined || after === undefined ? 0 : pointsOfPair(before, after);
        points[row * width + column] =
          pair + HAND_POINTS.changeEffort * (moves?.effort[change] ?? 0) + (quick ? PLACE_POINTS.tooQuick : 0);
      }
    }
    slow.push(tooQuick);
    const all = Uint16Array.from({ length: width }, (_, column) => column);
    const follows = Array.from({ length: rows }, () => all);
    return { points, trends: new Uint8Array(rows * width), follows, slope: 0, mayTurn: true };
  });
  const problem = { layers, links };
  const runs = runsOf(wanted.map(({ slot }) => slot.stretch.inHand.key));
  const candidates = wanted.map((one) => one.candidates);
  const uncrossed = atOnce(bestUncrossedPath({ problem, candidates, runs }));
  // Where ringing strings leave nothing else, fingers that cross are better than no tune.
  const picks = (uncrossed ?? bestTunePath(problem))?.picks ?? [];
  const placed = wanted.flatMap((one, at) => placedNote(one, picks[at]));
  const quick = wanted.slice(1).flatMap((one, at) => {
    const pair = (picks[at] ?? 0) * one.candidates.length + (picks[at + 1] ?? 0);
    return slow[at]?.[pair] === 1 ? [tellQuick(request, one)] : [];
  });
  return { placed, quick };
}

/** From the note at `at` to the next, or from the one before it where it is open and needs no finger. Unit: s. */
function secondsFrom(
  { secondsPerCount }: TuneGround,
  wanted: readonly WantedNote[],
  at: number,
  stopped: boolean,
): number | undefined {
  const [from, to] = [wanted[stopped ? at : Math.max(0, at - 1)], wanted[at + 1]];
  if (secondsPerCount === undefined || from === undefined || to === undefined) return undefined;
  return ((to.slot.onset - from.slot.onset) * secondsPerCount) / TICKS_OF_COUNT;
}

function pointsOfWay({ held }: ChordInHand, way: Candidate['way']): number {
  const effort = Math.max(0, way.effort - held.fingering.cost.total);
  const stretched = way.verdict === 'stretched' && held.fingering.verdict !== 'stretched' ? PLACE_POINTS.stretched : 0;
  const sorts = { own: 0, open: 0, free: PLACE_POINTS.free, flat: PLACE_POINTS.flat, lifted: PLACE_POINTS.lifted };
  const sort = way.sort === 'outside' ? PLACE_POINTS.outside : sorts[way.sort];
  return HAND_POINTS.holdEffort * effort + stretched + sort;
}

function placedNote({ slot, candidates }: WantedNote, pick: number | undefined): readonly TuneNote[] {
  const candidate = candidates[pick ?? -1];
  if (candidate === undefined) return [];
  const { bar, tick, length, stretch } = slot;
  return [{ ...candidate.note, bar, tick, length, chord: stretch.inHand.chord, way: candidate.way }];
}

/** A tune inside shapes rests where no chord is played. */
function withoutChord(note: GivenNote): NoPlace {
  const message = `No chord is played there, so there is no shape to have ${printPitch(note.pitch)} inside.`;
  return { note, chord: NO_CHORD, message, waysOut: ['Write a chord there, or let the tune rest.'] };
}

const NO_CHORD = 'NC';

function noPlace(request: PlaceRequest, { slot, note }: WantedNote): NoPlace {
  const { instrument, scale, notes, ring = [] } = request;
  const chord = slot.stretch.inHand.chord.name;
  if (placesOf(instrument, note.midi).length === 0) {
    const message = whyNotOnNeck(instrument, note);
    return { note, chord, message, waysOut: waysOut(instrument, scale, note, notes) };
  }
  const without = (string: number) => ({ ...request, ring: ring.filter((other) => other !== string) });
  const one = ring.find((string) => candidatesFor(without(string), slot.stretch.inHand, note).length > 0);
  const strings = tellStrings(one === undefined ? ring : [one]);
  const which = ring.length === 1 ? `${strings}, which must` : 'a string that must';
  const message = `Wherever ${printPitch(note.pitch)} is played over ${chord}, it stops ${which} ring.`;
  return { note, chord, message, waysOut: [`Let ${strings} stop for this note.`] };
}

function tellOutside(bars: TuneGround['bars'], notes: readonly TuneNote[]): readonly string[] {
  return notes.flatMap(({ way, chord, pitch, bar, tick, string, fret }) =>
    way.sort === 'outside'
      ? [
          `${headOfNote(bars, { bar, tick })}: the hand leaves ${chord.name} for ${printPitch(pitch)} at ${string}:${fret}.`,
        ]
      : [],
  );
}

/** Each place over a chord once, where it first comes. */
function tellLifted(bars: TuneGround['bars'], notes: readonly TuneNote[]): readonly string[] {
  const told = new Map<string, string>();
  for (const { way, chord, pitch, bar, tick, string, fret } of notes) {
    if (way.sort !== 'lifted' || way.lifted === undefined) continue;
    const what = `${printPitch(pitch)} at ${string}:${fret} lifts the ${fingerName(way.lifted)} of ${chord.name}.`;
    if (!told.has(what)) told.set(what, `${headOfNote(bars, { bar, tick })}: ${what}`);
  }
  return [...told.values()];
}

function tellQuick({ bars }: TuneGround, { slot, note }: WantedNote): string {
  return `${headOfNote(bars, slot)}: the fingers are hardly in time for ${printPitch(note.pitch)} at this tempo.`;
}
