import type { Finger } from '../../hand/finger.ts';
import type { Fingering, Press } from '../../hand/fingering.ts';
import { fingeringsOf } from '../../hand/fingering-search.ts';
import { type HandSize, handModel, type ReachLimit } from '../../hand/hand.ts';
import { type HandModel, pairLimit } from '../../hand/hand-model.ts';
import { judgeMm, type ReachVerdict } from '../../hand/reach.ts';
import { fingertipMm } from '../../neck/fingertip.ts';
import type { Instrument } from '../../neck/instrument.ts';
import type { Fret, Shape } from '../../neck/shape.ts';

/** A shape in the hand, with its fingers. */
export interface HandOnShape {
  /** What the hand holds counts from its nut; a capo is the nut (see `neckAboveCapo`). */
  readonly instrument: Instrument;
  readonly hand: HandSize;
  readonly shape: Shape;
  readonly fingering: Fingering;
}

/**
 * How a note is had inside a shape. `own`: the shape sounds it. `open`: a string that the shape leaves silent, and nothing stops.
 * `free`: a finger that has nothing else to do. `flat`: a finger of the shape, laid over this string as well. `lifted`: one finger of
 * the shape gives up its strings; the same or another stops the note, or none where it is open.
 */
export type InsideSort = 'own' | 'open' | 'free' | 'flat' | 'lifted';

export interface InsideWay {
  readonly sort: InsideSort;
  /** What stops the note; absent where the string is open. */
  readonly finger?: Finger;
  /** The finger that gives up its strings. */
  readonly lifted?: Finger;
  /** All that the fingers hold down meanwhile. */
  readonly presses: readonly Press[];
  readonly verdict: Exclude<ReachVerdict, 'out-of-reach'>;
  /** What it is to hold it so. Unit: effort. */
  readonly effort: number;
  /** Strings, as places in chart order, that do not sound what the shape sounds. */
  readonly takes: readonly number[];
}

/** The shape is left for a note; it is stopped by this finger alone, or by none. */
export interface OutsideWay extends Omit<InsideWay, 'sort' | 'lifted'> {
  readonly sort: 'outside';
}

/**
 * Asks for every way of the best sort to have the note of a string and fret while the shape is held, least effort first; none where
 * there is none. Ways that lift a finger are only given where nothing that keeps the shape is at ease, and those of them that are a
 * stretch where there is nothing else at all.
 *
 * Exact by the hand's own search: the shape with the note in it is fingered anew, and those ways count in which every other string
 * keeps its finger. A finger on the note's own string stays down behind the note.
 */
export function waysInside(held: HandOnShape): (stringIndex: number, fret: number) => readonly InsideWay[] {
  const model = handModel(held.hand);
  const greatestMm = Math.max(...model.limits.flat().map((limit: ReachLimit | undefined) => limit?.greatestMm ?? 0));
  const search = { ...held, model, greatestMm };
  const { shape, fingering } = held;
  return (stringIndex, fret) => {
    if (shape[stringIndex] === fret && fingering.verdict !== 'out-of-reach') {
      const finger = fingering.fingers[stringIndex];
      const own = { presses: fingering.presses, verdict: fingering.verdict, effort: fingering.cost.total, takes: [] };
      return [{ sort: 'own', ...own, ...(finger === undefined ? {} : { finger }) }];
    }
    const kept = waysKeeping(search, stringIndex, fret, undefined);
    if (kept.some(isAtEase)) return kept.sort(byEffort);
    const lifting = fingering.presses.flatMap(({ finger }) => waysKeeping(search, stringIndex, fret, finger));
    const easy = lifting.filter(isAtEase);
    if (easy.length > 0) return [...kept.sort(byEffort), ...easy.sort(byEffort)];
    return (kept.length > 0 ? kept : lifting).sort(byEffort);
  };
}

/** What stays the same while one shape is asked about. */
interface InsideSearch extends HandOnShape {
  readonly model: HandModel;
  /** What any two fingers of the hand have at most. Unit: mm. */
  readonly greatestMm: number;
}

/** Ways in which all fingers but the lifted one keep their strings. */
function waysKeeping(search: InsideSearch, stringIndex: number, fret: number, lifted: Finger | undefined): InsideWay[] {
  if (!isNear(search, lifted, fret)) return [];
  const { instrument, hand, shape, fingering, model } = search;
  const behind = fingering.presses.find(({ finger }) => finger === fingering.fingers[stringIndex]);
  const stays = behind !== undefined && behind.finger !== lifted;
  const stopped = shape[stringIndex];
  // A string that a finger stops sounds nothing lower while that finger stays.
  if (stays && fret <= behind.fret) return [];
  if (typeof stopped === 'number' && fret < stopped && fingering.fingers[stringIndex] !== lifted) return [];
  const letGo = (at: number) => lifted !== undefined && fingering.fingers[at] === lifted;
  const sounding = shape.map((own, at): Fret => (at === stringIndex ? fret : letGo(at) ? 'muted' : own));
  const takes = shape.flatMap((own, at) => (own !== 'muted' && sounding[at] !== own ? [at] : []));
  const thumb = fingering.presses.some(({ finger }) => finger === 'T');
  return fingeringsOf(instrument, sounding, hand, { thumb }).flatMap((way): readonly InsideWay[] => {
    if (way.verdict === 'out-of-reach') return [];
    const keeps = way.fingers.every(
      (finger, at) => at === stringIndex || letGo(at) || finger === fingering.fingers[at],
    );
    if (!keeps) return [];
    const finger = way.fingers[stringIndex];
    const sort = sortOf(fingering, finger, fret, lifted);
    if (sort === undefined) return [];
    const free = { sort, effort: way.cost.total, takes, ...(lifted === undefined ? {} : { lifted }) };
    const stopping = finger === undefined ? free : { ...free, finger };
    if (!stays || way.presses.some((press) => press.finger === behind.finger)) {
      // The finger behind may hold other strings besides; then it is among the presses already.
      if (stays && behind.finger === finger) return [];
      return [{ ...stopping, presses: way.presses, verdict: way.verdict }];
    }
    if (finger === undefined) return [];
    const verdict = verdictOnString(instrument, model, behind, { finger, fret });
    if (verdict === undefined) return [];
    const presses = [...way.presses, behind].sort((one, other) => one.fret - other.fret || one.from - other.from);
    return [{ ...stopping, presses, verdict: way.verdict === 'stretched' ? 'stretched' : verdict }];
  });
}

function sortOf(
  fingering: Fingering,
  finger: Finger | undefined,
  fret: number,
  lifted: Finger | undefined,
): InsideSort | undefined {
  if (lifted !== undefined) return 'lifted';
  if (finger === undefined) return 'open';
  const own = fingering.presses.find((press) => press.finger === finger);
  if (own === undefined) return 'free';
  return own.fret === fret ? 'flat' : undefined;
}

/** Two fingers behind each other on one string: the higher finger is the one in front. Nothing where they cannot stand so. */
function verdictOnString(
  instrument: Instrument,
  model: HandModel,
  behind: Press,
  front: { readonly finger: Finger; readonly fret: number },
): InsideWay['verdict'] | undefined {
  if (behind.finger === 'T' || front.finger === 'T' || front.finger <= behind.finger) return undefined;
  const mm = tipMm(instrument, front.fret) - tipMm(instrument, behind.fret);
  const verdict = judgeMm(mm, pairLimit(model, behind.finger, front.finger));
  return verdict === 'out-of-reach' ? undefined : verdict;
}

/**
 * False for a fret that is out of reach for any two fingers of this hand from a finger that stays: nothing need be searched there. A
 * hand that lifts the only finger of a shape keeps its place, too; one that holds open strings alone is free to go.
 */
function isNear(
  { instrument, fingering, greatestMm }: InsideSearch,
  lifted: Finger | undefined,
  fret: number,
): boolean {
  if (fret === 0) return true;
  const { presses } = fingering;
  const stay = presses.length < 2 ? presses : presses.filter(({ finger }) => finger !== lifted);
  return stay.every((press) => Math.abs(tipMm(instrument, press.fret) - tipMm(instrument, fret)) <= greatestMm);
}

function tipMm({ scaleLengthMm, capoFret }: Instrument, fret: number): number {
  return fingertipMm(scaleLengthMm, capoFret + fret);
}

function isAtEase({ verdict }: InsideWay): boolean {
  return verdict === 'comfortable';
}

function byEffort(one: InsideWay, other: InsideWay): number {
  const stretch = Number(one.verdict === 'stretched') - Number(other.verdict === 'stretched');
  return stretch || Math.round((one.effort - other.effort) * 1e6);
}
