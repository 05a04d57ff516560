import type { MidiEvent } from 'midi-file';
import type { MidiNote } from './midi-notes.ts';
import { BEND, VIBRATO_DEPTH } from './touch.ts';

/** An event of a track at its tick; `deltaTime` is filled in when the track is written. */
export interface TimedEvent {
  readonly tick: number;
  readonly event: MidiEvent;
}

/** A track in order: at the same tick words first, then what ends, what changes the sound, and what begins. */
export function trackOf(events: readonly TimedEvent[]): MidiEvent[] {
  const sorted = [...events].sort((a, b) => a.tick - b.tick || rankOf(a.event) - rankOf(b.event));
  let now = 0;
  const track = sorted.map(({ tick, event }): MidiEvent => {
    const deltaTime = tick - now;
    now = tick;
    return { ...event, deltaTime };
  });
  return [...track, { deltaTime: 0, type: 'endOfTrack' }];
}

function rankOf({ type }: MidiEvent): number {
  switch (type) {
    case 'noteOn':
      return 4;
    case 'controller':
    case 'pitchBend':
      return 3;
    case 'programChange':
      return 2;
    case 'noteOff':
      return 1;
    default:
      return 0;
  }
}

/** A note with what its channel does meanwhile. */
export function eventsOfNote({ start, end, key, velocity, channel, moves, bend = 0 }: MidiNote): readonly TimedEvent[] {
  return [
    { tick: start, event: { deltaTime: 0, type: 'noteOn', channel, noteNumber: key, velocity } },
    { tick: end, event: { deltaTime: 0, type: 'noteOff', channel, noteNumber: key, velocity: 0 } },
    ...(moves === 'bend' ? bendEvents(start, end, channel, bend) : []),
    ...(moves === 'vibrato' ? [modulation(start, channel, VIBRATO_DEPTH), modulation(end, channel, 0)] : []),
  ];
}

/** Semitones on the wheel: its usual range is two to either side. Source: General MIDI 1 (RP-003). */
const WHEEL_OF_SEMITONE = 8192 / 2;

function bendEvents(start: number, end: number, channel: number, semitones: number): readonly TimedEvent[] {
  const length = (end - start) * BEND.partOfNote;
  const wheel = (tick: number, value: number): TimedEvent => ({
    tick,
    event: { deltaTime: 0, type: 'pitchBend', channel, value },
  });
  return [
    ...Array.from({ length: BEND.steps + 1 }, (_, step) =>
      wheel(
        start + Math.round((length * step) / BEND.steps),
        Math.round((WHEEL_OF_SEMITONE * semitones * step) / BEND.steps),
      ),
    ),
    wheel(end, 0),
  ];
}

/** Controller 1 is modulation. Source: MIDI 1.0, table of controllers. */
function modulation(tick: number, channel: number, value: number): TimedEvent {
  return { tick, event: { deltaTime: 0, type: 'controller', channel, controllerType: 1, value } };
}

/** Text as the bytes of UTF-8, one character each: the writer of files writes single bytes. */
export function bytesOfText(text: string): string {
  return encodeURIComponent(text.replace(/[\u{D800}-\u{DFFF}]/gu, '\u{FFFD}')).replace(/%(..)/g, (_, hex: string) =>
    String.fromCharCode(Number.parseInt(hex, 16)),
  );
}
