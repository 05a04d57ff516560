/** Something that was found, and that the reader wants to have in the lesson. */
export interface Chosen {
  readonly slot: HTMLElement;
  /** The number of the candidate. */
  readonly choice: number;
}

/** The controls that write what was found are buttons: a click, Enter and Space press them by themselves. */
export function listenForChoices(sheet: HTMLElement, choose: (chosen: Chosen) => void): void {
  sheet.addEventListener('click', ({ target }) => {
    if (!(target instanceof Element)) return;
    const button = target.closest('button[data-write]');
    const slot = target.closest<HTMLElement>('[data-block]');
    const choice = Number(button?.getAttribute('data-write') ?? Number.NaN);
    if (slot !== null && Number.isSafeInteger(choice)) choose({ slot, choice });
  });
}
