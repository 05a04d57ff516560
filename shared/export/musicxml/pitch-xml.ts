import { type Key, spellMidi } from '../../theory/key.ts';
import type { Pitch } from '../../theory/note.ts';
import { element, textElement, type XmlElement } from './xml.ts';

/** `pitch`, spelled as the key spells it. */
export function pitchElement(midi: number, key: Key | undefined): XmlElement {
  return element('pitch', {}, partsOfPitch(spellMidi(midi, key), ''));
}

/** `step`, `alter` and `octave`, with what stands before their names: `tuning-`. */
export function partsOfPitch({ letter, accidental, octave }: Pitch, prefix: 'tuning-' | ''): readonly XmlElement[] {
  return [
    textElement(`${prefix}step`, letter),
    ...(accidental === 0 ? [] : [textElement(`${prefix}alter`, accidental)]),
    textElement(`${prefix}octave`, octave),
  ];
}
