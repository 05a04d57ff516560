/** The title of an exercise on the sheet. */
export interface ExerciseTitle {
  readonly heading: Element;
  readonly slot: HTMLElement;
  readonly place: number;
}

const TITLES = 'h3[data-place], [role="heading"][aria-level="3"][data-place]';

/** All titles of exercises, in the order of the sheet. */
export function titlesOn(sheet: Element): readonly ExerciseTitle[] {
  return [...sheet.querySelectorAll(TITLES)].flatMap((heading) => {
    const slot = heading.closest<HTMLElement>('[data-block]');
    const place = Number(heading.getAttribute('data-place'));
    return slot === null || !Number.isSafeInteger(place) ? [] : [{ heading, slot, place }];
  });
}

/**
 * A button to play beside each exercise's title. In a drawn page it lies over the picture, since a button cannot stand in one. A
 * button stays the same as long as its title's place does, so that it keeps the keyboard.
 */
export function placePlayButtons(
  sheet: Element,
  press: (title: ExerciseTitle) => void,
  prepare: (title: ExerciseTitle) => void,
): void {
  const titles = titlesOn(sheet);
  const wanted = new Set<Element>();
  for (const title of titles) {
    const { heading, slot, place } = title;
    const button =
      slot.querySelector<HTMLButtonElement>(`:scope > .play-exercise[data-title="${place}"]`) ?? newButton(slot, place);
    const label = `Play ${heading.textContent?.trim() ?? ''}`;
    if (button.getAttribute('aria-label') !== label) button.setAttribute('aria-label', label);
    button.onclick = () => press(title);
    button.onfocus = () => prepare(title);
    button.onpointerenter = () => prepare(title);
    placeOverPicture(button, title);
    wanted.add(button);
  }
  for (const button of sheet.querySelectorAll('.play-exercise')) if (!wanted.has(button)) button.remove();
}

function newButton(slot: HTMLElement, place: number): HTMLButtonElement {
  const button = document.createElement('button');
  button.type = 'button';
  button.className = 'play-exercise';
  button.dataset.title = String(place);
  button.dataset.control = '';
  button.textContent = '▶ Play';
  slot.append(button);
  return button;
}

/** Beside a title in a picture: its place depends on how large the picture is shown. */
function placeOverPicture(button: HTMLButtonElement, { heading, slot }: ExerciseTitle): void {
  if (!(heading instanceof SVGElement)) return;
  // The title's group has an area as wide as its line: its words end before that.
  const words = [...heading.querySelectorAll('text')].map((word) => word.getBoundingClientRect());
  const box = words.at(-1) ?? heading.getBoundingClientRect();
  const ground = slot.getBoundingClientRect();
  button.style.left = `${box.right - ground.left + 10}px`;
  button.style.top = `${box.top - ground.top + box.height / 2}px`;
}
