import { feelText } from '../../engrave/sheet-tempo.ts';
import type { Feel, Tempo } from '../../lesson/syntax/words.ts';
import type { Pace } from '../../score/clock.ts';
import { countedBy, isCompound, type Meter } from '../../theory/meter.ts';
import { toNumber } from '../../theory/rational.ts';
import { NOTE_TYPES } from './note-types.ts';
import { element, emptyElement, textElement, type XmlElement } from './xml.ts';

/** Words above or below the staff at a place of the measure. `offset` in ticks from where they are written. */
export function wordsElement(
  text: string,
  placement: 'above' | 'below',
  offset: number,
  style: 'italic' | 'normal' = 'normal',
): XmlElement {
  return element('direction', { placement }, [
    element('direction-type', {}, [textElement('words', text, style === 'italic' ? { 'font-style': 'italic' } : {})]),
    offset === 0 ? undefined : textElement('offset', offset),
  ]);
}

/** How fast it goes and how eighths are played: the metronome mark, what stands beside it, and the same for the ear. */
export function tempoElement(tempo: Tempo | undefined, pace: Pace, feel: Feel, meter: Meter): XmlElement {
  const beside = [rangeText(tempo), feel.kind === 'straight' ? '' : feelText(feel)].filter((text) => text !== '');
  return element('direction', { placement: 'above' }, [
    tempo === undefined ? undefined : element('direction-type', {}, [metronomeElement(tempo, meter)]),
    ...beside.map((text) => element('direction-type', {}, [textElement('words', text)])),
    tempo === undefined && beside.length === 0 ? element('direction-type', {}, [textElement('words', '')]) : undefined,
    element('sound', { tempo: quartersPerMinute(pace, meter) }, [swingElement(feel)]),
  ]);
}

/** `to 84 by 4`: the mark says the tempo that the practice begins with. */
function rangeText(tempo: Tempo | undefined): string {
  if (tempo === undefined || tempo.from === tempo.to) return '';
  return `to ${tempo.to}${tempo.by === undefined ? '' : ` by ${tempo.by}`}`;
}

function metronomeElement({ from, unit }: Tempo, meter: Meter): XmlElement {
  const dotted = unit === undefined && isCompound(meter);
  const value = unit ?? (dotted ? meter.unit / 2 : meter.unit);
  return element('metronome', { parentheses: 'no' }, [
    textElement('beat-unit', NOTE_TYPES[value as keyof typeof NOTE_TYPES] ?? 'quarter'),
    dotted ? emptyElement('beat-unit-dot') : undefined,
    textElement('per-minute', from),
  ]);
}

/** What the ear needs, in quarters whatever the tempo counts. */
function quartersPerMinute({ perMinute, ...pace }: Pace, begins: Meter): number {
  return Number((perMinute * toNumber(countedBy(pace, begins)) * 4).toFixed(3));
}

function swingElement(feel: Feel): XmlElement | undefined {
  if (feel.kind === 'straight') return undefined;
  return element('swing', {}, [
    textElement('first', feel.long),
    textElement('second', feel.short),
    textElement('swing-type', feel.unit === 16 ? '16th' : 'eighth'),
  ]);
}
