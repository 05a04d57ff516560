import type { DiagramRequest } from '../engrave/chord-diagram.ts';
import { type FingeredShape, fingersToShow } from '../engrave/diagram-fingers.ts';
import { diagramPicture } from '../engrave/diagram-picture.ts';
import { pictureWithFurther } from '../engrave/further-shapes.ts';
import type { Fingering } from '../hand/fingering.ts';
import type { HandSize } from '../hand/hand.ts';
import type { ResolvedChord } from '../lesson/model/resolved-chord.ts';
import { neckAboveCapo } from '../neck/capo.ts';
import type { Instrument } from '../neck/instrument.ts';
import { soundingMidi, soundingPitches } from '../neck/pitches.ts';
import { printShape, type Shape, stringNumber } from '../neck/shape.ts';
import { type ChordSymbol, chordSymbol, chordTones } from '../theory/chord-symbol.ts';
import { type Key, spellPitchClass } from '../theory/key.ts';
import { type Note, type Pitch, pitchClass, printNote, printPitch } from '../theory/note.ts';
import { noteOfRole, printRole, type Role } from '../theory/role.ts';
import { fewNotesOf, tellFewNotes } from '../voicing/few-notes.ts';
import { fitName } from '../voicing/fit.ts';
import { type ChordName, type NamingContext, nameShape } from '../voicing/naming.ts';
import { usualFingering } from '../voicing/playable.ts';
import { toneRoles } from '../voicing/tone-roles.ts';
import type { Picture } from './answers.ts';
import { holdHead, holdText, lines } from './hold-lines.ts';
import { code, plain } from './markdown.ts';

/** How many other names a card lists; more would hide the ones that matter. */
const MOST_OTHER_NAMES = 4;

export interface ShapeQuestion {
  readonly shape: Shape;
  readonly instrument: Instrument;
  readonly hand: HandSize;
  readonly key: Key | undefined;
  /** What stands around the chord in the lesson, which decides between names of the same notes. */
  readonly context?: NamingContext;
  /** Further shapes of the same chord, shown small beside it. */
  readonly further?: readonly Shape[];
  /** The chord that the shape is held as; absent for a bare shape, which then gets its best name. */
  readonly chord?: Pick<ResolvedChord, 'name' | 'symbol' | 'fingers' | 'assumed'>;
  /** How the lesson holds it; where nothing is said, the way that the shape is held by itself. */
  readonly fingering?: Fingering | undefined;
}

/** A shape as a card: in its head whether the hand has it, with the caution; then notes and roles, how it is held, other names. */
export function shapeCard(question: ShapeQuestion): { readonly markdown: string; readonly picture: Picture } {
  const { shape, chord, key, further = [] } = question;
  // A card names what the hand holds; the capo has a line of its own.
  const instrument = neckAboveCapo(question.instrument);
  const names = nameShape(instrument, shape, question.context ?? (key === undefined ? {} : { key }));
  const fingering = question.fingering ?? usualFingering(question.instrument, shape, question.hand);
  const symbol = chord?.symbol ?? names[0]?.symbol;
  const title = chord?.name ?? names[0]?.text;
  const pitches = spelled(instrument, shape, symbol, key);
  const roles = symbol === undefined ? shape.map(() => undefined) : toneRoles(instrument, shape, symbol);
  const held = { ...question, ...(chord?.fingers === undefined ? {} : { given: chord.fingers }), fingering };
  const heading = `**${title === undefined ? 'Shape' : plain(title)}** ${code(printShape(shape))}${chord?.assumed === true ? ' (the usual shape; the lesson gives none)' : ''}`;
  const paragraphs = [
    lines(heading, ...holdHead(held)),
    notesLine(pitches, roles),
    symbol === undefined ? fewLine(instrument, shape, key) : undefined,
    capoLine(question.instrument, symbol),
    leftOut(instrument, shape, symbol),
    holdText(held),
    otherNames(names, title),
    furtherLine(further),
  ];
  const diagram: DiagramRequest = {
    shape,
    leftHanded: false,
    roles,
    ...(title === undefined ? {} : { name: title }),
    ...fingersToShow(chord?.fingers, fingering),
    ...(chord?.assumed === true ? { assumed: true } : {}),
  };
  return {
    markdown: paragraphs.filter((paragraph) => paragraph !== undefined).join('\n\n'),
    picture: pictureOfCard(
      diagram,
      further.map((one) => ({
        shape: one,
        ...fingersToShow(undefined, usualFingering(question.instrument, one, question.hand)),
      })),
    ),
  };
}

/** Largest picture of a card; a larger one is drawn without the further shapes, which stand in its words too. Unit: bytes. */
const LARGEST_PICTURE = 20_480;

function pictureOfCard(diagram: DiagramRequest, further: readonly FingeredShape[]): Picture {
  const picture = further.length === 0 ? diagramPicture(diagram) : pictureWithFurther(diagram, further);
  return picture.svg.length <= LARGEST_PICTURE ? picture : diagramPicture(diagram);
}

function furtherLine(further: readonly Shape[]): string | undefined {
  return further.length === 0
    ? undefined
    : `Further shapes: ${further.map((shape) => code(printShape(shape))).join(', ')}`;
}

/** What the shape sounds above the capo: `With the capo at fret 2 it sounds D.` */
function capoLine({ capoFret }: Instrument, symbol: ChordSymbol | undefined): string | undefined {
  if (capoFret === 0 || symbol === undefined) return undefined;
  const moved = (note: Note): Note => spellPitchClass((pitchClass(note) + capoFret) % 12);
  const sounding = chordSymbol(moved(symbol.root), symbol, symbol.bass === undefined ? undefined : moved(symbol.bass));
  return `With the capo at fret ${capoFret} it sounds ${plain(sounding.text)}.`;
}

/** `It sounds a major third, C and E.`; a chord is told by its name. */
function fewLine(instrument: Instrument, shape: Shape, key: Key | undefined): string | undefined {
  const few = fewNotesOf(soundingMidi(instrument, shape), key);
  return few === undefined || few.kind === 'silence' ? undefined : `It sounds ${plain(tellFewNotes(few))}.`;
}

/** Notes of the strings, spelled by the chord's letters where it has them. */
function spelled(
  instrument: Instrument,
  shape: Shape,
  symbol: ChordSymbol | undefined,
  key: Key | undefined,
): readonly (Pitch | undefined)[] {
  const byKey = soundingPitches(instrument, shape, key);
  if (symbol === undefined) return byKey;
  const tones = new Map(chordTones(symbol).map(({ note }) => [pitchClass(note), note]));
  return byKey.map((pitch) => {
    const note = pitch === undefined ? undefined : tones.get(pitchClass(pitch));
    if (
      pitch === undefined ||
      note === undefined ||
      (note.letter === pitch.letter && note.accidental === pitch.accidental)
    )
      return pitch;
    // Another letter may lie over the octave's border: B sharp 3 sounds as C4.
    const wraps =
      note.letter === 'B' && pitch.letter === 'C' ? -1 : note.letter === 'C' && pitch.letter === 'B' ? 1 : 0;
    return { ...note, octave: pitch.octave + wraps };
  });
}

function notesLine(pitches: readonly (Pitch | undefined)[], roles: readonly (string | undefined)[]): string {
  const notes = pitches.map((pitch, index) => {
    const string = stringNumber(index, pitches.length);
    const role = roles[index];
    return pitch === undefined
      ? `${string} not played`
      : `${string} ${plain(printPitch(pitch))}${role === undefined ? '' : ` (${role})`}`;
  });
  return `Strings: ${notes.join(', ')}`;
}

function leftOut(instrument: Instrument, shape: Shape, symbol: ChordSymbol | undefined): string | undefined {
  if (symbol === undefined) return undefined;
  const { missing, rootless } = fitName(instrument, shape, symbol);
  if (missing.length === 0) return undefined;
  const tones = missing.map((role) => `${printRole(role)} (${plain(printedNote(symbol, role))})`).join(', ');
  return `Left out: ${tones}${rootless ? '. The root is not sounded; another player or the ear adds it.' : ''}`;
}

function printedNote(symbol: ChordSymbol, role: Role): string {
  return printNote(noteOfRole(symbol.root, role));
}

function otherNames(names: readonly ChordName[], title: string | undefined): string | undefined {
  const others = names.filter((name) => name.ready && name.text !== title).slice(0, MOST_OTHER_NAMES);
  if (others.length === 0) return undefined;
  return `Other names: ${others.map((name) => `${plain(name.text)}${name.rootless ? ' (no root)' : name.omits.length > 0 ? ` (no ${name.omits.map((role) => printRole(role)).join(', ')})` : ''}`).join(', ')}`;
}
