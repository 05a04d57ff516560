import { keySignature } from '../../theory/key.ts';
import type { Meter } from '../../theory/meter.ts';
import type { ExportedExercise } from '../exported-exercise.ts';
import { partsOfPitch } from './pitch-xml.ts';
import { element, textElement, type XmlElement } from './xml.ts';

/** What stands at the head of the first measure: a tab staff with its strings. */
export function firstAttributes(
  { instrument, soundingKey }: ExportedExercise,
  meter: Meter,
  divisions: number,
): XmlElement {
  const { openStrings, capoFret } = instrument;
  return element('attributes', {}, [
    textElement('divisions', divisions),
    // No signature is printed on a tab staff; pitches are spelled by it.
    soundingKey === undefined
      ? undefined
      : element('key', { 'print-object': 'no' }, [
          textElement('fifths', keySignature(soundingKey)),
          textElement('mode', soundingKey.mode),
        ]),
    timeElement(meter),
    // The standard's tutorial on tablature has line 5 on six; a staff of four has no fifth.
    element('clef', {}, [textElement('sign', 'TAB'), textElement('line', Math.min(5, openStrings.length))]),
    element('staff-details', {}, [
      textElement('staff-type', 'regular'),
      textElement('staff-lines', openStrings.length),
      // Lines are counted from the bottom one, which is the highest-numbered string.
      ...openStrings.map((pitch, index) =>
        element('staff-tuning', { line: index + 1 }, partsOfPitch(pitch, 'tuning-')),
      ),
      capoFret === 0 ? undefined : textElement('capo', capoFret),
    ]),
  ]);
}

/** Another meter in the course of the music. */
export function meterAttributes(meter: Meter): XmlElement {
  return element('attributes', {}, [timeElement(meter)]);
}

function timeElement({ counts, unit }: Meter): XmlElement {
  return element('time', {}, [textElement('beats', counts), textElement('beat-type', unit)]);
}
