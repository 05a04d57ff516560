import type { Tempo } from '../lesson/syntax/words.ts';

/** What is played where a lesson says no tempo. Unit: beats a minute. Common practice, no source: a walking pace. */
const USUAL_TEMPO = 80;

/** A step where the lesson says from where to where, and not how. Unit: beats a minute. Common practice, no source. */
const USUAL_STEP = 4;

/**
 * The tempo of each time through, from slow to fast or the other way; the last one goes on. `every 2` climbs after every second
 * time. Unit: beats a minute, or what the tempo counts.
 */
export function temposOf(tempo: Tempo | undefined): readonly number[] {
  if (tempo === undefined) return [USUAL_TEMPO];
  const { from, to, by = USUAL_STEP, everyPasses = 1 } = tempo;
  const step = Math.max(1, Math.abs(by)) * Math.sign(to - from);
  const tempos: number[] = [];
  for (let at = from; step > 0 ? at < to : step < 0 && at > to; at += step) {
    for (let time = 0; time < everyPasses; time += 1) tempos.push(at);
  }
  return [...tempos, to];
}
