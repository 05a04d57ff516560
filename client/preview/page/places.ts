/** A place on the sheet that the reader has picked. */
export interface Picked {
  readonly slot: HTMLElement;
  readonly place: number;
}

/** Click, Enter and Space on a marked element pick it; the arrow keys go from one to the next. */
export function listenForPicks(sheet: HTMLElement, pick: (picked: Picked) => void): void {
  sheet.addEventListener('click', (event) => {
    // Letting go of a stretch of text that was just selected is no pick.
    const selection = document.getSelection();
    if (selection !== null && !selection.isCollapsed) return;
    const picked = pickedBy(event.target);
    if (picked !== undefined) pick(picked);
  });
  sheet.addEventListener('keydown', (event) => {
    if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    const picked = pickedBy(event.target);
    if (picked === undefined) return;
    if (event.key === 'Enter' || event.key === ' ') {
      event.preventDefault();
      pick(picked);
    } else if (event.key === 'ArrowRight' || event.key === 'ArrowLeft') {
      event.preventDefault();
      focusNeighbour(sheet, event.target, event.key === 'ArrowRight' ? 1 : -1);
    }
  });
}

function pickedBy(target: EventTarget | null): Picked | undefined {
  if (!(target instanceof Element)) return undefined;
  const element = target.closest('[data-place]');
  const slot = target.closest<HTMLElement>('[data-block]');
  const place = Number(element?.getAttribute('data-place') ?? Number.NaN);
  return slot !== null && Number.isSafeInteger(place) ? { slot, place } : undefined;
}

function focusNeighbour(sheet: HTMLElement, from: EventTarget | null, step: 1 | -1): void {
  if (!(from instanceof HTMLElement || from instanceof SVGElement)) return;
  const places = [...sheet.querySelectorAll<HTMLElement | SVGElement>('[data-place]')];
  const index = places.indexOf(from);
  if (index >= 0) places[index + step]?.focus();
}
