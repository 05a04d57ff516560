import { type MidiEvent, type MidiHeader, writeMidi } from 'midi-file';

/**
 * Events that the library is given at once. It copies all that it has written of a track with each text and each longer pause, so that
 * a long track would take time by the square of its length. Unit: none.
 */
const EVENTS_AT_ONCE = 64;

/** Length of the header of a file, and of that of a track. Unit: bytes. Source: Standard MIDI Files 1.0, chunks. */
const FILE_HEADER = 14;
const TRACK_HEADER = 8;
const TRACK = [...'MTrk'].map((letter) => letter.charCodeAt(0));

/** A Standard MIDI File of these tracks: the bytes that the library writes, in time by their number. */
export function midiBytes(header: MidiHeader, tracks: readonly MidiEvent[][]): Uint8Array {
  const written = (events: MidiEvent[]): readonly number[] => writeMidi({ header, tracks: [events] });
  const fileHeader = writeMidi({ header, tracks: tracks.map(() => []) }).slice(0, FILE_HEADER);
  const chunks = tracks.flatMap((track): readonly (readonly number[])[] => {
    const events = stretchesOf(track).map((stretch) => written(stretch).slice(FILE_HEADER + TRACK_HEADER));
    const length = events.reduce((sum, piece) => sum + piece.length, 0);
    return [TRACK, bigEndian(length), ...events];
  });
  return joined([fileHeader, ...chunks]);
}

function stretchesOf(track: MidiEvent[]): readonly MidiEvent[][] {
  const count = Math.ceil(track.length / EVENTS_AT_ONCE);
  return Array.from({ length: count }, (_, index) => track.slice(index * EVENTS_AT_ONCE, (index + 1) * EVENTS_AT_ONCE));
}

function bigEndian(length: number): readonly number[] {
  return [24, 16, 8, 0].map((shift) => (length >>> shift) & 0xff);
}

function joined(pieces: readonly (readonly number[])[]): Uint8Array {
  const bytes = new Uint8Array(pieces.reduce((sum, { length }) => sum + length, 0));
  let at = 0;
  for (const piece of pieces) {
    bytes.set(piece, at);
    at += piece.length;
  }
  return bytes;
}
