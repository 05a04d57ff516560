import type { Instrument } from '../../neck/instrument.ts';
import { withCapo } from '../../neck/instruments.ts';

const kept = new WeakMap<Instrument, Map<number, Instrument>>();

/** The instrument with its capo at this fret. The same every time, so that it can be compared as a value. */
export function capoAt(instrument: Instrument, capoFret: number): Instrument {
  const known = kept.get(instrument) ?? new Map<number, Instrument>();
  kept.set(instrument, known);
  const made = known.get(capoFret) ?? withCapo(instrument, capoFret);
  known.set(capoFret, made);
  return made;
}
