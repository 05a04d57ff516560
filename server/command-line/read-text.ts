import { isPlainName } from '../../shared/lesson/syntax/read-names.ts';
import { parseInstrument } from '../../shared/neck/instruments.ts';
import { type BlockKind, readText, type TextReading } from '../../shared/reading/read-text.ts';
import { parseRhythmWish } from '../../shared/reading/rhythm-wish.ts';
import { nearest } from '../../shared/text/nearest.ts';
import { parseChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { COMMON_TIME, parseMeter } from '../../shared/theory/meter.ts';
import { asked } from './asked.ts';
import { readLesson, STANDARD_INPUT } from './lesson-file.ts';
import { readWords } from './read-words.ts';
import { type Command, UsageError } from './terminal.ts';

const KINDS: readonly BlockKind[] = ['melody', 'pattern', 'progression'];

export const read: Command = {
  usage:
    'handspan read [FILE|-] [--as melody|pattern|progression] [--rhythm equal|columns|COUNT] [--on INSTRUMENT] [--meter M] [--name NAME] [--json]',
  summary: 'turn tab or chords over words from a mail into lines of a lesson',
  details: `FILE is plain text; standard input where none is named, or for -. It holds tab of four to eight lines, or chords over words, or both.
  --as      read only this: tab as melody or as pattern, chords as progression
  --rhythm  where the text does not say it: equal, all notes of a bar alike; columns, as far apart in time as on the line; or the
            counts of a bar that have a note, "1 & 2 & 3 & 4". "columns" where nothing is said
  --on      the instrument of the lesson: other strings in the text are told. Where nothing is said, the one whose strings the text
            names, or the usual one with as many strings; which one is told
  --meter   the lesson's meter, 4/4 where nothing is said
  --name    what the first block is called
  --json    print {text, blocks: [{kind, name}], rhythmIsGuess, told, lines: [{line, became}]}; became: music or kept
A guess is marked by a remark. Lines that are not understood are kept as remarks at their place.
Exit status: 0 also where the rhythm is a guess, which is then told; 1 where nothing was understood; 2 wrong call or unusable file.`,

  async run(words, terminal) {
    const text = { type: 'string' } as const;
    const options = { as: text, rhythm: text, on: text, meter: text, name: text, json: { type: 'boolean' } } as const;
    const { values, positionals } = readWords(words, options);
    if (positionals.length > 1) throw new UsageError('name one file, or none for standard input');
    const meter = values.meter === undefined ? COMMON_TIME : parseMeter(values.meter);
    if (meter === undefined) throw new UsageError(`--meter: "${values.meter}" is not a meter, as in 3/4`);
    const wish = {
      meter,
      ...(values.as === undefined ? {} : { as: kindAsked(values.as) }),
      ...(values.rhythm === undefined ? {} : { rhythm: asked('--rhythm', parseRhythmWish(values.rhythm, meter)) }),
      ...(values.on === undefined ? {} : { instrument: asked('--on', parseInstrument(values.on)) }),
      ...(values.name === undefined ? {} : { name: nameAsked(values.name) }),
    };
    const file = await readLesson(positionals[0] ?? STANDARD_INPUT);
    if (!file.ok) {
      terminal.complain(file.sentence);
      return 2;
    }
    const reading = readText(file.file.text, wish);
    terminal.out(values.json === true ? forScripts(reading) : reading.text);
    if (values.json !== true) {
      for (const sentence of complaints(reading, values)) terminal.complain(sentence);
    }
    return reading.blocks.length === 0 ? 1 : 0;
  },
};

function kindAsked(text: string): BlockKind {
  const kind = KINDS.find((known) => known === text);
  if (kind !== undefined) return kind;
  const near = nearest(text, KINDS);
  throw new UsageError(
    `--as: "${text}" is not melody, pattern or progression${near === undefined ? '' : `; did you mean ${near}?`}`,
  );
}

/** The name as a lesson can have it: a word that is no chord's name. */
function nameAsked(text: string): string {
  if (!isPlainName(text)) throw new UsageError(`--name: "${text}" is not one word of letters, digits and -`);
  if (parseChordSymbol(text).ok) throw new UsageError(`--name: "${text}" is a chord’s name; say another`);
  return text;
}

function complaints(
  { blocks, rhythmIsGuess, told }: TextReading,
  { rhythm, on }: { readonly rhythm?: string; readonly on?: string },
): readonly string[] {
  if (blocks.length === 0) return ['there is neither tab nor a line of chords in this text'];
  const ways = rhythm === undefined ? '; --rhythm equal, columns or a count such as "1 & 2 &" chooses another' : '';
  const isTab = blocks.some(({ kind }) => kind !== 'progression');
  return [
    ...told,
    ...(on === undefined && isTab ? ['another instrument is said with --on, as in --on "baritone ukulele"'] : []),
    ...(rhythmIsGuess ? [`the text does not say the rhythm: it is a guess, marked as one${ways}`] : []),
  ];
}

function forScripts({ text, blocks, rhythmIsGuess, told, fates }: TextReading): string {
  const lines = fates.flatMap((became, index) => (became === 'empty' ? [] : [{ line: index + 1, became }]));
  return `${JSON.stringify({ text, blocks, rhythmIsGuess, told, lines }, undefined, 2)}\n`;
}
