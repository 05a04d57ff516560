import { USUAL_HAND } from '../../shared/hand/hand.ts';
import { CAUTION_ON_STRETCH, judgeReach } from '../../shared/hand/reach.ts';
import { neckAboveCapo } from '../../shared/neck/capo.ts';
import type { Instrument } from '../../shared/neck/instrument.ts';
import { parseInstrument } from '../../shared/neck/instruments.ts';
import { soundingMidi } from '../../shared/neck/pitches.ts';
import { printShape } from '../../shared/neck/shape.ts';
import { readFrets } from '../../shared/neck/shape-reader.ts';
import type { ChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { chordTones, parseChordSymbol, printChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { pitchClass, printNote } from '../../shared/theory/note.ts';
import { printRole } from '../../shared/theory/role.ts';
import { type ShapeWishes, shapesFor, type Voicing } from '../../shared/voicing/shapes.ts';
import { asked, USUAL_INSTRUMENT } from './asked.ts';
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
}

interface AnswerForScripts {
  readonly chord: string;
  readonly on: string;
  readonly shapes: readonly ShapeForScripts[];
}

export const shapes: Command = {
  usage: 'handspan shapes CHORD [--on INSTRUMENT] [--max N] [--within A-B] [--ring STRINGS] [--near SHAPE] [--json]',
  summary: 'find shapes of a chord',
  details: `CHORD is a chord name: Em, Cmaj7, G/B.
  --on      the instrument, as a lesson says it; "${USUAL_INSTRUMENT}" where nothing is said
  --max     so many shapes at most, ${USUAL_COUNT} where nothing is said
  --within  the lowest and the highest fret that may be stopped, as in 5-9; open strings are free
  --ring    numbers of strings that stay open and ring, as in "1 2"; string 1 is nearest the floor
  --near    the shape that the hand comes from: near ones first
  --json    print {chord, on, shapes: [{shape, notes, omits, bass, span, reachMm}]}, best shape first
Frets count from the capo, and the chord is named as it is held. Exit status: 0 also where there is no shape; 2 wrong call.`,

  async run(words, terminal) {
    const text = { type: 'string' } as const;
    const options = { on: text, max: text, within: text, ring: text, near: text, json: { type: 'boolean' } } as const;
    const { values, positionals } = readWords(words, options);
    const [name, more] = positionals;
    if (name === undefined) throw new UsageError('say the chord');
    if (more !== undefined) throw new UsageError(`say one chord: after ${name} stands ${more}`);
    const instrument = asked('--on', parseInstrument(values.on ?? USUAL_INSTRUMENT));
    const symbol = asked('CHORD', parseChordSymbol(name));
    const wishes: ShapeWishes = {
      max: values.max === undefined ? USUAL_COUNT : countAsked(values.max),
      ...(values.within === undefined ? {} : { within: fretsAsked(values.within) }),
      ...(values.ring === undefined ? {} : { ringOpen: stringsAsked(values.ring, instrument) }),
      ...(values.near === undefined
        ? {}
        : { near: asked('--near', readFrets(values.near, instrument.openStrings.length)).shape }),
    };
    const held = neckAboveCapo(instrument);
    const found = shapesFor(symbol, held, wishes);
    if (values.json === true) {
      const answer: AnswerForScripts = {
        chord: printChordSymbol(symbol),
        on: instrument.name,
        shapes: found.map((voicing) => shapeForScripts(held, symbol, voicing)),
      };
      terminal.out(`${JSON.stringify(answer, undefined, 2)}\n`);
    } else terminal.out(printed(instrument, symbol, found));
    return 0;
  },
};

function countAsked(text: string): number {
  const count = Number(text);
  if (/^\d+$/.test(text) && count >= 1 && count <= MOST_COUNT) return count;
  throw new UsageError(`--max: "${text}" is not a number from 1 to ${MOST_COUNT}`);
}

function fretsAsked(text: string): readonly [number, number] {
  const [, low, high] = /^\s*(\d{1,2})\s*[-–]\s*(\d{1,2})\s*$/.exec(text) ?? [];
  if (low !== undefined && high !== undefined && Number(low) <= Number(high)) return [Number(low), Number(high)];
  throw new UsageError(`--within: "${text}" is not a lowest and a highest fret, as in 5-9`);
}

function stringsAsked(text: string, { name, openStrings }: Instrument): readonly number[] {
  return text
    .split(/[\s,]+/)
    .filter((word) => word !== '')
    .map((word) => {
      const number = Number(word);
      if (/^\d$/.test(word) && number >= 1 && number <= openStrings.length) return number;
      throw new UsageError(
        `--ring: "${word}" is not a string of ${name}, which has strings 1 to ${openStrings.length}`,
      );
    });
}

function shapeForScripts(held: Instrument, symbol: ChordSymbol, voicing: Voicing): ShapeForScripts {
  return {
    shape: printShape(voicing.shape),
    notes: notesOf(held, symbol, voicing),
    omits: voicing.omits.map((role) => printRole(role, 'letters')),
    bass: printNote(voicing.bass),
    span: voicing.spanFrets,
    reachMm: Math.round(voicing.reachMm * 10) / 10,
  };
}

/** The sounding strings in chart order, as the chord spells them. */
function notesOf(held: Instrument, symbol: ChordSymbol, { shape }: Voicing): readonly string[] {
  const notes = [...(symbol.bass === undefined ? [] : [symbol.bass]), ...chordTones(symbol).map(({ note }) => note)];
  const spelled = new Map(notes.map((note) => [pitchClass(note), printNote(note)]));
  return soundingMidi(held, shape).flatMap((midi) => (midi === undefined ? [] : (spelled.get(midi % 12) ?? [])));
}

function printed(instrument: Instrument, symbol: ChordSymbol, found: readonly Voicing[]): string {
  const head = `${printChordSymbol(symbol)} on ${instrument.name}:`;
  if (found.length === 0) return `${head} no shape\n`;
  const held = neckAboveCapo(instrument);
  const lines = found.map((voicing) => {
    const { shape, notes, omits, bass } = shapeForScripts(held, symbol, voicing);
    const without = omits.length === 0 ? '' : `, without ${omits.join(' ')}`;
    return `  ${shape}: ${notes.join(' ')}${without}, ${bass} lowest${toldReach(held, voicing)}\n`;
  });
  const stretches = found.some(({ spanFrets }) => spanFrets > 0);
  return `${head} best first\n${lines.join('')}${stretches ? `${CAUTION_ON_STRETCH}\n` : ''}`;
}

function toldReach(held: Instrument, { shape, spanFrets, reachMm }: Voicing): string {
  if (spanFrets === 0) return '';
  const verdict = judgeReach(held, shape, USUAL_HAND)?.verdict;
  const told = verdict === 'stretched' ? ', a stretch' : verdict === 'out-of-reach' ? ', out of most reach' : '';
  return `, ${spanFrets} ${spanFrets === 1 ? 'fret' : 'frets'} or ${Math.round(reachMm)} mm${told}`;
}
