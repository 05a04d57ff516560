/**
 * Keeps what is heard in view, until the reader scrolls away; the bar of controls lies over the foot of the page, so what is under
 * it is not seen, and the sheet must be able to scroll out from under it.
 */
export class HeardInView {
  readonly #controls: HTMLElement;
  readonly #calm = window.matchMedia('(prefers-reduced-motion: reduce)');
  #follows = true;

  constructor(controls: HTMLElement) {
    this.#controls = controls;
    const away = (): void => {
      this.#follows = false;
    };
    for (const gesture of GESTURES) window.addEventListener(gesture, away, { passive: true });
  }

  /** Something was pressed to be heard: from now on it is followed. */
  follow(): void {
    this.#follows = true;
  }

  show(element: Element | undefined): void {
    if (!this.#follows || element === undefined) return;
    const { top, bottom } = element.getBoundingClientRect();
    const room = window.innerHeight - this.#controls.offsetHeight;
    if (top >= 0 && bottom <= room) return;
    window.scrollBy({ top: top - room * ABOVE, behavior: this.#calm.matches ? 'instant' : 'smooth' });
  }

  /** The controls came, went or have another height. */
  makeRoom(): void {
    document.documentElement.style.setProperty('--transport', `${this.#controls.offsetHeight}px`);
  }
}

const GESTURES = ['wheel', 'touchmove'] as const;

/** How much of the room is left above what is brought into view, so that a reader sees where it comes from. */
const ABOVE = 0.25;
