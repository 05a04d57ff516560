import type { NoteValue } from '../../score/rhythm-line.ts';

/** Names of note values. Source: MusicXML 4.0, musicxml.xsd, type `note-type-value`. */
export const NOTE_TYPES: Readonly<Record<NoteValue, string>> = {
  1: 'whole',
  2: 'half',
  4: 'quarter',
  8: 'eighth',
  16: '16th',
  32: '32nd',
  64: '64th',
};
