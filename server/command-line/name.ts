import type { Instrument } from '../../shared/neck/instrument.ts';
import { parseInstrument, withCapo } from '../../shared/neck/instruments.ts';
import { soundingPitches } from '../../shared/neck/pitches.ts';
import { printShape, type Shape } from '../../shared/neck/shape.ts';
import { readFrets } from '../../shared/neck/shape-reader.ts';
import type { Outcome } from '../../shared/text/problem.ts';
import { type Key, parseKey } from '../../shared/theory/key.ts';
import { pitchNamed, printNote, printPitch } from '../../shared/theory/note.ts';
import { printRole } from '../../shared/theory/role.ts';
import { type ChordName, nameShape } from '../../shared/voicing/naming.ts';
import { readWords } from './read-words.ts';
import { type Command, UsageError } from './terminal.ts';

/** What a bare shape is held on: the instrument that most lessons are for. Common practice, no source. */
const USUAL_INSTRUMENT = 'tenor ukulele, high G';

/** One name as scripts read it; accidentals are letters, as in the name: `Bb`, `F#`, `b7`. */
interface NameForScripts {
  readonly name: string;
  readonly root: string;
  readonly bass: string;
  readonly omits: readonly string[];
  readonly rootless: boolean;
  readonly tones: Readonly<Record<string, string>>;
}

interface AnswerForScripts {
  readonly shape: string;
  readonly on: string;
  /** The strings that are not muted, in chart order, spelled as the best name spells them; a capo counts as the nut. */
  readonly notes: readonly string[];
  /** What sounds, with the octave and above the capo; C4 is middle C. */
  readonly pitches: readonly string[];
  readonly names: readonly NameForScripts[];
}

export const name: Command = {
  usage: 'handspan name SHAPE [--on INSTRUMENT] [--key KEY] [--json]',
  summary: 'say what a shape is called',
  details: `SHAPE has a fret for every string, from the highest-numbered one to string 1: 0-4-3-2, 0432, x-0-1-2.
  --on    the instrument, as a lesson says it; "${USUAL_INSTRUMENT}" where nothing is said
  --key   the key that the chord stands in, such as "D minor": it decides between names of the same notes
  --json  print {shape, on, notes, pitches, names: [{name, root, bass, omits, rootless, tones}]}, best name first
Exit status: 0 also where there is no name; 2 wrong call.`,

  async run(words, terminal) {
    const options = { on: { type: 'string' }, key: { type: 'string' }, json: { type: 'boolean' } } as const;
    const { values, positionals } = readWords(words, options);
    if (positionals.length === 0) throw new UsageError('say the shape');
    const instrument = asked('--on', parseInstrument(values.on ?? USUAL_INSTRUMENT));
    const key = values.key === undefined ? undefined : asked('--key', parseKey(values.key));
    // Frets with blanks between them come as several words.
    const { shape } = asked('SHAPE', readFrets(positionals.join(' ')));
    if (shape.length !== instrument.openStrings.length) {
      const strings = instrument.openStrings.length;
      const hint = values.on === undefined ? '; name another instrument with --on' : '';
      throw new UsageError(
        `${printShape(shape)} has ${shape.length} frets, ${instrument.name} has ${strings} strings${hint}`,
      );
    }
    const answer = answerFor(instrument, shape, key);
    terminal.out(values.json === true ? `${JSON.stringify(answer, undefined, 2)}\n` : printed(answer));
    return 0;
  },
};

function asked<T>(what: string, outcome: Outcome<T>): T {
  if (outcome.ok) return outcome.value;
  throw new UsageError(`${what}: ${outcome.problem.message.replace(/\.$/, '')}`);
}

/** Names and notes are those of the shape as the hand holds it, as in a lesson: the capo moves what sounds, not what it is called. */
function answerFor(instrument: Instrument, shape: Shape, key: Key | undefined): AnswerForScripts {
  const held = withCapo(instrument, 0);
  const names = nameShape(held, shape, key === undefined ? {} : { key });
  const spelled = names[0]?.tones.map(({ note, midi }) => pitchNamed(note, midi));
  const heldPitches = spelled ?? soundingPitches(held, shape, key).flatMap((pitch) => pitch ?? []);
  const pitches =
    instrument.capoFret === 0 ? heldPitches : soundingPitches(instrument, shape).flatMap((pitch) => pitch ?? []);
  return {
    shape: printShape(shape),
    on: instrument.name,
    notes: heldPitches.map((pitch) => printNote(pitch)),
    pitches: pitches.map((pitch) => printPitch(pitch)),
    names: names.map(nameForScripts),
  };
}

function nameForScripts({ text, symbol, bass, omits, rootless, tones }: ChordName): NameForScripts {
  return {
    name: text,
    root: printNote(symbol.root),
    bass: printNote(bass),
    omits: omits.map((role) => printRole(role, 'letters')),
    rootless,
    tones: Object.fromEntries(tones.map(({ note, role }) => [printNote(note), printRole(role, 'letters')])),
  };
}

function printed({ shape, on, pitches, names }: AnswerForScripts): string {
  const sounds = pitches.length === 0 ? 'nothing sounds' : `sounds ${pitches.join(' ')}`;
  const lines = names.map(({ name: text, bass, omits, rootless, tones }) => {
    const facts = Object.entries(tones).map(([note, role]) => `${note}=${role}`);
    const without = omits.length === 0 ? '' : `, without ${omits.join(' ')}`;
    return `  ${text}: ${facts.join(' ')}${without}${rootless ? ', rootless' : ''}, ${bass} lowest\n`;
  });
  const none = names.length === 0 ? '  no name: a chord has at least two different notes\n' : '';
  return `${shape} on ${on}: ${sounds}\n${lines.join('')}${none}`;
}
