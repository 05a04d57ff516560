/** What is struck and gives no pitch. */
export type Knock = 'thumb' | 'palm' | 'nails' | 'body' | 'chunk' | 'damped-stroke';

export interface KnockFacts {
  /** As a part list or a legend calls it. */
  readonly name: string;
  /** Key on the percussion channel. */
  readonly midiKey: number;
}

/** The channel of percussion, counted from 0. Source: General MIDI 1 (RP-003): channel 10. */
export const PERCUSSION_CHANNEL = 9;

/**
 * Which percussion sound stands for which knock: the choice is ours, by ear; the keys are those of the percussion map of General MIDI 1
 * (RP-003): 37 side stick, 62 mute high conga, 64 low conga, 69 cabasa, 75 claves, 77 low wood block.
 */
export const KNOCKS: Readonly<Record<Knock, KnockFacts>> = {
  thumb: { name: 'Thumb slap', midiKey: 37 },
  palm: { name: 'Palm on the strings', midiKey: 64 },
  nails: { name: 'Nails on the strings', midiKey: 75 },
  body: { name: 'Knock on the body', midiKey: 77 },
  chunk: { name: 'Chunk', midiKey: 62 },
  'damped-stroke': { name: 'Damped stroke', midiKey: 69 },
};
