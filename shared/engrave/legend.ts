import type { Drawing } from './drawing.ts';
import { type DiagramSign, diagramSample } from './legend-diagram.ts';
import { tabSample } from './legend-samples.ts';
import type { Sign } from './tab-piece.ts';

export type LegendSign = Sign | DiagramSign;

/** One line of the legend: a sample as large as the sign on the sheet, and what it means. What is told by words alone has none. */
export interface LegendLine {
  readonly sample?: Drawing;
  readonly text: string;
}

/** What the signs mean, in a fixed order, each sign once; those that explain one another stand together. */
export function legendOf(signs: ReadonlySet<LegendSign>, stringCount: number): readonly LegendLine[] {
  return (Object.keys(TEXTS) as LegendSign[])
    .filter((sign) => signs.has(sign))
    .map((sign) => {
      const sample = sampleOf(sign, stringCount);
      return { text: TEXTS[sign], ...(sample === undefined ? {} : { sample }) };
    });
}

function sampleOf(sign: LegendSign, stringCount: number): Drawing | undefined {
  switch (sign) {
    case 'muted-string':
    case 'open-string':
    case 'position':
    case 'usual-shape':
    case 'barre':
    case 'given-finger':
    case 'suggested-finger':
      return diagramSample(sign);
    default:
      return tabSample(sign, stringCount);
  }
}

const TEXTS: Readonly<Record<LegendSign, string>> = {
  'open-string': 'In a diagram, a ring: the string sounds open.',
  'muted-string': 'In a diagram, a cross: the string is not played. On the tab crosses are struck, but damped.',
  barre: 'In a diagram, a bar: one finger lies over several strings.',
  'given-finger': 'On a dot or bar, a bold number: the finger that the lesson gives, 1 index to 4 little finger.',
  'suggested-finger':
    'On a dot or bar, a slanted number: a suggested finger, 1 index to 4 little finger; the lesson gives none.',
  position: 'In a diagram, a number at the side: the fret of that row.',
  'usual-shape': 'Usual shape: the lesson gives none for this chord.',
  'assumed-name': 'Dashed line under a name: the usual shape, the lesson gives none.',
  'no-chord': 'N.C.: no chord.',
  'down-stroke':
    'D, arrow up the page: down-stroke, toward the floor. Arrows point the way the hand goes over the strings as they are drawn, here from the highest-numbered string to string 1, which is the top line.',
  'up-stroke': 'U, arrow down the page: up-stroke, from string 1, the top line, back over the others.',
  'partial-stroke': 'Short arrow: only the strings that it crosses.',
  'slow-stroke': 'Wavy arrow: spread the stroke slowly.',
  'light-stroke': 'Thin dashed arrow, letter in brackets: barely touch the strings.',
  'damped-stroke':
    'Crosses on the strings beside an arrow: struck, but damped by the fretting hand. A cross over a diagram is another thing: that string is not played.',
  chunk: 'Large cross: chunk, the strumming hand stops its own stroke. It is heard.',
  roll: 'Fan: roll, one finger after another.',
  'shape-slide': 'Slanting lines: slide the whole shape.',
  'thumb-slap': 'Diamond: the thumb slaps this string and damps the chord.',
  palm: 'Upright hollow bar: the palm falls on the strings.',
  nails: 'Three scratches: the nails on the strings.',
  body: 'Ring with a point: knock on the body.',
  'stop-all': 'Rest: silence, all strings are stopped. A rest is not struck.',
  'stop-string': 'Small block: this string is stopped.',
  held: 'Bow to a stem without a number: the sound before goes on, nothing is struck.',
  accent: 'Wedge over the staff: louder.',
  tune: 'Ringed bold number: the tune.',
  'hammer-on': 'h and a bow: hammer on to the small number.',
  'pull-off': 'p and a bow: pull off to the small number.',
  slide: 's and a slanting line: slide.',
  bend: 'Bent arrow: bend the string.',
  vibrato: 'Small wave: vibrato.',
  trill: 'tr: trill with the fret in brackets.',
  harmonic: 'Number between angles: harmonic, the finger only touches the string over the fret.',
  'same-bar': 'Stroke between two dots: the bar before again.',
  'picking-fingers': 'p thumb, i index, m middle, a ring finger of the picking hand.',
  'rest-stroke': 'Roof beside the letter: rest stroke.',
  'left-hand-fingers':
    'Small numbers under the staff: fingers of the fretting hand, 1 index to 4 little finger, T thumb.',
  'half-note-stem':
    'A short stem: the sound lasts two quarters. A long stem alone is a quarter, with a flag or beam an eighth.',
  'whole-note': 'A number without a stem lasts the whole bar, four quarters.',
  tuplet:
    'A small number at a beam or bracket: so many even notes in the time of the usual number, 3 for 2. Where two numbers stand, the first in the time of the second.',
  'pattern-start': 'A corner with a name: from here on that pattern is played, whatever the bar line says.',
};
