import { beatsPerBar } from '../../theory/meter.ts';
import { tellStrings } from '../family/why.ts';
import { tellBar } from './bar-times.ts';
import { tellTick } from './rhythm.ts';
import type { Moment, TuneRequest } from './tune-problem.ts';

/** Slower by so much at a time until the fingers are in time. Unit: none. */
const SLOWER = 0.9;
const MOST_STEPS = 20;

/** Which wish leaves no tune, and what would do. `tries` tells whether a changed request has one. */
export function whyNoTune(
  request: TuneRequest,
  moments: readonly Moment[],
  tries: (changed: TuneRequest) => boolean,
): string {
  const { secondsPerCount, ring = [] } = request;
  const withoutTempo: TuneRequest = withoutSeconds(request);
  if (secondsPerCount !== undefined && tries(withoutTempo)) {
    const beats = beatsPerBar(request.meter) / request.meter.counts;
    const tempo = (seconds: number) => Math.floor((60 / seconds) * beats + 1e-9);
    let slower = secondsPerCount;
    for (let step = 0; step < MOST_STEPS; step += 1) {
      slower /= SLOWER;
      if (!tries({ ...request, secondsPerCount: slower })) continue;
      return `At ${tempo(secondsPerCount)} beats a minute the fingers are not in time for any tune here; at ${tempo(slower)} they are.`;
    }
    return `At ${tempo(secondsPerCount)} beats a minute the fingers are not in time for any tune here. Fewer notes, or shapes nearer to each other, would do.`;
  }
  if (ring.length > 0 && tries({ ...request, ring: [] })) {
    const one = ring.find((string) => tries({ ...request, ring: ring.filter((other) => other !== string) }));
    return `There is no tune that leaves ${tellStrings(one === undefined ? ring : [one])} ringing; without that there is one.`;
  }
  if (request.strictly === true && tries({ ...request, strictly: false })) {
    return `The notes of ${request.scale.name} alone make no tune here, for some chord has none of them on a strong beat; with the chords' own tones there is one.`;
  }
  if (moments.length === 0) return whyNoMoment(request);
  const bare = moments.find(({ candidates, strong }) =>
    candidates.list.every(({ note }) => strong && !note.tone.inChord),
  );
  if (bare !== undefined) {
    const { slot } = bare;
    return `Nothing can be played over ${slot.stretch.inHand.chord.name} in ${tellBar(request.bars, slot.bar)} at ${tellTick(slot.tick)} while its shape is held.`;
  }
  return 'The shapes have too few notes near each other for a tune in this rhythm; fewer notes in a bar, or other shapes, would do.';
}

function whyNoMoment({ bars }: TuneRequest): string {
  const hasChord = bars.some(({ chords }) => chords.some(({ chord }) => chord !== undefined));
  return hasChord
    ? 'No note of this rhythm comes while a chord is played; other counts, or longer chords, would do.'
    : 'No chord is played, so there is no shape for a tune.';
}

function withoutSeconds(request: TuneRequest): TuneRequest {
  const { secondsPerCount: _, ...rest } = request;
  return rest;
}
