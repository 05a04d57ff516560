import { readChordName } from '../../shared/lesson/syntax/read-names.ts';
import type { Instrument } from '../../shared/neck/instrument.ts';
import { printShape } from '../../shared/neck/shape.ts';
import { readFrets } from '../../shared/neck/shape-reader.ts';
import type { ChordSymbol } from '../../shared/theory/chord-symbol.ts';
import type { Meter } from '../../shared/theory/meter.ts';
import { printMeter } from '../../shared/theory/meter.ts';
import { defaultShape } from '../../shared/voicing/shapes.ts';
import type { TuneBar, TuneChord } from '../../shared/voicing/tune/ground.ts';
import { TICKS_OF_COUNT } from '../../shared/voicing/tune/rhythm.ts';
import { asked, onNeck } from './asked.ts';
import { UsageError } from './terminal.ts';

/** A chord as the call names it, and when it begins in its bar. Unit: ticks. */
interface NamedChord {
  readonly name: string;
  readonly symbol: ChordSymbol;
  readonly tick: number;
}

/**
 * `Em C G D`, a bar for each chord, or bars as a lesson has them, `Em | C / / G | D`, with `%` for the bar before. `shapes` gives a
 * shape for each chord in order, or for each different one; a chord without one has its usual shape.
 */
export function progressionAsked(
  text: string,
  shapes: string | undefined,
  instrument: Instrument,
  meter: Meter,
): readonly TuneBar[] {
  const bars = barsAsked(text, meter);
  const inOrder = bars.flat();
  const names = [...new Set(inOrder.map(({ name }) => name))];
  const given = (shapes ?? '').split(/\s+/).filter((word) => word !== '');
  if (given.length > 0 && given.length !== inOrder.length && given.length !== names.length) {
    const each = names.length === inOrder.length ? '' : ` or ${names.length} different chords`;
    throw new UsageError(
      `--shapes: ${given.length} for ${inOrder.length} chords${each}; write each in one word, as in 0-4-3-2`,
    );
  }
  const owners = given.length === inOrder.length ? inOrder.map(({ name }) => name) : names;
  const known = new Map<string, TuneChord>();
  for (const [at, name] of owners.entries()) {
    const symbol = inOrder.find((chord) => chord.name === name)?.symbol;
    if (symbol === undefined) continue;
    const chord = { name, symbol, shape: shapeAsked(given[at], name, symbol, instrument) };
    const before = known.get(name);
    if (before !== undefined && printShape(before.shape) !== printShape(chord.shape)) {
      throw new UsageError(`--shapes: ${name} has two shapes; give the second chord a label, as in ${name}.high`);
    }
    known.set(name, before ?? chord);
  }
  return bars.map((bar) => ({
    chords: bar.flatMap(({ name, tick }) => {
      const chord = known.get(name);
      return chord === undefined ? [] : [{ tick, chord }];
    }),
  }));
}

function shapeAsked(text: string | undefined, name: string, symbol: ChordSymbol, instrument: Instrument) {
  if (text !== undefined) {
    return onNeck('--shapes', instrument, asked('--shapes', readFrets(text, instrument.openStrings.length)).shape);
  }
  const usual = defaultShape(symbol, instrument);
  if (usual === undefined) throw new UsageError(`there is no shape of ${name} on ${instrument.name}`);
  return usual.shape;
}

function barsAsked(text: string, meter: Meter): readonly (readonly NamedChord[])[] {
  const cut = text.split('|').map((bar) => bar.split(/[\s,]+/).filter((word) => word !== ''));
  const written = cut.filter((words) => words.length > 0);
  const bars = text.includes('|') ? written : (written[0] ?? []).map((word) => [word]);
  if (bars.length === 0) throw new UsageError('say the chords, as in "Em C G D"');
  const read: (readonly NamedChord[])[] = [];
  for (const words of bars) {
    const before = read.at(-1);
    if (words.length === 1 && words[0] === '%') {
      if (before === undefined) throw new UsageError('% repeats the bar before; the first bar has none');
      read.push(before);
    } else read.push(chordsOfBar(words, meter));
  }
  return read;
}

/** Chords share their bar evenly; with slashes every mark is one count. */
function chordsOfBar(words: readonly string[], meter: Meter): readonly NamedChord[] {
  const slashed = words.includes('/');
  const each = slashed ? 1 : meter.counts / words.length;
  if (!Number.isInteger(each) || (slashed && words.length !== meter.counts)) {
    const marks = slashed ? 'marks' : 'chords';
    throw new UsageError(
      `"${words.join(' ')}": ${words.length} ${marks} do not fill a bar of ${printMeter(meter)}; with slashes every mark is one count`,
    );
  }
  return words.flatMap((word, at): readonly NamedChord[] => {
    if (word === '/') {
      if (at === 0) throw new UsageError('a bar begins with a chord; / holds the one before');
      return [];
    }
    const { symbol, fault, text } = readChordName({ text: word, span: { start: 0, end: word.length } });
    if (symbol === undefined) throw new UsageError(`${word}: ${fault?.message.replace(/\.$/, '') ?? 'no chord name'}`);
    return [{ name: text, symbol, tick: at * each * TICKS_OF_COUNT }];
  });
}
