import { printFingers } from '../../shared/assist/hold-lines.ts';
import { difficultyOfShape } from '../../shared/hand/difficulty.ts';
import type { Finger } from '../../shared/hand/finger.ts';
import type { Fingering } from '../../shared/hand/fingering.ts';
import { describeHand, type HandSize, parseHand, printHand, USUAL_HAND } from '../../shared/hand/hand.ts';
import { CAUTION_ON_STRETCH, type ReachVerdict } from '../../shared/hand/reach.ts';
import { roundedPoints, tellDifficulty } from '../../shared/hand/tell-difficulty.ts';
import { neckAboveCapo } from '../../shared/neck/capo.ts';
import type { Instrument } from '../../shared/neck/instrument.ts';
import { parseInstrument } from '../../shared/neck/instruments.ts';
import { soundingMidi } from '../../shared/neck/pitches.ts';
import { printShape } from '../../shared/neck/shape.ts';
import { readFrets } from '../../shared/neck/shape-reader.ts';
import type { ChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { chordTones, parseChordSymbol, printChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { spellPitchClass } from '../../shared/theory/key.ts';
import { pitchClass, printNote } from '../../shared/theory/note.ts';
import { printRole } from '../../shared/theory/role.ts';
import { playableFirst, usualFingering } from '../../shared/voicing/playable.ts';
import { type ShapeWishes, shapesFor, type Voicing } from '../../shared/voicing/shapes.ts';
import { asked, countAsked, fretsAsked, onNeck, stringsAsked, USUAL_INSTRUMENT } from './asked.ts';
import { readWords } from './read-words.ts';
import { type Command, UsageError } from './terminal.ts';

/** Shapes that are told where no number is said, and the most that may be asked for. */
const USUAL_COUNT = 12;
const MOST_COUNT = 10_000;

/** One shape as scripts read it; accidentals are letters, as in the name: `Bb`, `F#`, `b7`. */
interface ShapeForScripts {
  readonly shape: string;
  /** The strings that are not muted, in chart order, spelled as the chord spells them; a capo counts as the nut. */
  readonly notes: readonly string[];
  readonly omits: readonly string[];
  readonly bass: string;
  /** Frets between the lowest and the highest that are stopped, and the same along the neck. Unit: frets, mm. */
  readonly span: number;
  readonly reachMm: number;
  /** In chart order, 0 for a string that no finger makes sound; absent where four fingers of the hand cannot stop the shape. */
  readonly fingers?: readonly (Finger | 0)[];
  /** What the fingers' reach is to the hand; absent with them. */
  readonly verdict?: ReachVerdict;
  /** 0 to 10; absent with the fingers. */
  readonly difficulty?: number;
}

interface AnswerForScripts {
  readonly chord: string;
  readonly on: string;
  /** Whose hand holds the shapes. */
  readonly hand: string;
  readonly shapes: readonly ShapeForScripts[];
}

export const shapes: Command = {
  usage:
    'handspan shapes CHORD [--on INSTRUMENT] [--max N] [--within A-B] [--ring STRINGS] [--near SHAPE] [--hand HAND] [--json]',
  summary: 'find shapes of a chord',
  details: `CHORD is a chord name: Em, Cmaj7, G/B.
  --on      the instrument, as a lesson says it; "${USUAL_INSTRUMENT}" where nothing is said
  --max     so many shapes at most, ${USUAL_COUNT} where nothing is said
  --within  the lowest and the highest fret that may be stopped, as in 5-9; open strings are free
  --ring    numbers of strings that stay open and ring, as in "1 2"; string 1 is nearest the floor
  --near    the shape that the hand comes from: near ones first
  --hand    small, medium, large, child, or its span from thumb to little finger in mm; "${printHand(USUAL_HAND)}" where nothing is said.
            What it cannot hold comes last
  --json    print {chord, on, hand, shapes: [{shape, notes, omits, bass, span, reachMm, fingers, verdict, difficulty}]}, best
            shape first. span and reachMm go along the neck from the lowest to the highest stopped fret. fingers: one for
            each string, 1 index to 4 little finger, T thumb, 0 none; verdict: comfortable, stretched or out-of-reach;
            difficulty: 0 to 10. The last three are left out where four fingers cannot hold the shape
Frets count from the capo, and the chord is named as it is held. Fingers and difficulty are estimates for a typical hand.
Exit status: 0 also where there is no shape; 2 wrong call.`,

  async run(words, terminal) {
    const text = { type: 'string' } as const;
    const options = {
      on: text,
      max: text,
      within: text,
      ring: text,
      near: text,
      hand: text,
      json: { type: 'boolean' },
    } as const;
    const { values, positionals } = readWords(words, options);
    const [name, more] = positionals;
    if (name === undefined) throw new UsageError('say the chord');
    if (more !== undefined) throw new UsageError(`say one chord: after ${name} stands ${more}`);
    const instrument = asked('--on', parseInstrument(values.on ?? USUAL_INSTRUMENT));
    const symbol = asked('CHORD', parseChordSymbol(name));
    const strings = instrument.openStrings.length;
    const wishes: ShapeWishes = {
      max: values.max === undefined ? USUAL_COUNT : countAsked('--max', values.max, MOST_COUNT),
      ...(values.within === undefined ? {} : { within: fretsAsked(values.within, instrument) }),
      ...(values.ring === undefined ? {} : { ringOpen: stringsAsked(values.ring, instrument) }),
      ...(values.near === undefined
        ? {}
        : { near: onNeck('--near', instrument, asked('--near', readFrets(values.near, strings)).shape) }),
    };
    const held = neckAboveCapo(instrument);
    const hand = values.hand === undefined ? USUAL_HAND : asked('--hand', parseHand(values.hand));
    const found = writtenBassFirst(symbol, playableFirst(shapesFor(symbol, held, wishes), held, hand));
    if (values.json === true) {
      const answer: AnswerForScripts = {
        chord: printChordSymbol(symbol),
        on: instrument.name,
        hand: printHand(hand),
        shapes: found.map((voicing) => shapeForScripts(held, symbol, voicing, hand)),
      };
      terminal.out(`${JSON.stringify(answer, undefined, 2)}\n`);
    } else if (found.length === 0) terminal.out(tellNone(instrument, symbol, wishes));
    else terminal.out(printed(instrument, symbol, found, hand));
    return 0;
  },
};

/** Who writes a bass asks for it: shapes that have it lowest come first, in their order. */
function writtenBassFirst({ bass }: ChordSymbol, found: readonly Voicing[]): readonly Voicing[] {
  if (bass === undefined) return found;
  const isBased = (voicing: Voicing) => pitchClass(voicing.bass) === pitchClass(bass);
  return [...found.filter(isBased), ...found.filter((voicing) => !isBased(voicing))];
}

/** Why there is no shape: the first wish without which there would be one. */
function tellNone(instrument: Instrument, symbol: ChordSymbol, wishes: ShapeWishes): string {
  const held = neckAboveCapo(instrument);
  const name = printChordSymbol(symbol);
  const notes = [...chordTones(symbol).map(({ note }) => note), ...(symbol.bass === undefined ? [] : [symbol.bass])];
  const tones = new Set(notes.map(pitchClass));
  const sounding = soundingMidi(
    held,
    held.openStrings.map(() => 0),
  );
  const foreign = (wishes.ringOpen ?? []).flatMap((string) => {
    const midi = sounding[sounding.length - string];
    if (midi === undefined || tones.has(midi % 12)) return [];
    return [`string ${string} open is ${printNote(spellPitchClass(midi % 12))}`];
  });
  const { ringOpen: _ring, ...free } = wishes;
  const { within: _within, ...anywhere } = wishes;
  const why =
    foreign.length > 0
      ? `, because ${foreign.join(' and ')}, which ${name} does not have`
      : wishes.ringOpen !== undefined && shapesFor(symbol, held, free).length > 0
        ? ' while those strings stay open; without --ring there are some'
        : wishes.within !== undefined && shapesFor(symbol, held, anywhere).length > 0
          ? ` between frets ${wishes.within.join(' and ')}; elsewhere on the neck there are some`
          : '';
  return `${name} on ${instrument.name}: no shape${why}\n`;
}

function shapeForScripts(held: Instrument, symbol: ChordSymbol, voicing: Voicing, hand: HandSize): ShapeForScripts {
  const fingering = usualFingering(held, voicing.shape, hand);
  return {
    shape: printShape(voicing.shape),
    notes: notesOf(held, symbol, voicing),
    omits: voicing.omits.map((role) => printRole(role, 'letters')),
    bass: printNote(voicing.bass),
    span: voicing.spanFrets,
    reachMm: Math.round(voicing.reachMm * 10) / 10,
    ...(fingering === undefined
      ? {}
      : {
          fingers: fingering.fingers.map((finger) => finger ?? 0),
          verdict: fingering.verdict,
          difficulty: roundedPoints(difficultyOfShape(fingering).total),
        }),
  };
}

/** The sounding strings in chart order, as the chord spells them. */
function notesOf(held: Instrument, symbol: ChordSymbol, { shape }: Voicing): readonly string[] {
  const notes = [...(symbol.bass === undefined ? [] : [symbol.bass]), ...chordTones(symbol).map(({ note }) => note)];
  const spelled = new Map(notes.map((note) => [pitchClass(note), printNote(note)]));
  return soundingMidi(held, shape).flatMap((midi) => (midi === undefined ? [] : (spelled.get(midi % 12) ?? [])));
}

function printed(instrument: Instrument, symbol: ChordSymbol, found: readonly Voicing[], hand: HandSize): string {
  const head = `${printChordSymbol(symbol)} on ${instrument.name}:`;
  const held = neckAboveCapo(instrument);
  const lines = found.map((voicing) => {
    const { shape, notes, omits, bass } = shapeForScripts(held, symbol, voicing, hand);
    const without = omits.length === 0 ? '' : `, without ${omits.join(' ')}`;
    const hold = toldHold(usualFingering(held, voicing.shape, hand), hand);
    return `  ${shape}: ${notes.join(' ')}${without}, ${bass} lowest${toldReach(voicing)}, ${hold}\n`;
  });
  return `${head} best first\n${lines.join('')}Difficulty is an estimate for a typical hand. ${CAUTION_ON_STRETCH}\n`;
}

function toldReach({ spanFrets, reachMm }: Voicing): string {
  return spanFrets === 0 ? '' : `, ${spanFrets} ${spanFrets === 1 ? 'fret' : 'frets'} or ${Math.round(reachMm)} mm`;
}

/** `fingers 0-3-2-1, 2.5 of 10, elementary` */
function toldHold(fingering: Fingering | undefined, hand: HandSize): string {
  if (fingering === undefined) return 'more than four fingers can stop';
  if (fingering.presses.length === 0) return 'no finger';
  const fingers = `fingers ${printFingers(fingering)}`;
  const difficulty = tellDifficulty(difficultyOfShape(fingering));
  switch (fingering.verdict) {
    case 'comfortable':
      return `${fingers}, ${difficulty}`;
    case 'stretched':
      return `${fingers}, a stretch, ${difficulty}`;
    case 'out-of-reach':
      return `${fingers}, out of reach for ${describeHand(hand)}`;
  }
}
