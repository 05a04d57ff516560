import { printHand } from '../../hand/hand.ts';
import type { NeckInMm } from '../../hand/neck-in-mm.ts';
import type { Instrument } from '../../neck/instrument.ts';
import { printNote } from '../../theory/note.ts';
import { type Candidates, candidatesOver } from './candidates.ts';
import type { ChordInHand, TuneGround } from './ground.ts';
import { type HandLinks, handLinks } from './hand-links.ts';

// What was worked out for chords in the hand, kept by what was asked: while a tune is chosen the same chords are asked for again and
// again, with other contours and other tempos.

/** Answers that are kept for one instrument; the oldest goes first. */
const ANSWERS_KEPT = 200;

const keptByInstrument = new WeakMap<Instrument, Map<string, Candidates>>();
const keptLinks = new WeakMap<Candidates, WeakMap<Candidates, HandLinks>>();

/** The same as `candidatesOver` gives; the same question gets the same value. */
export function keptCandidates(ground: TuneGround, inHand: ChordInHand): Candidates {
  const { instrument, hand, scale, strictly = false, ring = [] } = ground;
  const answers = keptByInstrument.get(instrument) ?? new Map<string, Candidates>();
  keptByInstrument.set(instrument, answers);
  const notes = scale.notes.map((note) => printNote(note)).join(' ');
  const key = [inHand.key, printHand(hand), notes, strictly, ring.join(' ')].join('|');
  const known = answers.get(key);
  if (known !== undefined) return known;
  const fresh = candidatesOver(ground, inHand);
  answers.set(key, fresh);
  for (const oldest of answers.keys()) {
    if (answers.size <= ANSWERS_KEPT) break;
    answers.delete(oldest);
  }
  return fresh;
}

/** What it takes the hand to go from each candidate to each other, as `handLinks` says; both were kept by `keptCandidates`. */
export function linksBetween(neck: NeckInMm, from: Candidates, to: Candidates): HandLinks {
  const fromHere = keptLinks.get(from) ?? new WeakMap<Candidates, HandLinks>();
  keptLinks.set(from, fromHere);
  const known = fromHere.get(to);
  if (known !== undefined) return known;
  const fresh = handLinks(neck, from.hands, to.hands);
  fromHere.set(to, fresh);
  return fresh;
}
