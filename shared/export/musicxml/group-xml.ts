import type { Beam, NoteValue, Tuplet } from '../../score/rhythm-line.ts';
import { over, plus, type Rational, rational, ZERO } from '../../theory/rational.ts';
import { NOTE_TYPES } from './note-types.ts';
import type { WrittenVoice } from './written-note.ts';
import { element, emptyElement, textElement, type XmlElement } from './xml.ts';

/** Where an entry stands: its voice's number, and its place in the voice. */
export interface EntryPlace {
  readonly voice: WrittenVoice;
  readonly number: number;
  readonly index: number;
}

/** The `beam` elements of a note: one for each of its beams. A beam passes over rests without touching them. */
export function beamsOfEntry({ voice, index }: EntryPlace): readonly XmlElement[] {
  const beam = voice.beams.find(({ first, last }) => index >= first && index <= last);
  if (beam === undefined || isRest(voice, index)) return [];
  const whole = soundingIn(voice, beam);
  const first = whole[0];
  const last = whole.at(-1);
  if (whole.length < 2 || first === undefined || last === undefined) return [];
  const levels = new Map<number, string>([[1, partOf(index, first, last)]]);
  for (const segment of beam.segments) {
    const sounding = soundingIn(voice, segment);
    const from = sounding[0];
    const to = sounding.at(-1);
    if (from === undefined || to === undefined || index < from || index > to) continue;
    if (from !== to) levels.set(segment.level, partOf(index, from, to));
    else levels.set(segment.level, segment.stub === 'right' || index === first ? 'forward hook' : 'backward hook');
  }
  return [...levels].sort(([a], [b]) => a - b).map(([level, part]) => textElement('beam', part, { number: level }));
}

function partOf(index: number, first: number, last: number): string {
  return index === first ? 'begin' : index === last ? 'end' : 'continue';
}

function soundingIn(voice: WrittenVoice, { first, last }: Pick<Beam, 'first' | 'last'>): readonly number[] {
  return Array.from({ length: last - first + 1 }, (_, step) => first + step).filter((index) => !isRest(voice, index));
}

function isRest({ entries }: WrittenVoice, index: number): boolean {
  return entries[index]?.notes.length === 0;
}

/** `time-modification` inside a tuplet, with the value that its figure counts. */
export function timeModificationOf({ voice, index }: EntryPlace): readonly XmlElement[] {
  const tuplet = tupletAt(voice, index);
  if (tuplet === undefined) return [];
  const value = countedValue(voice, tuplet);
  return [
    element('time-modification', {}, [
      textElement('actual-notes', tuplet.count),
      textElement('normal-notes', tuplet.inTimeOf),
      ...(value === undefined ? [] : [textElement('normal-type', NOTE_TYPES[value])]),
    ]),
  ];
}

/** `tuplet` where one begins or ends. */
export function tupletsOfEntry({ voice, index }: EntryPlace): readonly XmlElement[] {
  const tuplet = tupletAt(voice, index);
  if (tuplet === undefined) return [];
  const bracket = tuplet.bracket ? 'yes' : 'no';
  return [
    ...(index === tuplet.first ? [emptyElement('tuplet', { type: 'start', bracket })] : []),
    ...(index === tuplet.last ? [emptyElement('tuplet', { type: 'stop' })] : []),
  ];
}

function tupletAt({ tuplets }: WrittenVoice, index: number): Tuplet | undefined {
  return tuplets.find(({ first, last }) => index >= first && index <= last);
}

/** So many of this value fill the tuplet's time. */
function countedValue({ entries }: WrittenVoice, { first, last, inTimeOf }: Tuplet): NoteValue | undefined {
  const length = entries.slice(first, last + 1).reduce((sum: Rational, entry) => plus(sum, entry.length), ZERO);
  const value = over(rational(inTimeOf), length);
  return VALUES.find((candidate) => value.denominator === 1 && candidate === value.numerator);
}

const VALUES: readonly NoteValue[] = [1, 2, 4, 8, 16, 32, 64];
