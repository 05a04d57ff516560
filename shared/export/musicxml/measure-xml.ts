import { compare, minus, type Rational } from '../../theory/rational.ts';
import { wordsElement } from './direction-xml.ts';
import { lyricElement, type SungSyllable } from './lyric-xml.ts';
import type { NoteContext } from './note-xml.ts';
import { noteElements, ticksOf } from './note-xml.ts';
import type { WrittenVoice } from './written-note.ts';
import { element, textElement, type XmlElement } from './xml.ts';

/** Something that stands over or under the notes at a time of the bar. */
export interface Beside {
  readonly at: Rational;
  /** `offset` in ticks from where it is written. */
  readonly write: (offset: number) => XmlElement;
}

/**
 * The notes of a measure, voice after voice, each from its beginning. What stands beside the notes is written before the entry of the
 * first voice at its time, or before the last one that began earlier.
 */
export function musicOfMeasure(
  voices: readonly WrittenVoice[],
  length: Rational,
  beside: readonly Beside[],
  syllables: readonly SungSyllable[],
  context: NoteContext,
  isOneVoice: boolean,
): readonly XmlElement[] {
  const sung = new Set<SungSyllable>();
  const elements: XmlElement[] = [];
  voices.forEach((voice, place) => {
    if (place > 0) elements.push(element('backup', {}, [textElement('duration', ticksOf(length, context.divisions))]));
    const number = isOneVoice || voice.side === 'above' ? 1 : 2;
    let rest = place === 0 ? [...beside].sort((a, b) => compare(a.at, b.at)) : [];
    voice.entries.forEach((entry, index) => {
      const next = voice.entries[index + 1];
      const here = rest.filter(({ at }) => next === undefined || compare(at, next.at) < 0);
      rest = rest.filter((one) => !here.includes(one));
      for (const { at, write } of here) elements.push(write(ticksOf(minus(at, entry.at), context.divisions)));
      const starts = entry.notes.some((note) => note.kind === 'knock' || !note.tiedFrom);
      const under = starts ? syllables.filter((one) => !sung.has(one) && compare(one.at, entry.at) === 0) : [];
      for (const one of under) sung.add(one);
      const lyrics = under.map((syllable) => lyricElement(syllable, context.language));
      elements.push(...noteElements(entry, { voice, number, index }, context, lyrics));
    });
  });
  // What is sung where nothing is struck has no note to stand under.
  const unsung = syllables.filter((one) => !sung.has(one));
  return [...unsung.map(({ at, text }) => wordsElement(text, 'below', ticksOf(at, context.divisions))), ...elements];
}
