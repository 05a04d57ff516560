import type { Fingering } from '../../shared/hand/fingering.ts';
import type { HandSize } from '../../shared/hand/hand.ts';
import type { FingeredSequence, SequenceChord, SequenceOptions } from '../../shared/hand/sequence.ts';
import { fingerSequence } from '../../shared/hand/sequence-fingering.ts';
import type { Instrument } from '../../shared/neck/instrument.ts';
import { shape } from '../neck/playing.ts';
import { judged, printFingers } from './fingers.ts';

/** One fingering, written as frets and fingers: `0212` held with `0213`. */
export function holding(on: Instrument, frets: string, fingers: string, hand: HandSize = 'large'): Fingering {
  const { fingering, faults } = judged(on, frets, fingers, hand);
  if (fingering === undefined)
    throw new Error(`${frets} ${fingers}: ${faults.map(({ message }) => message).join(' ')}`);
  return fingering;
}

/** Chords written as `0003 2010`, each the same time before the next; fingers behind a colon are given: `0003:0004`. */
export function chordsOf(written: string, seconds?: number): readonly SequenceChord[] {
  return written.split(' ').map((chord): SequenceChord => {
    const [frets = '', fingers] = chord.split(':');
    const given = fingers && [...fingers].map((finger) => (finger === 'T' ? finger : Number(finger)));
    return { shape: shape(frets), ...(given ? { given } : {}), ...(seconds === undefined ? {} : { seconds }) };
  });
}

/** The fingers chosen for all of them, as `0003 2010`; why, where a chord is passed over. */
export function fingersChosen({ chords }: FingeredSequence): string {
  return chords.map((chord) => (chord.kind === 'held' ? printFingers(chord.fingering) : chord.why)).join(' ');
}

export function fingered(
  on: Instrument,
  written: string,
  seconds?: number,
  options: SequenceOptions = {},
  hand: HandSize = 'medium',
): FingeredSequence {
  return fingerSequence(on, chordsOf(written, seconds), hand, options);
}
