import { barresOf, fingersShown, fingersToShow } from '../../engrave/diagram-fingers.ts';
import { windowOf } from '../../engrave/diagram-window.ts';
import { fingeringFor } from '../../lesson/model/fingerings.ts';
import type { ResolvedChord } from '../../lesson/model/resolved-chord.ts';
import type { Scope } from '../../lesson/model/scope.ts';
import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import { type Key, spellPitchClass } from '../../theory/key.ts';
import { accidentalAt, type Note, pitchClass, printNote } from '../../theory/note.ts';
import { type HarmonyDegree, kindOf } from './harmony-kind.ts';
import { element, emptyElement, textElement, type XmlElement } from './xml.ts';

export interface HarmonyContext {
  readonly scope: Scope;
  /** The key that is heard. */
  readonly key: Key | undefined;
  /** How far the chord sounds above its name, by the capo. Unit: semitones. */
  readonly soundsAbove: number;
}

/** Where a chord symbol stands, and whether its diagram is to be seen. */
export interface HarmonyPlace {
  /** From where it is written in the measure. Unit: ticks. */
  readonly offset: number;
  readonly printsFrame: boolean;
}

/**
 * A chord symbol with its diagram. The root is the sounding one, and the name on the page is that of the shape in the hand: with a capo
 * the two differ, and `text` says the second.
 */
export function harmonyElement(
  chord: ResolvedChord | undefined,
  context: HarmonyContext,
  { offset, printsFrame }: HarmonyPlace,
): XmlElement {
  const frame = chord === undefined ? undefined : frameElement(chord, context.scope);
  return element('harmony', { 'print-frame': frame === undefined ? undefined : printsFrame ? 'yes' : 'no' }, [
    ...(chord === undefined ? NO_CHORD : chordElements(chord.symbol, context)),
    frame,
    offset === 0 ? undefined : textElement('offset', offset),
  ]);
}

/** The standard wants a root also where no chord is played; an empty `text` keeps it off the page. */
const NO_CHORD: readonly XmlElement[] = [
  element('root', {}, [textElement('root-step', 'C', { text: '' })]),
  textElement('kind', 'none', { text: 'N.C.' }),
];

function chordElements(symbol: ChordSymbol, { key, soundsAbove }: HarmonyContext): readonly XmlElement[] {
  const sounding = (note: Note): Note =>
    soundsAbove === 0 ? note : spellPitchClass(pitchClass(note) + soundsAbove, key);
  const { kind, degrees } = kindOf(symbol);
  const { root, bass } = symbol;
  return [
    noteElement('root', sounding(root), soundsAbove === 0 ? undefined : printNote(root, 'signs')),
    textElement('kind', kind, { text: suffixOf(symbol) }),
    ...(bass === undefined
      ? []
      : [noteElement('bass', sounding(bass), soundsAbove === 0 ? undefined : printNote(bass, 'signs'))]),
    ...degrees.map(degreeElement),
  ];
}

function noteElement(name: 'root' | 'bass', { letter, accidental }: Note, text: string | undefined): XmlElement {
  return element(name, {}, [
    textElement(`${name}-step`, letter, { text }),
    accidental === 0
      ? undefined
      : textElement(`${name}-alter`, accidental, { 'print-object': text === undefined ? undefined : 'no' }),
  ]);
}

/** What the name has between root and bass. It says all degrees, so that they are not printed once more. */
function suffixOf({ text, bass }: ChordSymbol): string {
  const afterRoot = text.slice(accidentalAt(text, 1).end);
  return bass === undefined ? afterRoot : afterRoot.slice(0, afterRoot.lastIndexOf('/'));
}

function degreeElement({ value, alter, type }: HarmonyDegree): XmlElement {
  return element('degree', { 'print-object': 'no' }, [
    textElement('degree-value', value),
    textElement('degree-alter', alter),
    textElement('degree-type', type),
  ]);
}

/** Nothing for a shape without a sounding string. */
function frameElement(chord: ResolvedChord, scope: Scope): XmlElement | undefined {
  const { shape } = chord;
  if (shape.every((fret) => fret === 'muted')) return undefined;
  const window = windowOf(shape);
  const fingered = { shape, ...fingersToShow(chord.fingers, fingeringFor(scope, chord)) };
  const fingers = fingersShown(fingered);
  const barres = barresOf(fingered);
  return element('frame', { unplayed: 'x' }, [
    textElement('frame-strings', shape.length),
    textElement('frame-frets', window.rows),
    window.firstFret === 1 ? undefined : textElement('first-fret', window.firstFret),
    ...shape.flatMap((fret, index) => {
      if (fret === 'muted') return [];
      const finger = fingers?.[index];
      // A barre begins at the string with the higher number.
      const begins = barres.some((barre) => barre.from === index);
      const ends = barres.some((barre) => barre.to === index);
      return [
        element('frame-note', {}, [
          textElement('string', shape.length - index),
          textElement('fret', fret),
          finger === undefined || finger === 0 || fret === 0 ? undefined : textElement('fingering', finger),
          begins || ends ? emptyElement('barre', { type: begins ? 'start' : 'stop' }) : undefined,
        ]),
      ];
    }),
  ]);
}
