import { ARCH_TOP_SHARE, LINE_SEMITONES, PHRASE_BARS, WAVE_SHARE } from './tune-table.ts';

/** How a tune goes: `answer` is a call that rises and stays open, and an answer that falls and rests. */
export type Contour = 'rise' | 'fall' | 'arch' | 'answer';

export const CONTOURS: readonly Contour[] = ['rise', 'fall', 'arch', 'answer'];

/** A part of a tune that is sung in one breath or two. Bars count from 0; `toBar` is the bar after the last. */
export interface Phrase {
  readonly fromBar: number;
  readonly toBar: number;
  /** It ends without coming home, for another one comes that does. */
  readonly staysOpen: boolean;
}

/**
 * Phrases of four bars; a bar that is left over goes with the last. All but an arch are cut in half where both halves have a bar or,
 * when they climb, two: call and answer, or two waves.
 */
export function phrasesOf(bars: number, contour: Contour): readonly Phrase[] {
  const starts: number[] = [];
  for (let bar = 0; bar < bars; bar += PHRASE_BARS) if (bar === 0 || bars - bar > 1) starts.push(bar);
  const fewest = contour === 'answer' ? 2 : 4;
  return starts.flatMap((fromBar, at): readonly Phrase[] => {
    const toBar = starts[at + 1] ?? bars;
    if (contour === 'arch' || toBar - fromBar < fewest) return [{ fromBar, toBar, staysOpen: false }];
    const middle = fromBar + Math.ceil((toBar - fromBar) / 2);
    return [
      { fromBar, toBar: middle, staysOpen: true },
      { fromBar: middle, toBar, staysOpen: false },
    ];
  });
}

/**
 * How high the line stands at a share of its phrase, from 0 at its lowest to 1 at its highest. `afterOpen` where a phrase came before
 * that stayed open: a second wave goes on from higher up.
 */
export function heightAt(contour: Contour, { staysOpen }: Phrase, afterOpen: boolean, share: number): number {
  switch (contour) {
    case 'rise':
      return waveAt(staysOpen, afterOpen, share);
    case 'fall':
      return 1 - waveAt(staysOpen, afterOpen, share);
    case 'arch':
      return share <= ARCH_TOP_SHARE ? share / ARCH_TOP_SHARE : (1 - share) / (1 - ARCH_TOP_SHARE);
    case 'answer':
      return staysOpen ? share : 1 - share;
  }
}

/** A tune climbs in waves: there are more notes in a phrase than the octave has, and two runs are sung better than one that dallies. */
function waveAt(staysOpen: boolean, afterOpen: boolean, share: number): number {
  if (staysOpen) return WAVE_SHARE * share;
  return afterOpen ? 1 - WAVE_SHARE * (1 - share) : share;
}

/** How far the line of a tune goes from its lowest note to its highest. Unit: semitones. */
export function lineSemitones(bars: number): number {
  const wanted = Math.min(bars, PHRASE_BARS) * LINE_SEMITONES.perBar;
  return Math.min(LINE_SEMITONES.most, Math.max(LINE_SEMITONES.least, wanted));
}

/**
 * Whether a tune, as the MIDI numbers of its notes, is heard to go so: a rise has its lowest note before its highest, a fall the other
 * way round, and an arch its highest note neither first nor last. A call and its answer are told by their phrases.
 */
export function goesAsAsked(contour: Contour, midi: readonly number[]): boolean {
  const [lowest, highest] = [Math.min(...midi), Math.max(...midi)];
  switch (contour) {
    case 'rise':
      return midi.indexOf(lowest) < midi.lastIndexOf(highest);
    case 'fall':
      return midi.indexOf(highest) < midi.lastIndexOf(lowest);
    case 'arch':
      return midi[0] !== highest && midi.at(-1) !== highest;
    case 'answer':
      return true;
  }
}
