import type { Technique } from '../../lesson/syntax/marks.ts';
import { BEND_SEMITONES, isNaturalHarmonic } from '../../score/performance-pitch.ts';
import type { Link, WrittenKnock, WrittenNote, WrittenStroke } from './written-note.ts';
import { element, emptyElement, textElement, type XmlElement } from './xml.ts';

/** One sounding of a string as a note element shows it. */
export interface ShownNote {
  readonly string: number;
  readonly fret: number;
  readonly note: WrittenNote;
  /** True for what is struck: the first of several that the left hand runs together. */
  readonly isStruck: boolean;
  /** True for the last of them, which has the written length. */
  readonly isLast: boolean;
  readonly links: readonly Link[];
  readonly stroke?: WrittenStroke | undefined;
  /** One sign serves all notes of a chord. */
  readonly showsStroke: boolean;
}

/** The `notations` of a note but for ties and tuplets, in the order in which they are read aloud. */
export function notationsOf(shown: ShownNote): readonly XmlElement[] {
  const { note, links, string, stroke, isStruck, showsStroke } = shown;
  const ornaments = ornamentsOf(shown);
  return [
    ...links.flatMap(({ kind, end }) =>
      kind === 'slide'
        ? [emptyElement('slide', { type: end, number: string, 'line-type': 'solid' })]
        : [emptyElement('slur', { type: end, number: string })],
    ),
    ...(ornaments.length === 0 ? [] : [element('ornaments', {}, ornaments)]),
    element('technical', {}, technicalOf(shown)),
    ...(note.accent && isStruck ? [element('articulations', {}, [emptyElement('accent')])] : []),
    // The arrow of an arpeggio points from the first string struck to the last: on a tab staff string 1 is on top.
    ...(stroke?.spread === true && isStruck
      ? [emptyElement('arpeggiate', { direction: stroke.direction === 'down' ? 'up' : 'down' })]
      : []),
    ...(stroke?.says !== undefined && showsStroke
      ? [textElement('other-notation', stroke.says, { type: 'single' })]
      : []),
  ];
}

function technicalOf({
  note,
  string,
  fret,
  isStruck,
  isLast,
  links,
  stroke,
  showsStroke,
}: ShownNote): readonly XmlElement[] {
  const { finger, leftFinger, restStroke, techniques } = note;
  return [
    // The standard's bow signs are also its signs of strokes on plucked strings (documentation of `up-bow`), and most programs read them;
    // an `arrow` would stand there as a second sign, and `arpeggiate` is kept for what is spread.
    ...(stroke !== undefined && showsStroke ? [emptyElement(stroke.direction === 'down' ? 'down-bow' : 'up-bow')] : []),
    ...(leftFinger === undefined || leftFinger === 0 || !isLast ? [] : [textElement('fingering', leftFinger)]),
    ...(finger === undefined || !isStruck ? [] : [textElement('pluck', finger)]),
    textElement('fret', fret),
    textElement('string', string),
    ...links.flatMap(({ kind, end }) =>
      kind === 'slide' ? [] : [textElement(kind, end === 'start' ? LETTERS[kind] : '', { type: end, number: string })],
    ),
    ...(isLast ? techniques.flatMap((technique) => lastingTechnique(technique, note)) : []),
    ...(restStroke && isStruck ? [textElement('other-technical', 'rest stroke')] : []),
  ];
}

const LETTERS = { 'hammer-on': 'H', 'pull-off': 'P' } as const;

function lastingTechnique({ kind }: Technique, { fret }: WrittenNote): readonly XmlElement[] {
  switch (kind) {
    case 'bend':
      return [element('bend', {}, [textElement('bend-alter', BEND_SEMITONES)])];
    case 'harmonic':
      return [
        element('harmonic', {}, [
          emptyElement(isNaturalHarmonic(fret) ? 'natural' : 'artificial'),
          emptyElement('sounding-pitch'),
        ]),
      ];
    default:
      return [];
  }
}

function ornamentsOf({ note, fret, isLast }: ShownNote): readonly XmlElement[] {
  if (!isLast) return [];
  return note.techniques.flatMap((technique): readonly XmlElement[] => {
    if (technique.kind === 'vibrato')
      return [emptyElement('wavy-line', { type: 'start' }), emptyElement('wavy-line', { type: 'stop' })];
    if (technique.kind !== 'trill') return [];
    const step = TRILL_STEPS[technique.fret - fret];
    const mark = emptyElement('trill-mark', step === undefined ? {} : { 'trill-step': step });
    // The mark alone says a step of the scale; any other fret is named.
    return step === undefined ? [mark, textElement('other-ornament', `trill with fret ${technique.fret}`)] : [mark];
  });
}

const TRILL_STEPS: Readonly<Record<number, string>> = { 1: 'half', 2: 'whole' };

/** The signs of a knock. */
export function knockNotations({ place, string, accent }: WrittenKnock): readonly XmlElement[] {
  const sign = SIGNS[place];
  return [
    element('technical', {}, [
      sign === undefined ? textElement('other-technical', place) : emptyElement(sign),
      string === undefined ? undefined : textElement('string', string),
    ]),
    ...(accent ? [element('articulations', {}, [emptyElement('accent')])] : []),
  ];
}

/** What the standard has a sign for: `golpe` is the knock on a guitar's body. */
const SIGNS: Readonly<Partial<Record<WrittenKnock['place'], string>>> = { body: 'golpe', nails: 'fingernails' };
