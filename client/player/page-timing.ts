import type { Timing } from './output.ts';

/** Ahead of time while the page is in view, and where a browser lets timers of a hidden page run once a second only. Unit: s. */
const LOOKAHEAD_S = { shown: 0.2, hidden: 1.6 } as const;

/** The timers of the page. */
export const PAGE_TIMING: Timing = {
  every(milliseconds, work) {
    const timer = setInterval(work, milliseconds);
    return () => clearInterval(timer);
  },
  eachFrame(work) {
    let frame = 0;
    const next = (): void => {
      frame = requestAnimationFrame(next);
      work();
    };
    frame = requestAnimationFrame(next);
    return () => cancelAnimationFrame(frame);
  },
  lookahead: () => (document.hidden ? LOOKAHEAD_S.hidden : LOOKAHEAD_S.shown),
};
