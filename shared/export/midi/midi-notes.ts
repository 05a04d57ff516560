import type { Technique } from '../../lesson/syntax/marks.ts';
import type { Instrument } from '../../neck/instrument.ts';
import type { Layer } from '../../score/timeline.ts';
import { BEND_SEMITONES, midiOfNote, midiOfString } from '../sounding-pitch.ts';
import type { PlayedSound } from './played-sounds.ts';
import { MOST_OF_NOTE, QUICK_TICKS, SLURRED, VELOCITY } from './touch.ts';

/** A key from its on to its off, in ticks. */
export interface MidiNote {
  readonly start: number;
  readonly end: number;
  readonly key: number;
  readonly velocity: number;
  readonly channel: number;
  /** What moves the whole channel while it sounds. */
  readonly moves?: 'bend' | 'vibrato';
}

/**
 * Channels, from 0. What is bent or shaken has one of its own, as these move all that sounds on a channel. Percussion is on 9.
 */
export const CHANNELS: Readonly<Record<Layer, { readonly plain: number; readonly moved: number }>> = {
  accompaniment: { plain: 0, moved: 2 },
  tune: { plain: 1, moved: 3 },
};

/** A sound as keys: one, or several where the left hand moves on while the string sounds. */
export function midiNotesOf(sound: PlayedSound, instrument: Instrument): readonly MidiNote[] {
  const { note, layer, string } = sound;
  const techniques = note?.techniques ?? [];
  const struckKey = midiOfNote(instrument, {
    string,
    fret: sound.fret,
    techniques,
    ...(note?.arrivesBy === undefined ? {} : { arrivesBy: note.arrivesBy }),
  });
  if (struckKey === undefined) return [];
  const moves = movesOf(note?.arrivesBy, techniques);
  const channel = moves === undefined ? CHANNELS[layer].plain : CHANNELS[layer].moved;
  const velocity = velocityOf(sound);
  return changesOf(sound, techniques).map(({ start, end, fret }, place): MidiNote => {
    const key = place === 0 ? struckKey : (midiOfString(instrument, string, fret) ?? struckKey);
    return {
      start,
      end,
      key,
      velocity: place === 0 ? velocity : Math.round(velocity * SLURRED),
      channel,
      ...(moves === undefined ? {} : { moves }),
    };
  });
}

/** Height of a bend on the wheel, whose usual range is two semitones to either side. Source: General MIDI 1 (RP-003). */
export const BEND_VALUE = Math.round((8192 * BEND_SEMITONES) / 2);

function movesOf(arrivesBy: Technique['kind'] | undefined, techniques: readonly Technique[]): MidiNote['moves'] {
  const kinds = [arrivesBy, ...techniques.map(({ kind }) => kind)];
  return kinds.includes('bend') ? 'bend' : kinds.includes('vibrato') ? 'vibrato' : undefined;
}

interface Change {
  readonly start: number;
  readonly end: number;
  readonly fret: number;
}

/** Where the left hand is while the string sounds: quick moves at once, then a trill as long as the note is written. */
function changesOf({ start, end, written, fret }: PlayedSound, techniques: readonly Technique[]): readonly Change[] {
  const length = Math.min(end - start, written);
  const frets = [fret, ...techniques.flatMap((one) => (isMove(one) ? [one.fret] : []))];
  const step = Math.max(1, Math.min(QUICK_TICKS, Math.floor((length * MOST_OF_NOTE) / Math.max(1, frets.length - 1))));
  const at = frets.map((_, place) => start + place * step);
  const trill = techniques.find(({ kind }) => kind === 'trill');
  if (trill !== undefined && 'fret' in trill) {
    const own = frets.at(-1) ?? fret;
    for (let time = (at.at(-1) ?? start) + QUICK_TICKS; time + QUICK_TICKS <= start + length; time += 2 * QUICK_TICKS) {
      at.push(time, time + QUICK_TICKS);
      frets.push(trill.fret, own);
    }
  }
  return frets
    .map((here, place) => ({ start: at[place] ?? start, end: at[place + 1] ?? end, fret: here }))
    .filter((change) => change.start < change.end);
}

function isMove(technique: Technique): technique is Extract<Technique, { readonly fret: number }> {
  return technique.kind === 'hammer-on' || technique.kind === 'pull-off' || technique.kind === 'slide';
}

function velocityOf({ event, note, layer }: PlayedSound): number {
  const isNote = event.kind === 'notes';
  const plain = isNote ? (layer === 'tune' ? VELOCITY.tune : VELOCITY.picked) : VELOCITY.strummed;
  const accent = isNote ? note?.accent === true : 'accent' in event && event.accent;
  const light = event.kind === 'strum' && event.light;
  const slurred = event.kind === 'shape-slide' || note?.arrivesBy !== undefined;
  const struck =
    plain +
    (accent ? VELOCITY.accent : 0) +
    (note?.restStroke === true ? VELOCITY.restStroke : 0) +
    (light ? VELOCITY.light : 0);
  return Math.max(1, Math.min(127, Math.round(struck * (slurred ? SLURRED : 1))));
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
