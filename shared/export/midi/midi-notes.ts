import { millisecondsOf, type Pace } from '../../score/clock.ts';
import type { Moment, Performance, PerformedSound, SoundKind } from '../../score/performance.ts';
import { strumOffsets } from '../../score/strum-spread.ts';
import type { Layer } from '../../score/timeline.ts';
import type { Meter } from '../../theory/meter.ts';
import { rational } from '../../theory/rational.ts';
import { KNOCKS, type Knock, PERCUSSION_CHANNEL } from '../percussion.ts';
import { fileTick, TICKS_PER_QUARTER } from './ticks.ts';
import { KNOCK_TICKS } from './touch.ts';

/** A key from its on to its off, in ticks. */
export interface MidiNote {
  readonly start: number;
  readonly end: number;
  readonly key: number;
  readonly velocity: number;
  readonly channel: number;
  /** What moves the whole channel while it sounds. */
  readonly moves?: 'bend' | 'vibrato';
  /** Height of a bend. Unit: semitones. */
  readonly bend?: number;
}

/** Channels, from 0. What is bent or shaken has one of its own, as these move all that sounds on a channel. Percussion is on 9. */
const CHANNELS: Readonly<Record<Layer, { readonly plain: number; readonly moved: number }>> = {
  accompaniment: { plain: 0, moved: 2 },
  tune: { plain: 1, moved: 3 },
};

/** How fast the music is played, and the meter in which it begins. */
export interface MusicPace {
  readonly pace: Pace;
  readonly begins: Meter;
}

/** When a moment is heard. Unit: ticks of the performance. */
export function playedMoment(moment: Moment): number {
  return typeof moment === 'number' ? moment : moment[0];
}

/** Everything on strings, strokes spread in time. A string sounds until it is struck anew, also where the hand comes to it late. */
export function stringNotes(
  performance: Performance,
  music: MusicPace,
): readonly (MidiNote & { readonly layer: Layer })[] {
  const { sounds, perWhole } = performance;
  const next = new Map<number, { readonly at: number; readonly start: number }>();
  const notes: (MidiNote & { readonly layer: Layer })[] = [];
  for (const sound of [...sounds].reverse()) {
    const { string, midi, kind, layer, bend, vibrato, loudness } = sound;
    if (string === undefined || midi === undefined || KNOCK_OF[kind] !== undefined) continue;
    const start = fileTick(playedMoment(sound.at), perWhole) + offsetOf(sound, perWhole, music);
    const until = playedMoment(sound.end);
    const later = next.get(string);
    const end = later !== undefined && later.at === until ? later.start : fileTick(until, perWhole);
    next.set(string, { at: playedMoment(sound.at), start });
    const moves = bend !== undefined ? 'bend' : vibrato === true ? 'vibrato' : undefined;
    notes.push({
      start,
      end: Math.max(start + 1, end),
      key: midi,
      velocity: velocityOf(loudness),
      channel: moves === undefined ? CHANNELS[layer].plain : CHANNELS[layer].moved,
      layer,
      ...(moves === undefined ? {} : { moves }),
      ...(bend === undefined ? {} : { bend }),
    });
  }
  return notes.reverse();
}

/** What a knock of the performance is here; a damped stroke is one knock, however many strings it meets. */
const KNOCK_OF: Readonly<Partial<Record<SoundKind, Knock>>> = {
  slap: 'thumb',
  palm: 'palm',
  nails: 'nails',
  body: 'body',
  chunk: 'chunk',
  muted: 'damped-stroke',
};

export function knockNotes({ sounds, perWhole }: Performance): readonly MidiNote[] {
  return sounds.flatMap(({ kind, at, stroke, loudness }): readonly MidiNote[] => {
    const knock = KNOCK_OF[kind];
    if (knock === undefined || (stroke !== undefined && stroke.nth > 0)) return [];
    const start = fileTick(playedMoment(at), perWhole);
    const key = KNOCKS[knock].midiKey;
    return [{ start, end: start + KNOCK_TICKS, key, velocity: velocityOf(loudness), channel: PERCUSSION_CHANNEL }];
  });
}

function velocityOf(loudness: number): number {
  return Math.max(1, Math.min(127, Math.round(loudness * 127)));
}

/** How much later than its stroke a string is met. Unit: ticks. */
function offsetOf({ stroke }: PerformedSound, perWhole: number, { pace, begins }: MusicPace): number {
  if (stroke === undefined) return 0;
  const lengthMs = millisecondsOf(rational(stroke.length, perWhole), pace, begins);
  const beatMs = 60_000 / pace.perMinute;
  const direction = stroke.up === true ? 'up' : 'down';
  const offsets = strumOffsets({ strings: stroke.of, direction, slow: stroke.slow === true, lengthMs, beatMs });
  return Math.round(((offsets[stroke.nth] ?? 0) * TICKS_PER_QUARTER) / millisecondsOf(rational(1, 4), pace, begins));
}

/**
 * The notes as a keyboard can play them: one key of a channel sounds once at a time. Of two strings that sound the same pitch the later
 * one takes the key over, and two struck at the same moment are one.
 */
export function oneForEachKey(notes: readonly MidiNote[]): readonly MidiNote[] {
  const sorted = [...notes].sort((a, b) => a.start - b.start || a.end - b.end);
  const kept: MidiNote[] = [];
  const open = new Map<number, number>();
  for (const note of sorted) {
    const place = note.channel * 128 + note.key;
    const index = open.get(place);
    const before = index === undefined ? undefined : kept[index];
    if (index !== undefined && before !== undefined && before.end > note.start) {
      if (before.start === note.start) {
        kept[index] = { ...note, velocity: Math.max(before.velocity, note.velocity) };
        continue;
      }
      kept[index] = { ...before, end: note.start };
    }
    open.set(place, kept.length);
    kept.push(note);
  }
  return kept;
}
