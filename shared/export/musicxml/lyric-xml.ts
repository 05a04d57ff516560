import type { ScoreBar, ScoreSyllable } from '../../score/timeline.ts';
import { element, textElement, type XmlElement } from './xml.ts';

/** A sung syllable and whether it begins, ends or goes on with a word. */
export interface SungSyllable extends ScoreSyllable {
  readonly syllabic: 'single' | 'begin' | 'middle' | 'end';
}

/** The syllables of each bar of a pass. A word goes on after a syllable that ends in `-`, over bar lines too. */
export function sungSyllables(bars: readonly ScoreBar[]): readonly (readonly SungSyllable[])[] {
  const goesOn = new Map<number, boolean>();
  return bars.map(({ syllables }) =>
    syllables.map((syllable): SungSyllable => {
      const isInside = goesOn.get(syllable.verse) ?? false;
      const leadsOn = syllable.text.length > 1 && syllable.text.endsWith('-');
      goesOn.set(syllable.verse, leadsOn);
      return { ...syllable, syllabic: isInside ? (leadsOn ? 'middle' : 'end') : leadsOn ? 'begin' : 'single' };
    }),
  );
}

/** `language`: tag of what is sung, where the lesson says it. */
export function lyricElement(syllable: SungSyllable, language: string | undefined): XmlElement {
  return element('lyric', { number: syllable.verse }, [
    textElement('syllabic', syllable.syllabic),
    textElement('text', textOf(syllable), { 'xml:lang': language }),
  ]);
}

/** The hyphen is the program's to draw. */
function textOf({ text, syllabic }: SungSyllable): string {
  return syllabic === 'begin' || syllabic === 'middle' ? text.slice(0, -1) : text;
}
