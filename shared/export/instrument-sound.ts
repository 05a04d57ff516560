import type { Instrument } from '../neck/instrument.ts';

/** What a program plays in place of the instrument. */
export interface InstrumentSound {
  /** Program, counted from 0. Source: General MIDI 1 (RP-003): 24 nylon, 25 steel, 27 clean electric guitar. */
  readonly midiProgram: number;
  /** Source: the standard sounds of MusicXML 4.0, sounds.xml. */
  readonly musicXmlSound: string;
}

const NYLON: InstrumentSound = { midiProgram: 24, musicXmlSound: 'pluck.guitar.nylon-string' };
const UKULELE: InstrumentSound = { midiProgram: 24, musicXmlSound: 'pluck.ukulele' };
const STEEL: InstrumentSound = { midiProgram: 25, musicXmlSound: 'pluck.guitar.steel-string' };

/** By kind of instrument. General MIDI 1 knows no ukulele, whose strings are nylon, and no mandolin, whose strings are steel. */
const BY_KIND: Readonly<Record<string, InstrumentSound>> = {
  'soprano ukulele': UKULELE,
  'concert ukulele': UKULELE,
  'tenor ukulele': { midiProgram: 24, musicXmlSound: 'pluck.ukulele.tenor' },
  'baritone ukulele': UKULELE,
  'steel-string guitar': STEEL,
  'tenor guitar': STEEL,
  'electric guitar': { midiProgram: 27, musicXmlSound: 'pluck.guitar.electric' },
  mandolin: { midiProgram: 25, musicXmlSound: 'pluck.mandolin' },
};

/** A nylon-string guitar where the table knows nothing nearer. */
export function instrumentSound({ kind }: Instrument): InstrumentSound {
  return BY_KIND[kind] ?? NYLON;
}
