import type { ScoreBar, ScoreEvent, UpperVoice } from './timeline.ts';

/** On which side of the staff the rhythm of an event is written. */
export function noteLineOf(bar: ScoreBar): (event: ScoreEvent) => 'above' | 'below' {
  const upper = bar.upperVoice ?? upperVoiceOf(bar.events);
  return (event) => {
    if (upper === undefined || !('layer' in event) || event.layer !== upper.layer) return 'below';
    return upper.voice === undefined || event.voice === upper.voice ? 'above' : 'below';
  };
}

/**
 * Which of the sounds are written above the staff: a tune over what accompanies it; of two voices of picking the one that the thumb
 * does not play, of two tunes the first. Undefined where one line says all. Common practice, no source.
 */
export function upperVoiceOf(events: readonly ScoreEvent[]): UpperVoice | undefined {
  const tunes = new Set<number>();
  const picks = new Map<number, { thumb: boolean; strings: number; notes: number }>();
  let others = false;
  for (const event of events) {
    if (event.kind === 'stop' || event.kind === 'held') continue;
    if (event.kind !== 'notes') others = true;
    else if (event.layer === 'tune') tunes.add(event.voice);
    else {
      const voice = picks.get(event.voice) ?? { thumb: false, strings: 0, notes: 0 };
      for (const { finger, string } of event.notes) {
        voice.thumb ||= finger === 'p';
        voice.strings += string;
        voice.notes += 1;
      }
      picks.set(event.voice, voice);
    }
  }
  if (tunes.size > 0) {
    const alone = picks.size === 0 && !others;
    return alone && tunes.size > 1 ? { layer: 'tune', voice: Math.min(...tunes) } : { layer: 'tune' };
  }
  if (picks.size < 2) return undefined;
  const ranked = [...picks].sort(
    ([, a], [, b]) => Number(a.thumb) - Number(b.thumb) || a.strings / a.notes - b.strings / b.notes,
  );
  const [first] = ranked;
  return first === undefined ? undefined : { layer: 'accompaniment', voice: first[0] };
}
