import { tuneBars } from '../../shared/lesson/asked/tune-bars.ts';
import { checkSum } from '../../shared/lesson/check/check-bar-sum.ts';
import { planBars } from '../../shared/lesson/model/bar-plan.ts';
import { readEntry } from '../../shared/lesson/syntax/read-entry.ts';
import type { ProgressionStatement } from '../../shared/lesson/syntax/statement.ts';
import type { Instrument } from '../../shared/neck/instrument.ts';
import { printShape } from '../../shared/neck/shape.ts';
import { readFrets } from '../../shared/neck/shape-reader.ts';
import type { ChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { barLength, type Meter } from '../../shared/theory/meter.ts';
import { defaultShape } from '../../shared/voicing/shapes.ts';
import type { TuneBar, TuneChord } from '../../shared/voicing/tune/ground.ts';
import { asked, onNeck } from './asked.ts';
import { UsageError } from './terminal.ts';

/**
 * `Em C G D`, a bar for each chord, or bars as a lesson has them, `count 4 | Em | C / / G | 2/4 D | 4/4 NC`. `shapes` gives a shape for
 * each chord in order, or for each different one; a chord without one has its usual shape.
 */
export function progressionAsked(
  text: string,
  shapes: string | undefined,
  instrument: Instrument,
  meter: Meter,
): readonly TuneBar[] {
  const progression = readAsked(text, meter);
  const inOrder = progression.lines
    .flatMap(({ bars }) => bars.flatMap(({ items }) => items))
    .flatMap((item) => (item.kind === 'chord' ? [item.chord] : []));
  const names = [...new Set(inOrder.map(({ text }) => text))];
  const given = (shapes ?? '').split(/\s+/).filter((word) => word !== '');
  if (given.length > 0 && given.length !== inOrder.length && given.length !== names.length) {
    const each = names.length === inOrder.length ? '' : ` or ${names.length} different chords`;
    throw new UsageError(
      `--shapes: ${given.length} for ${inOrder.length} chords${each}; write each in one word, as in 0-4-3-2`,
    );
  }
  const owners = given.length === inOrder.length ? inOrder.map(({ text }) => text) : names;
  const known = new Map<string, TuneChord>();
  for (const [at, name] of owners.entries()) {
    const symbol = inOrder.find((chord) => chord.text === name)?.symbol;
    if (symbol === undefined) continue;
    const chord = { name, symbol, shape: shapeAsked(given[at], name, symbol, instrument) };
    const before = known.get(name);
    if (before !== undefined && printShape(before.shape) !== printShape(chord.shape)) {
      throw new UsageError(`--shapes: ${name} has two shapes; give the second chord a label, as in ${name}.high`);
    }
    known.set(name, before ?? chord);
  }
  const bars = tuneBars(progression, meter, ({ text: name }) => known.get(name) ?? `has ${name}, which has no shape.`);
  if (typeof bars === 'string') throw new UsageError(`the progression ${bars}`);
  return bars;
}

function shapeAsked(text: string | undefined, name: string, symbol: ChordSymbol, instrument: Instrument) {
  if (text !== undefined) {
    return onNeck('--shapes', instrument, asked('--shapes', readFrets(text, instrument.openStrings.length)).shape);
  }
  const usual = defaultShape(symbol, instrument);
  if (usual === undefined) throw new UsageError(`there is no shape of ${name} on ${instrument.name}`);
  return usual.shape;
}

/** Bars copied from a lesson begin and end with bar lines of their own; a bare one at either end adds nothing. */
function withoutOuterLines(bars: string): string {
  return bars.replace(/^\s*\|(?!:)/, '').replace(/(?<!:)\|+\s*$/, '');
}

/** The chords as a progression of a lesson, with everything in order that a lesson would be told of. */
function readAsked(text: string, meter: Meter): ProgressionStatement {
  const [, pickup = '', chords = ''] = /^\s*(count\s+\S+(?=\s))?(.*)$/su.exec(text) ?? [];
  const words = chords.split(/[\s,]+/).filter((word) => word !== '');
  if (words.length === 0) throw new UsageError('say the chords, as in "Em C G D"');
  const bars = chords.includes('|') ? words.join(' ') : words.join(' | ');
  const asks = `progression asked\n  ${pickup}\n  | ${withoutOuterLines(bars)} |\n`;
  const { statement, problems } = readEntry(asks);
  const refuse = (message: string): never => {
    throw new UsageError(message.replace(/\.$/, ''));
  };
  const [wrong] = problems.filter(({ severity }) => severity !== 'hint');
  if (wrong !== undefined) {
    const where = asks.slice(wrong.span.start, wrong.span.end).trim();
    refuse(where === '' ? wrong.message : `${where}: ${wrong.message}`);
  }
  if (statement.kind !== 'progression') return refuse('these are no chords');
  const planned = planBars(statement, meter);
  if (planned[0]?.items.some(({ item }) => item.kind === 'same') === true) {
    refuse('% repeats the bar before; the first bar has none');
  }
  for (const bar of planned)
    checkSum(
      (_severity, _code, _span, message) => refuse(message),
      bar,
      bar.number === undefined ? bar.length : barLength(bar.meter),
      {},
    );
  return statement;
}
