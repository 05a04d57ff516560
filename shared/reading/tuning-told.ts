import type { Instrument } from '../neck/instrument.ts';
import { instrumentSuggestions, parseInstrument } from '../neck/instruments.ts';
import { parseNote, pitchClass, printNote } from '../theory/note.ts';
import type { StringLabel } from './string-line.ts';

/** How the strings of a tab lie, and what is to be said of them. */
export interface StringOrder {
  /** The number of the string on each line, from the top down. */
  readonly numbers: readonly number[];
  readonly remark?: string;
}

/**
 * The strings of a system from the names or numbers at its left. Without any the top line is string 1. An instrument whose strings
 * are others is told of; frets stay what they are.
 */
export function stringOrder(
  labels: readonly (StringLabel | undefined)[],
  instrument: Instrument | undefined,
): StringOrder {
  const fromTop = labels.map((_, index) => index + 1);
  const numbers = labels.flatMap((label) => (label?.kind === 'number' ? [label.number] : []));
  if (numbers.length === labels.length && fromTop.every((number) => numbers.includes(number))) {
    return { numbers, ...counted(labels.length, instrument) };
  }
  const names = labels.flatMap((label) => (label?.kind === 'note' ? [label.note] : []));
  if (names.length < labels.length) return { numbers: fromTop, ...counted(labels.length, instrument) };
  if (instrument === undefined) return { numbers: fromTop, ...fitting(names) };
  const strings = openNames(instrument);
  if (strings.length !== names.length) return { numbers: fromTop, ...counted(labels.length, instrument) };
  if (sameNames(names, strings)) return { numbers: fromTop };
  if (sameNames(names, [...strings].reverse())) {
    const remark = `The text has the highest-numbered string on top; it is read so.`;
    return { numbers: [...fromTop].reverse(), remark };
  }
  const remark = `The text is for strings tuned ${[...names].reverse().join(' ')}; ${instrument.name} has ${[...strings].reverse().join(' ')}. Frets are as in the text.`;
  return { numbers: fromTop, remark };
}

function counted(lines: number, instrument: Instrument | undefined): { readonly remark?: string } {
  if (instrument === undefined || instrument.openStrings.length === lines) return {};
  return { remark: `The text has ${lines} strings; ${instrument.name} has ${instrument.openStrings.length}.` };
}

/** Names the instruments whose strings these are. */
function fitting(names: readonly string[]): { readonly remark?: string } {
  const fits = instrumentSuggestions().filter(({ label }) => {
    const known = parseInstrument(label);
    return known.ok && sameNames(names, openNames(known.value));
  });
  const [first] = fits;
  const tuned = [...names].reverse().join(' ');
  if (first === undefined) return { remark: `The text is for strings tuned ${tuned}.` };
  return { remark: `The text is for strings tuned ${tuned}, as on a ${first.label}.` };
}

/** Names of the open strings, string 1 first. */
function openNames({ openStrings }: Instrument): readonly string[] {
  return openStrings.map((pitch) => printNote(pitch)).reverse();
}

function sameNames(one: readonly string[], other: readonly string[]): boolean {
  return one.length === other.length && one.every((name, index) => classOf(name) === classOf(other[index] ?? ''));
}

function classOf(name: string): number | undefined {
  const note = parseNote(name);
  return note.ok ? pitchClass(note.value) : undefined;
}
