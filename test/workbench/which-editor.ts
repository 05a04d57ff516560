import type { WebEditor } from './session.ts';

export type Editor = WebEditor | 'node-host' | 'desktop';

/** The editor that this run is about. */
export function whichEditor(): Editor {
  const named = process.env.HANDSPAN_EDITOR ?? 'oldest';
  if (named === 'oldest' || named === 'newest' || named === 'node-host' || named === 'desktop') return named;
  throw new Error(`HANDSPAN_EDITOR names no editor that we know: ${named}`);
}
