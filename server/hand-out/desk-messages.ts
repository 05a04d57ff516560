import type { HandOutJob, Listed, MadeBytes } from './desk.ts';

/** What a desk in a thread of its own is asked. */
export type DeskQuestion = { readonly id: number; readonly job: HandOutJob } & (
  | { readonly ask: 'list' }
  | { readonly ask: 'make'; readonly name: string }
);

/** `fault`: a mistake of ours, in a sentence. */
export type DeskAnswer = { readonly id: number } & (
  | { readonly listed: Listed }
  | { readonly made: MadeBytes | null }
  | { readonly fault: string }
);
