import type { Technique } from '../../lesson/syntax/marks.ts';
import type { Instrument } from '../../neck/instrument.ts';
import { harmonicMidi, has, midiOn } from '../../score/performance-pitch.ts';
import type { Key } from '../../theory/key.ts';
import { type Rational, toNumber } from '../../theory/rational.ts';
import type { Knock } from '../percussion.ts';
import { beamsOfEntry, type EntryPlace, timeModificationOf, tupletsOfEntry } from './group-xml.ts';
import { NOTE_TYPES } from './note-types.ts';
import { pitchElement } from './pitch-xml.ts';
import { knockNotations, notationsOf, type ShownNote } from './technical-xml.ts';
import type { Link, WrittenEntry, WrittenKnock, WrittenNote } from './written-note.ts';
import { element, emptyElement, textElement, type XmlElement } from './xml.ts';

/** What all notes of a part share. */
export interface NoteContext {
  readonly instrument: Instrument;
  readonly key: Key | undefined;
  /** Ticks of a quarter, in which lengths are counted. */
  readonly divisions: number;
  /** The `id` of what sounds: strings, or a knock. */
  readonly soundId: (knock?: Knock) => string;
  /** Tag of the language of what is sung. Source: BCP 47. */
  readonly language: string | undefined;
}

/** A length in ticks. */
export function ticksOf(length: Rational, divisions: number): number {
  return Math.round(toNumber(length) * 4 * divisions);
}

/** An entry as `note` elements: what is run together quickly as grace notes first, then the notes that have the length. */
export function noteElements(
  entry: WrittenEntry,
  place: EntryPlace,
  context: NoteContext,
  lyrics: readonly XmlElement[],
): readonly XmlElement[] {
  if (entry.notes.length === 0) return [restElement(entry, place, context, lyrics)];
  const strings = entry.notes.filter((note): note is WrittenNote => note.kind === 'string');
  const knocks = entry.notes.filter((note): note is WrittenKnock => note.kind === 'knock');
  const chains = strings.map(chainOf);
  const longest = Math.max(0, ...chains.map((chain) => chain.length));
  const elements: XmlElement[] = [];
  // Chains end together: a note that leads nowhere waits for the others.
  for (let step = longest; step >= 1; step -= 1) {
    let isFirst = true;
    for (const chain of chains) {
      const link = chain[chain.length - step];
      if (link === undefined) continue;
      const isLast = step === 1;
      const shown = { ...link, stroke: entry.stroke, showsStroke: isFirst && link.isStruck };
      elements.push(
        isLast
          ? stringNote(shown, entry, place, context, isFirst, isFirst ? lyrics : [])
          : graceNote(shown, place, context, isFirst, longest - 1),
      );
      isFirst = false;
    }
  }
  knocks.forEach((knock, index) => {
    const isFirst = strings.length === 0 && index === 0;
    elements.push(knockNote(knock, entry, place, context, isFirst, isFirst ? lyrics : []));
  });
  return elements;
}

type ChainLink = Omit<ShownNote, 'stroke' | 'showsStroke'>;

/** A note and where the left hand leads it at once: `1:5h7p5` are three sounds under one length. */
function chainOf(note: WrittenNote): readonly ChainLink[] {
  const moves = note.techniques.filter(isMove);
  const frets = [note.fret, ...moves.map(({ fret }) => fret)];
  return frets.map((fret, step): ChainLink => {
    const isStruck = step === 0;
    const isLast = step === moves.length;
    const before = moves[step - 1];
    const after = moves[step];
    const links: Link[] = [
      ...(isStruck ? note.links.filter(({ end }) => end === 'stop') : []),
      ...(before === undefined ? [] : [{ kind: before.kind, end: 'stop' as const }]),
      ...(after === undefined ? [] : [{ kind: after.kind, end: 'start' as const }]),
      ...(isLast ? note.links.filter(({ end }) => end === 'start') : []),
    ];
    return { string: note.string, fret, note, isStruck, isLast, links };
  });
}

type Move = Extract<Technique, { readonly fret: number }> & { readonly kind: Link['kind'] };

function isMove(technique: Technique): technique is Move {
  return technique.kind === 'hammer-on' || technique.kind === 'pull-off' || technique.kind === 'slide';
}

/** So much of its main note a grace note takes, so that it is struck on the beat. Unit: percent. Common practice, no source. */
const GRACE_PERCENT = 20;

function graceNote(
  shown: ShownNote,
  { number }: EntryPlace,
  context: NoteContext,
  isFirst: boolean,
  count: number,
): XmlElement {
  const midi = midiOn(context.instrument, shown.string, shown.fret) ?? 0;
  return element('note', {}, [
    emptyElement('grace', {
      'steal-time-following': Math.round(GRACE_PERCENT / count),
      slash: count === 1 ? 'yes' : undefined,
    }),
    isFirst ? undefined : emptyElement('chord'),
    pitchElement(midi, context.key),
    emptyElement('instrument', { id: context.soundId() }),
    textElement('voice', number),
    textElement('type', count === 1 ? 'eighth' : '16th'),
    element('notations', {}, notationsOf(shown)),
  ]);
}

function stringNote(
  shown: ShownNote,
  entry: WrittenEntry,
  place: EntryPlace,
  context: NoteContext,
  isFirst: boolean,
  lyrics: readonly XmlElement[],
): XmlElement {
  const { note, string, fret } = shown;
  const midi = (has(note.techniques, 'harmonic') ? harmonicMidi : midiOn)(context.instrument, string, fret) ?? 0;
  return element('note', {}, [
    isFirst ? undefined : emptyElement('chord'),
    pitchElement(midi, context.key),
    textElement('duration', ticksOf(entry.length, context.divisions)),
    ...tiesOf(note).map((type) => emptyElement('tie', { type })),
    emptyElement('instrument', { id: context.soundId() }),
    ...timingElements(entry, place),
    note.dead ? textElement('notehead', 'x') : undefined,
    note.light ? textElement('notehead', 'normal', { parentheses: 'yes' }) : undefined,
    ...(isFirst ? beamsOfEntry(place) : []),
    element('notations', {}, [
      ...tiesOf(note).map((type) => emptyElement('tied', { type })),
      ...(isFirst ? tupletsOfEntry(place) : []),
      ...notationsOf(shown),
    ]),
    ...lyrics,
  ]);
}

function tiesOf({ tiedFrom, tiedOn }: WrittenNote): readonly string[] {
  return [...(tiedFrom ? ['stop'] : []), ...(tiedOn ? ['start'] : [])];
}

function knockNote(
  knock: WrittenKnock,
  entry: WrittenEntry,
  place: EntryPlace,
  context: NoteContext,
  isFirst: boolean,
  lyrics: readonly XmlElement[],
): XmlElement {
  return element('note', {}, [
    isFirst ? undefined : emptyElement('chord'),
    emptyElement('unpitched'),
    textElement('duration', ticksOf(entry.length, context.divisions)),
    emptyElement('instrument', { id: context.soundId(knock.place) }),
    ...timingElements(entry, place),
    textElement('notehead', 'x'),
    ...(isFirst ? beamsOfEntry(place) : []),
    element('notations', {}, [...(isFirst ? tupletsOfEntry(place) : []), ...knockNotations(knock)]),
    ...lyrics,
  ]);
}

function restElement(
  entry: WrittenEntry,
  place: EntryPlace,
  context: NoteContext,
  lyrics: readonly XmlElement[],
): XmlElement {
  const tuplets = tupletsOfEntry(place);
  return element('note', {}, [
    emptyElement('rest', entry.wholeBar ? { measure: 'yes' } : {}),
    textElement('duration', ticksOf(entry.length, context.divisions)),
    ...(entry.wholeBar ? [textElement('voice', place.number)] : timingElements(entry, place)),
    ...(tuplets.length === 0 ? [] : [element('notations', {}, tuplets)]),
    ...lyrics,
  ]);
}

function timingElements(entry: WrittenEntry, place: EntryPlace): readonly XmlElement[] {
  return [
    textElement('voice', place.number),
    textElement('type', NOTE_TYPES[entry.value]),
    ...Array.from({ length: entry.dots }, () => emptyElement('dot')),
    ...timeModificationOf(place),
  ];
}
