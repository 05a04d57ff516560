import type { Feel, Tempo } from '../lesson/syntax/words.ts';
import { isCompound, type Meter } from '../theory/meter.ts';

/** `60 to 84 quarter notes a minute, in steps of 4`. What a beat is comes from the meter where the tempo does not say it. */
export function printTempo(tempo: Tempo, meter: Meter): string {
  const range = tempo.from === tempo.to ? String(tempo.from) : `${tempo.from} to ${tempo.to}`;
  const steps = tempo.by === undefined ? '' : `, in steps of ${tempo.by}`;
  const { everyPasses } = tempo;
  const passes = everyPasses === undefined ? '' : everyPasses === 1 ? ' every time' : ` every ${everyPasses} times`;
  return `${range} ${beatName(tempo, meter)} a minute${steps}${passes}`;
}

const NOTE_NAMES: Readonly<Record<number, string>> = {
  1: 'whole notes',
  2: 'half notes',
  4: 'quarter notes',
  8: 'eighth notes',
  16: 'sixteenth notes',
  32: 'thirty-second notes',
};

function beatName({ unit }: Tempo, meter: Meter): string {
  if (unit !== undefined) return NOTE_NAMES[unit] ?? 'beats';
  const name = NOTE_NAMES[isCompound(meter) ? meter.unit / 2 : meter.unit] ?? 'beats';
  return isCompound(meter) ? `dotted ${name}` : name;
}

/** `swing 3 to 2`: how pairs of notes share their time. */
export function feelText(feel: Feel): string {
  if (feel.kind === 'straight') return 'straight';
  const unit = feel.unit === 16 ? 'swing sixteenths' : 'swing';
  return feel.long === 2 && feel.short === 1 ? unit : `${unit} ${feel.long} to ${feel.short}`;
}
