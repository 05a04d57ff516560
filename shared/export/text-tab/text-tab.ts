import { feelText, printTempo } from '../../engrave/sheet-tempo.ts';
import type { Instrument } from '../../neck/instrument.ts';
import type { Pass } from '../../score/timeline.ts';
import { printKey } from '../../theory/key.ts';
import { printMeter } from '../../theory/meter.ts';
import { midiNumber, printNote, printPitch } from '../../theory/note.ts';
import type { ExportedExercise } from '../exported-exercise.ts';
import { CellWriter } from './tab-cells.ts';
import { textBars } from './text-bar.ts';
import { legendLines } from './text-legend.ts';
import { barsInLines, systemLines } from './text-system.ts';
import { wrapped } from './wrapped.ts';

export interface TextTabOptions {
  /** Widest line; mails break longer ones. A bar that is wider by itself is cut at a count. */
  readonly columns?: number;
}

/** Usual width of a line in mails: 72 leaves room for quoting. Source: RFC 3676, 4.2, lines of at most 78. */
const USUAL_COLUMNS = 72;

/**
 * An exercise as plain text for mails and comments: a line for each string, string 1 on top, chords above, and below the count that is
 * said, what the picking hand does, and the words. Every figure stands over its word of the count, so that its rhythm can be read back.
 */
export function textTabOf(exercise: ExportedExercise, { columns = USUAL_COLUMNS }: TextTabOptions = {}): string {
  const { score, instrument } = exercise;
  const labels = labelsOf(instrument);
  const labelWidth = labels[0]?.length ?? 0;
  const writer = new CellWriter();
  const passes = score.passes.map((pass) => {
    const bars = pass.bars.flatMap((bar) => textBars(bar, writer.cellsOf(bar), columns - labelWidth - 3));
    return { pass, lines: barsInLines(bars, labelWidth, columns) };
  });
  const parts = [
    headLines(exercise).flatMap((line) => wrapped(line, columns, '  ')),
    ...passes.flatMap(({ pass, lines }) => [
      ...(pass.number === undefined ? [] : [wrapped(passLine(pass), columns, '  ')]),
      ...lines.map((bars) => systemLines({ labels, bars })),
    ]),
    legendLines(writer.signs, columns),
  ];
  return `${parts
    .filter((lines) => lines.length > 0)
    .map((lines) => lines.join('\n'))
    .join('\n\n')}\n`;
}

function headLines(exercise: ExportedExercise): readonly string[] {
  const { title, lessonTitle, by, instrument, score, tempo, feel, soundingKey } = exercise;
  const { openStrings, capoFret } = instrument;
  const meter = score.passes[0]?.bars[0]?.meter;
  const strings = openStrings.map((pitch) => printPitch(pitch)).join(' ');
  const from = [lessonTitle === '' ? '' : `from "${lessonTitle}"`, by === undefined ? '' : `by ${by}`];
  const facts = [
    meter === undefined ? '' : printMeter(meter),
    meter === undefined || tempo === undefined ? '' : printTempo(tempo, meter),
    feel.kind === 'straight' ? '' : feelText(feel),
    soundingKey === undefined ? '' : `sounds in ${printKey(soundingKey)}`,
  ];
  return [
    title,
    joined(from, ', '),
    `For ${instrument.name}. Strings ${openStrings.length} to 1: ${strings}${capoFret === 0 ? '' : `; frets count from the capo`}.`,
    score.aim === undefined ? '' : `Aim: ${score.aim}`,
    `Time: ${joined(facts, '; ')}`,
  ].filter((line) => line !== '');
}

function joined(words: readonly string[], by: string): string {
  return words.filter((word) => word !== '').join(by);
}

function passLine({ number, with: patterns }: Pass): string {
  return `Time ${number}, with ${patterns.join(', ')}:`;
}

/**
 * Names of the open strings, string 1 first. Of two with the same name the higher one has a small letter, and so has a highest-numbered
 * string that sounds above its neighbour. Common practice, no source.
 */
function labelsOf({ openStrings }: Instrument): readonly string[] {
  const highFirst = [...openStrings].reverse();
  const names = highFirst.map((pitch, index) => {
    const name = printNote(pitch);
    const isHigher = highFirst.some((other) => printNote(other) === name && midiNumber(other) < midiNumber(pitch));
    const neighbour = highFirst[index - 1];
    const isReentrant =
      index === highFirst.length - 1 && neighbour !== undefined && midiNumber(pitch) > midiNumber(neighbour);
    return isHigher || isReentrant ? name.charAt(0).toLowerCase() + name.slice(1) : name;
  });
  const width = Math.max(...names.map(({ length }) => length));
  return names.map((name) => name.padEnd(width));
}
