import type { Fingering } from './fingering.ts';

/** What a teacher would say about a fingering, in one or two sentences. */
export function tellFingering(_fingering: Fingering): string {
  throw new Error('The teller is being written.');
}
