import type { Instrument } from '../../shared/neck/instrument.ts';
import { parseInstrument, withCapo } from '../../shared/neck/instruments.ts';
import { soundingMidi, soundingPitches } from '../../shared/neck/pitches.ts';
import { printShape, type Shape } from '../../shared/neck/shape.ts';
import { readFrets } from '../../shared/neck/shape-reader.ts';
import { parseChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { parseKey } from '../../shared/theory/key.ts';
import { parseNote, pitchNamed, printNote, printPitch } from '../../shared/theory/note.ts';
import { printRole } from '../../shared/theory/role.ts';
import { fewNotesOf, tellFewNotes } from '../../shared/voicing/few-notes.ts';
import { type ChordName, type NamingContext, nameShape, tonesUnder } from '../../shared/voicing/naming.ts';
import { asked, onNeck, USUAL_INSTRUMENT } from './asked.ts';
import { readWords } from './read-words.ts';
import { type Command, UsageError } from './terminal.ts';

/** Names that are printed for reading; scripts get them all. */
const MOST_PRINTED = 8;

/** One name as scripts read it; accidentals are letters, as in the name: `Bb`, `F#`, `b7`. */
interface NameForScripts {
  readonly name: string;
  readonly root: string;
  readonly bass: string;
  readonly omits: readonly string[];
  readonly rootless: boolean;
  /** False for a name that is true but far-fetched. */
  readonly ready: boolean;
  readonly tones: Readonly<Record<string, string>>;
}

interface AnswerForScripts {
  readonly shape: string;
  readonly on: string;
  /** The strings that are not muted, in chart order, spelled as the best name spells them; a capo counts as the nut. */
  readonly notes: readonly string[];
  /** What sounds, with the octave and above the capo; C4 is middle C. */
  readonly pitches: readonly string[];
  /** What sounds when it is no chord or hardly one: `the note C`, `a major third, C and E`. */
  readonly few?: string;
  readonly names: readonly NameForScripts[];
}

export const name: Command = {
  usage: 'handspan name SHAPE [--on INSTRUMENT] [--key KEY] [--previous CHORD] [--next CHORD] [--bass NOTE] [--json]',
  summary: 'say what a shape is called',
  details: `SHAPE has a fret for every string, from the highest-numbered one to string 1: 0-4-3-2, 0432, x-0-1-2.
  --on    the instrument, as a lesson says it; "${USUAL_INSTRUMENT}" where nothing is said
  --key   the key that the chord stands in, such as "D minor": it decides between names of the same notes
  --previous, --next  the chords before and after it, which decide too
  --bass  the note that another player sounds below
  --json  print {shape, on, notes, pitches, few, names: [{name, root, bass, omits, rootless, ready, tones}]}, best name first;
          few only where fewer than three different notes sound
Exit status: 0 also where there is no name; 2 wrong call.`,

  async run(words, terminal) {
    const text = { type: 'string' } as const;
    const options = { on: text, key: text, previous: text, next: text, bass: text, json: { type: 'boolean' } } as const;
    const { values, positionals } = readWords(words, options);
    if (positionals.length === 0) throw new UsageError('say the shape');
    const instrument = asked('--on', parseInstrument(values.on ?? USUAL_INSTRUMENT));
    const context: NamingContext = {
      ...(values.key === undefined ? {} : { key: asked('--key', parseKey(values.key)) }),
      ...(values.previous === undefined ? {} : { previous: asked('--previous', parseChordSymbol(values.previous)) }),
      ...(values.next === undefined ? {} : { next: asked('--next', parseChordSymbol(values.next)) }),
      ...(values.bass === undefined ? {} : { bassElsewhere: asked('--bass', parseNote(values.bass)) }),
    };
    // Frets with blanks between them come as several words.
    const { shape } = asked('SHAPE', readFrets(positionals.join(' ')));
    if (shape.length !== instrument.openStrings.length) {
      const strings = instrument.openStrings.length;
      const hint = values.on === undefined ? '; name another instrument with --on' : '';
      throw new UsageError(
        `${printShape(shape)} has ${shape.length} frets, ${instrument.name} has ${strings} strings${hint}`,
      );
    }
    onNeck('SHAPE', instrument, shape);
    const answer = answerFor(instrument, shape, context);
    terminal.out(values.json === true ? `${JSON.stringify(answer, undefined, 2)}\n` : printed(answer));
    return 0;
  },
};

/** Names and notes are those of the shape as the hand holds it, as in a lesson: the capo moves what sounds, not what it is called. */
function answerFor(instrument: Instrument, shape: Shape, context: NamingContext): AnswerForScripts {
  const held = withCapo(instrument, 0);
  const names = nameShape(held, shape, context);
  const few = fewNotesOf(soundingMidi(held, shape), context.key);
  const spelled =
    names[0] && tonesUnder(names[0], soundingMidi(held, shape)).map(({ note, midi }) => pitchNamed(note, midi));
  const heldPitches = spelled ?? soundingPitches(held, shape, context.key).flatMap((pitch) => pitch ?? []);
  const pitches =
    instrument.capoFret === 0 ? heldPitches : soundingPitches(instrument, shape).flatMap((pitch) => pitch ?? []);
  return {
    shape: printShape(shape),
    on: instrument.name,
    notes: heldPitches.map((pitch) => printNote(pitch)),
    pitches: pitches.map((pitch) => printPitch(pitch)),
    ...(few === undefined ? {} : { few: tellFewNotes(few) }),
    names: names.map((one) => nameForScripts(one, soundingMidi(held, shape))),
  };
}

function nameForScripts(one: ChordName, midi: readonly (number | undefined)[]): NameForScripts {
  const { text, symbol, bass, omits, rootless, ready } = one;
  return {
    name: text,
    root: printNote(symbol.root),
    bass: printNote(bass),
    omits: omits.map((role) => printRole(role, 'letters')),
    rootless,
    ready,
    tones: Object.fromEntries(
      tonesUnder(one, midi).map(({ note, role }) => [printNote(note), printRole(role, 'letters')]),
    ),
  };
}

function printed({ shape, on, pitches, few, names }: AnswerForScripts): string {
  const sounds = pitches.length === 0 ? 'nothing sounds' : `sounds ${pitches.join(' ')}`;
  const lines = names
    .filter(({ ready }) => ready)
    .slice(0, MOST_PRINTED)
    .map(({ name: text, bass, omits, rootless, tones }) => {
      const facts = Object.entries(tones).map(([note, role]) => `${note}=${role}`);
      const without = omits.length === 0 ? '' : `, without ${omits.join(' ')}`;
      return `  ${text}: ${facts.join(' ')}${without}${rootless ? ', rootless' : ''}, ${bass} lowest\n`;
    });
  const little = few === undefined || pitches.length === 0 ? '' : `, ${few}`;
  const none = names.length === 0 ? '  no chord name\n' : '';
  return `${shape} on ${on}: ${sounds}${little}\n${lines.join('')}${none}`;
}
