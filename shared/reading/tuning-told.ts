import type { Instrument } from '../neck/instrument.ts';
import { instrumentSuggestions, parseInstrument } from '../neck/instruments.ts';
import { counted } from '../text/counted.ts';
import { midiNumber, parseNote, pitchClass, printNote } from '../theory/note.ts';
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
    return { numbers, ...saidStrings(labels.length, instrument) };
  }
  const names = labels.flatMap((label) => (label?.kind === 'note' ? [label.note] : []));
  if (names.length < labels.length) return { numbers: fromTop, ...saidStrings(labels.length, instrument) };
  if (instrument === undefined) {
    const remark = `The text is for strings tuned ${[...names].reverse().join(' ')}, which no instrument here has; the top line is read as string 1.`;
    return { numbers: fromTop, remark };
  }
  const strings = openNames(instrument);
  if (strings.length !== names.length) return { numbers: fromTop, ...saidStrings(labels.length, instrument) };
  if (sameNames(names, strings)) return { numbers: fromTop };
  if (sameNames(names, [...strings].reverse())) {
    const remark = `The text has the highest-numbered string on top; it is read so.`;
    return { numbers: [...fromTop].reverse(), remark };
  }
  const remark = `The text is for strings tuned ${[...names].reverse().join(' ')}; ${instrument.name} has ${[...strings].reverse().join(' ')}. Frets are as in the text.`;
  return { numbers: fromTop, remark };
}

function saidStrings(lines: number, instrument: Instrument | undefined): { readonly remark?: string } {
  if (instrument === undefined || instrument.openStrings.length === lines) return {};
  return {
    remark: `The text has ${counted(lines, 'string')}; ${instrument.name} has ${instrument.openStrings.length}.`,
  };
}

/** What a tab is read for where nobody says, and why. */
export interface TakenInstrument {
  readonly instrument: Instrument;
  readonly remark: string;
}

/**
 * The instrument whose strings the names at the left are, from the top down or from the bottom up; else the usual one with as many
 * strings. Of the same names, a highest-numbered string in a small letter beside large ones sounds above its neighbour, and in a
 * large one beside small ones below. Common practice, no source. Nothing where names fit none.
 */
export function instrumentFor(labels: readonly (StringLabel | undefined)[]): TakenInstrument | undefined {
  const known = instrumentSuggestions().flatMap(({ label }) => {
    const parsed = parseInstrument(label);
    return parsed.ok ? [{ label, instrument: parsed.value }] : [];
  });
  const notes = labels.flatMap((label) => (label?.kind === 'note' ? [label] : []));
  if (notes.length < labels.length) {
    const first = known.find(({ instrument }) => instrument.openStrings.length === labels.length);
    const why = `the text has ${counted(labels.length, 'string')} and does not name them`;
    return first && { instrument: first.instrument, remark: `Read for ${first.label}, since ${why}.` };
  }
  const names = notes.map(({ note }) => note);
  const reversed = [...names].reverse();
  const forward = known.filter(({ instrument }) => sameNames(names, openNames(instrument)));
  const fits =
    forward.length > 0 ? forward : known.filter(({ instrument }) => sameNames(reversed, openNames(instrument)));
  const fromTop = forward.length > 0 ? notes : [...notes].reverse();
  const high = saysHigh(fromTop.map(({ written }) => written));
  const [taken, ...others] = high === undefined ? fits : fits.filter(({ instrument }) => isHigh(instrument) === high);
  const first = taken ?? fits[0];
  if (first === undefined) return undefined;
  const same = [...new Set(others.map(({ instrument }) => instrument.name.split(',')[0] ?? ''))].filter(
    (name) => name !== first.label.split(',')[0],
  );
  const alike = same.length === 0 ? '' : `, as ${same.join(', ')} ${same.length === 1 ? 'has' : 'have'} them, too`;
  const strings = fromTop.map(({ written }) => written).reverse();
  return {
    instrument: first.instrument,
    remark: `Read for ${first.label}, since the text names its strings ${strings.join(' ')}${alike}.`,
  };
}

/** What the letters say of the highest-numbered string; nothing where all are small or all large. */
function saysHigh(written: readonly string[]): boolean | undefined {
  const areSmall = written.map((name) => /^[a-g]/.test(name));
  const last = areSmall.at(-1);
  const others = new Set(areSmall.slice(0, -1));
  return last === undefined || others.size !== 1 || others.has(last) ? undefined : last;
}

/** True where the highest-numbered string sounds above its neighbour. */
function isHigh({ openStrings: [last, before] }: Instrument): boolean {
  return last !== undefined && before !== undefined && midiNumber(last) > midiNumber(before);
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
