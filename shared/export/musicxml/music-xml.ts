import type { ResolvedChord } from '../../lesson/model/resolved-chord.ts';
import type { Pass, ScoreBar } from '../../score/timeline.ts';
import { type Meter, printMeter } from '../../theory/meter.ts';
import { leastCommonMultiple } from '../../theory/rational.ts';
import type { ExportedExercise } from '../exported-exercise.ts';
import { instrumentSound } from '../instrument-sound.ts';
import { KNOCKS, type Knock, PERCUSSION_CHANNEL } from '../percussion.ts';
import { firstAttributes, meterAttributes } from './attributes-xml.ts';
import { barlinesOf } from './barline-xml.ts';
import { tempoElement, wordsElement } from './direction-xml.ts';
import { harmonyElement } from './harmony-xml.ts';
import { sungSyllables } from './lyric-xml.ts';
import { type Beside, musicOfMeasure } from './measure-xml.ts';
import type { NoteContext } from './note-xml.ts';
import type { WrittenVoice } from './written-note.ts';
import { writtenVoices } from './written-voices.ts';
import { element, printXml, textElement, type XmlElement } from './xml.ts';

/**
 * An exercise as a MusicXML 4.0 document with one part: a tab staff with everything that the sheet says in notes.
 *
 * There is a document for each exercise, as for MIDI and pictures: exercises differ in meter, tempo and repeats, a program opens one
 * piece at a time, and its title is the exercise's. Where a second `with` line gives the second time other patterns, its bars follow.
 * The tune and what accompanies it are two voices of the part, as they are played by one hand on one instrument.
 */
export function musicXmlOf(exercise: ExportedExercise): string {
  const { score, lessonTitle, title, by } = exercise;
  const passes = score.passes.map((pass) => ({ pass, voices: writtenVoices(pass.bars) }));
  const knocks = knocksIn(passes.flatMap(({ voices }) => voices.flat()));
  const root = element('score-partwise', { version: '4.0' }, [
    lessonTitle === '' ? undefined : element('work', {}, [textElement('work-title', lessonTitle)]),
    textElement('movement-number', exercise.number),
    textElement('movement-title', title),
    element('identification', {}, [
      by === undefined ? undefined : textElement('creator', by, { type: 'teacher' }),
      element('encoding', {}, [textElement('software', 'Handspan')]),
      score.aim === undefined
        ? undefined
        : element('miscellaneous', {}, [textElement('miscellaneous-field', score.aim, { name: 'aim' })]),
    ]),
    element('part-list', {}, [partElement(exercise, knocks)]),
    element('part', { id: PART }, measuresOf(exercise, passes)),
  ]);
  return printXml(root);
}

const PART = 'P1';

function soundId(knock?: Knock): string {
  return knock === undefined ? `${PART}-strings` : `${PART}-${knock}`;
}

function knocksIn(voices: readonly WrittenVoice[]): readonly Knock[] {
  const notes = voices.flatMap(({ entries }) => entries.flatMap((entry) => entry.notes));
  const found = new Set(notes.flatMap((note) => (note.kind === 'knock' ? [note.place] : [])));
  return (Object.keys(KNOCKS) as Knock[]).filter((knock) => found.has(knock));
}

function partElement({ instrument }: ExportedExercise, knocks: readonly Knock[]): XmlElement {
  const { midiProgram, musicXmlSound } = instrumentSound(instrument);
  return element('score-part', { id: PART }, [
    textElement('part-name', instrument.name),
    element('score-instrument', { id: soundId() }, [
      textElement('instrument-name', instrument.kind),
      textElement('instrument-sound', musicXmlSound),
    ]),
    ...knocks.map((knock) =>
      element('score-instrument', { id: soundId(knock) }, [textElement('instrument-name', KNOCKS[knock].name)]),
    ),
    // The standard counts channels, programs and keys from 1.
    element('midi-instrument', { id: soundId() }, [
      textElement('midi-channel', 1),
      textElement('midi-program', midiProgram + 1),
    ]),
    ...knocks.map((knock) =>
      element('midi-instrument', { id: soundId(knock) }, [
        textElement('midi-channel', PERCUSSION_CHANNEL + 1),
        textElement('midi-unpitched', KNOCKS[knock].midiKey + 1),
      ]),
    ),
  ]);
}

interface WrittenPass {
  readonly pass: Pass;
  readonly voices: readonly (readonly WrittenVoice[])[];
}

function measuresOf(exercise: ExportedExercise, passes: readonly WrittenPass[]): readonly XmlElement[] {
  const { instrument, soundingKey } = exercise;
  const divisions = divisionsOf(passes);
  const context: NoteContext = {
    instrument,
    key: soundingKey,
    divisions,
    soundId,
    language: exercise.lesson.settings.language,
  };
  const framed = new Set<string>();
  // One line of rhythm in all bars is one voice.
  const isOneVoice = passes.every(({ voices }) => voices.flat().every(({ side }) => side === 'below'));
  const measures: XmlElement[] = [];
  let meter: Meter | undefined;
  let numbered = 0;
  let pickups = 0;
  passes.forEach(({ pass, voices }, passIndex) => {
    const { bars } = pass;
    const syllables = sungSyllables(bars);
    const barlines = barlinesOf(bars, passIndex === passes.length - 1);
    bars.forEach((bar, index) => {
      const isFirst = measures.length === 0;
      const head: XmlElement[] = [];
      if (isFirst) head.push(firstAttributes(exercise, bar.meter, divisions));
      else if (meter === undefined || printMeter(meter) !== printMeter(bar.meter))
        head.push(meterAttributes(bar.meter));
      meter = bar.meter;
      if (isFirst) head.push(tempoElement(exercise.tempo, exercise.pace, exercise.feel, bar.meter));
      if (index === 0 && pass.number !== undefined) head.push(wordsElement(passText(pass), 'above', 0));
      const isPickup = bar.number === undefined;
      if (isPickup) pickups += 1;
      else numbered += 1;
      const number = !isPickup ? String(numbered) : pickups === 1 && numbered === 0 ? '0' : `X${pickups}`;
      const beside = besideOf(bar, exercise, framed);
      measures.push(
        element('measure', { number, implicit: isPickup ? 'yes' : undefined }, [
          barlines[index]?.left,
          ...head,
          ...musicOfMeasure(voices[index] ?? [], bar.length, beside, syllables[index] ?? [], context, isOneVoice),
          barlines[index]?.right,
        ]),
      );
    });
  });
  return measures;
}

function passText({ number, with: patterns }: Pass): string {
  return `Time ${number}: ${patterns.join(', ')}`;
}

/** Ticks of a quarter in which every length of the exercise is a whole number. */
function divisionsOf(passes: readonly WrittenPass[]): number {
  const lengths = passes.flatMap(({ pass, voices }) => [
    ...pass.bars.flatMap((bar) => [
      bar.length,
      ...bar.chords.map(({ at }) => at),
      ...bar.syllables.map(({ at }) => at),
    ]),
    ...pass.bars.flatMap((bar) => bar.calls.map(({ at }) => at)),
    ...voices.flatMap((lines) => lines.flatMap(({ entries }) => entries.map(({ length }) => length))),
  ]);
  const whole = lengths.reduce((ticks, { denominator }) => leastCommonMultiple(ticks, denominator), 4);
  return whole / 4;
}

/** Chord symbols and what the teacher calls out. */
function besideOf(bar: ScoreBar, exercise: ExportedExercise, framed: Set<string>): readonly Beside[] {
  const context = { scope: exercise.scope, key: exercise.soundingKey, soundsAbove: exercise.soundsAbove };
  return [
    ...bar.chords.map(({ at, chord }): Beside => {
      const printsFrame = chord !== undefined && isNew(framed, chord);
      return { at, write: (offset) => harmonyElement(chord, context, { offset, printsFrame }) };
    }),
    ...bar.calls.map(
      ({ at, text }): Beside => ({ at, write: (offset) => wordsElement(text, 'above', offset, 'italic') }),
    ),
  ];
}

/** A diagram is looked at once; after that the name is enough. */
function isNew(framed: Set<string>, { text, shape }: ResolvedChord): boolean {
  const key = `${text} ${shape.join('-')}`;
  if (framed.has(key)) return false;
  framed.add(key);
  return true;
}
