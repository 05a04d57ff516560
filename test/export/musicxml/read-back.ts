import { type NoteEntry, parse, type Score } from 'musicxml-io';
import type { Letter } from '../../../shared/theory/note.ts';
import { midiNumber } from '../../../shared/theory/note.ts';

// What an outside reader finds in a document: musicxml-io, which knows nothing of this project.

/** A note as it is read. Times in quarters from the start of its measure. */
export interface ReadNote {
  readonly measure: number;
  readonly at: number;
  readonly duration: number;
  readonly voice: string;
  readonly string: number;
  readonly fret: number;
  readonly midi: number;
  readonly isGrace: boolean;
  readonly isTiedFrom: boolean;
  readonly isTiedOn: boolean;
  readonly isDead: boolean;
  readonly note: NoteEntry;
}

export interface ReadMusic {
  readonly score: Score;
  /** Everything on a string, in the order of the document. */
  readonly notes: readonly ReadNote[];
  /** Knocks: measure, time in quarters and the instrument. */
  readonly knocks: readonly { readonly measure: number; readonly at: number; readonly instrument: string }[];
  /** Length of every voice of every measure, in quarters. */
  readonly lengths: readonly { readonly measure: number; readonly voice: string; readonly length: number }[];
}

export function readBack(xml: string): ReadMusic {
  const score = parse(xml);
  const notes: ReadNote[] = [];
  const knocks: { measure: number; at: number; instrument: string }[] = [];
  const lengths = new Map<string, { measure: number; voice: string; length: number }>();
  let divisions = 1;
  score.parts[0]?.measures.forEach((measure, index) => {
    divisions = measure.attributes?.divisions ?? divisions;
    // Whole ticks, so that nothing is rounded on the way.
    let ticks = 0;
    let chordStart = 0;
    for (const entry of measure.entries) {
      if (entry.type === 'backup') ticks -= entry.duration;
      if (entry.type === 'forward') ticks += entry.duration;
      if (entry.type !== 'note') continue;
      const isGrace = entry.grace !== undefined;
      const duration = isGrace ? 0 : entry.duration / divisions;
      const start = entry.chord === true ? chordStart : ticks / divisions;
      chordStart = start;
      if (entry.chord !== true && !isGrace) ticks += entry.duration;
      const voice = String(entry.voice);
      const key = `${index} ${voice}`;
      const known = lengths.get(key) ?? { measure: index, voice, length: 0 };
      if (entry.chord !== true) known.length += duration;
      lengths.set(key, known);
      if (entry.unpitched !== undefined) knocks.push({ measure: index, at: start, instrument: entry.instrument ?? '' });
      if (entry.pitch === undefined) continue;
      const technical = (name: string) =>
        entry.notations?.find((one) => one.type === 'technical' && one.technical === name) as
          | { readonly string?: number; readonly fret?: number }
          | undefined;
      const { step, alter = 0, octave } = entry.pitch;
      const ties = [entry.tie, ...(entry.ties ?? [])].map((tie) => tie?.type);
      notes.push({
        measure: index,
        at: start,
        duration,
        voice,
        string: technical('string')?.string ?? Number.NaN,
        fret: technical('fret')?.fret ?? Number.NaN,
        midi: midiNumber({ letter: step as Letter, accidental: alter, octave }),
        isGrace,
        isTiedFrom: ties.includes('stop'),
        isTiedOn: ties.includes('start'),
        isDead: entry.notehead?.value === 'x',
        note: entry,
      });
    }
  });
  return { score, notes, knocks, lengths: [...lengths.values()] };
}
