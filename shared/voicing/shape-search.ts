import type { Fret, Shape } from '../neck/shape.ts';
import type { Note, Pitch } from '../theory/note.ts';
import { midiNumber, pitchClass } from '../theory/note.ts';
import { rolePitchClass } from '../theory/role.ts';
import { atOnce, type InSteps } from './in-steps.ts';
import type { BestShapes } from './shape-code.ts';
import { bestOf, bestShapes, encodeShape, offer } from './shape-code.ts';
import { holdingEffort, leastEffort } from './shape-effort.ts';
import { fewestSounding, MOST_FINGERS } from './shape-limits.ts';
import type { PartialShape } from './shape-partial.ts';
import { addMuted, addSounding, nothingYet } from './shape-partial.ts';
import type { ChordTones } from './shape-tones.ts';
import { costOfClash, costOfOneRoot, costOfTones, costOfTwice, NOT_THE_CHORD, toneOf } from './shape-tones.ts';
import type { TuningIndex } from './shape-tuning.ts';
import type { StringChoice, Window } from './shape-window.ts';
import { choicesOf, lowestOf, placesOf, windowAt } from './shape-window.ts';
import type { ShapeWishes } from './shape-wishes.ts';
import { USUAL_MAX } from './shape-wishes.ts';

/** What each finger costs that is not where it was in the shape before. Unit: points, as of effort. Common practice, no source. */
const FINGER_MOVED = 8;

/** All of a question that does not change while it is answered, and what the walk fills again and again. */
interface Search {
  readonly index: TuningIndex;
  readonly tones: ChordTones;
  readonly strings: readonly StringChoice[];
  readonly fewestSounding: number;
  readonly near: Shape | undefined;
  readonly accepts: (lowestMidi: number, highestMidi: number) => boolean;
  readonly best: BestShapes;
  readonly frets: Fret[];
  /** What is known before each string gets its fret, and behind the last. */
  readonly partials: readonly PartialShape[];
}

/**
 * The shapes of a chord on a tuning, best first, as packed numbers.
 *
 * One walk over the strings for each window of five frets. Before a string gets its fret it is settled whether the tones can still
 * become the chord, whether the fingers are still enough, and whether the shape can still be among the best: with 24 wanted, most
 * of the neck is never walked. An index of every shape by the tones it sounds was measured against it: 17 thousand shapes on four
 * strings and 0.9 million on six, made in the time of hundreds and of thousands of such walks. So of a tuning only its strings and
 * what its neck asks of the hand are kept.
 */
export function searchShapes(index: TuningIndex, tones: ChordTones, wishes: ShapeWishes): Float64Array {
  return atOnce(shapesInSteps(index, tones, wishes));
}

/** The same, cut into steps. */
export function* shapesInSteps(index: TuningIndex, tones: ChordTones, wishes: ShapeWishes): InSteps<Float64Array> {
  const strings = choicesOf(index, tones, wishes);
  const wishedStrings = [...(wishes.ringOpen ?? []), ...(wishes.sounding ?? [])];
  if (wishedStrings.some((number) => number < 1 || number > strings.length)) return new Float64Array();
  const search: Search = {
    index,
    tones,
    strings,
    fewestSounding: fewestSounding(tones.roles.length),
    near: wishes.near,
    accepts: acceptor(tones, wishes),
    best: bestShapes(wishes.max ?? USUAL_MAX),
    frets: strings.map(() => 'muted'),
    partials: Array.from({ length: strings.length + 1 }, nothingYet),
  };
  for (const place of placesOf(index, wishes.near)) {
    if (place.least > search.best.limit) break;
    walk(search, windowAt(strings, tones, place), 0);
    yield;
  }
  return bestOf(search.best);
}

/** Gives the next string each of its choices in turn. */
function walk(search: Search, window: Window, at: number): void {
  const { frets, strings, partials, tones } = search;
  const here = partials[at];
  const next = partials[at + 1];
  const string = strings[at];
  if (here === undefined || !isPromising(search, window, here, at)) return;
  if (next === undefined || string === undefined) {
    keep(search, window, here);
    return;
  }
  const { openMidi } = string;
  if (string.open) {
    addSounding(here, next, tones.silence, openMidi, toneOf(tones, openMidi));
    next.across = 0;
    frets[at] = 0;
    walk(search, window, at + 1);
  }
  for (let rest = window.stopped[at] ?? 0; rest !== 0; rest &= rest - 1) {
    const fret = lowestOf(rest);
    const bit = 1 << fret;
    const joined = (here.across & bit) !== 0;
    if (!joined && here.fingers === MOST_FINGERS) continue;
    addSounding(here, next, tones.silence, openMidi + fret, toneOf(tones, openMidi + fret));
    if (!joined) next.fingers += 1;
    if (fret > next.highFret) next.highFret = fret;
    if (fret === window.low) next.anchored = true;
    // A finger at a higher fret would sound that fret on this string too.
    next.across = (here.across & (bit - 1)) | bit;
    frets[at] = fret;
    walk(search, window, at + 1);
  }
  if (string.muted) {
    addMuted(here, next, tones.silence);
    frets[at] = 'muted';
    walk(search, window, at + 1);
  }
}

/** False when nothing can come of a beginning, whatever the strings from `at` on do. */
function isPromising(search: Search, window: Window, here: PartialShape, at: number): boolean {
  const { strings, tones, index, best } = search;
  if (here.sounding + strings.length - at < search.fewestSounding) return false;
  if (!here.anchored && window.low > 0 && window.anchors[at] !== true) return false;
  // More tones than these cannot sound any more, and the fewer are missing the less it costs.
  const withoutTones = costOfTones(tones, (here.heard | (window.reachable[at] ?? 0)) & ~tones.addedMask);
  if (withoutTones === NOT_THE_CHORD) return false;
  const effort = leastEffort(index.neck, window.low, here.highFret, here.fingers);
  // Nothing sounds below an open string: when the bass is lower than all that are ahead, it stays the bass.
  const bass = here.lowestMidi <= (index.lowestAhead[at] ?? 127) ? bassCost(tones, here) : 0;
  const least =
    window.shift +
    withoutTones +
    here.silence +
    costOfTwice(tones, here.twice) +
    costOfClash(tones, here.heard) +
    bass +
    effort;
  return least <= best.limit;
}

function keep(search: Search, window: Window, whole: PartialShape): void {
  const { frets, tones, best, near, index } = search;
  const tonesCost = costOfTones(tones, whole.heard);
  if (tonesCost === NOT_THE_CHORD || !search.accepts(whole.lowestMidi, whole.highestMidi)) return;
  const moved = near === undefined ? 0 : window.shift + FINGER_MOVED * fingersMoved(frets, near);
  const doubled = costOfTwice(tones, whole.twice) + costOfOneRoot(tones, whole.twice);
  const sound = tonesCost + costOfClash(tones, whole.heard) + doubled + bassCost(tones, whole) + whole.silence;
  const cost = sound + moved + holdingEffort(index.neck, frets);
  if (cost <= best.limit) offer(best, encodeShape(frets, cost));
}

function bassCost(tones: ChordTones, { lowestMidi }: PartialShape): number {
  return tones.bassCost[(lowestMidi - tones.root + 120) % 12] ?? 0;
}

function acceptor({ root }: ChordTones, { top, bass }: ShapeWishes): Search['accepts'] {
  const lowest = bass === undefined ? undefined : (root + rolePitchClass(bass)) % 12;
  const isTop = top === undefined ? () => true : acceptsTop(top);
  return (lowestMidi, highestMidi) => (lowest === undefined || lowestMidi % 12 === lowest) && isTop(highestMidi);
}

function acceptsTop(top: Note | Pitch): (midi: number) => boolean {
  if ('octave' in top) {
    const wanted = midiNumber(top);
    return (midi) => midi === wanted;
  }
  const wanted = pitchClass(top);
  return (midi) => midi % 12 === wanted;
}

function fingersMoved(shape: Shape, near: Shape): number {
  return shape.reduce<number>(
    (moved, fret, at) => (fret === 'muted' || fret === 0 || fret === near[at] ? moved : moved + 1),
    0,
  );
}
