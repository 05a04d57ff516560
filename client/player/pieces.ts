/** Something on the sheet that can be heard: an exercise, or a candidate for what the lesson asks. */
export interface Piece {
  readonly kind: 'title' | 'candidate';
  /** Its title or its card: what is marked while it sounds stands in it or behind it, up to the next piece or heading. */
  readonly head: Element;
  readonly slot: HTMLElement;
  /** The place of its title, or the number of the candidate. */
  readonly place: number;
}

export interface PieceWishes {
  /** It is to be heard, or to be silent again. */
  readonly press: (piece: Piece) => void;
  /** The keyboard or the pointer is on its button: it may be pressed soon. */
  readonly prepare: (piece: Piece) => void;
  /** Whether it is heard now. */
  readonly sounds: (piece: Piece) => boolean;
}

const TITLES = 'h3[data-place], [role="heading"][aria-level="3"][data-place]';
const CANDIDATES = '[data-candidate]';

/** All that can be heard, in the order of the sheet. */
export function piecesOn(sheet: Element): readonly Piece[] {
  return [...sheet.querySelectorAll(`${TITLES}, ${CANDIDATES}`)].flatMap((head): readonly Piece[] => {
    const candidate = head.getAttribute('data-candidate');
    const slot = head.closest<HTMLElement>('[data-block]');
    const place = Number(candidate ?? head.getAttribute('data-place'));
    if (slot === null || !Number.isSafeInteger(place)) return [];
    return [{ kind: candidate === null ? 'title' : 'candidate', head, slot, place }];
  });
}

/** True of what begins a piece, a part or a pattern: what stands behind it is not of the piece before. */
export function beginsPiece(element: Element): boolean {
  return (
    element.matches(CANDIDATES) ||
    (!element.hasAttribute('data-bar') &&
      (/^h\d$/i.test(element.localName) || element.getAttribute('role') === 'heading'))
  );
}

/** What it is called. */
export function wordsOf({ head }: Piece): string {
  const candidate = head.querySelector<HTMLElement>('[data-hear]');
  return candidate?.dataset.hear ?? head.textContent?.trim() ?? '';
}

/** The button that plays the piece, where it has one. */
export function playButtonOf({ kind, head, slot, place }: Piece): HTMLButtonElement | null {
  return kind === 'candidate'
    ? head.querySelector<HTMLButtonElement>('button[data-hear]')
    : slot.querySelector<HTMLButtonElement>(`:scope > .play-exercise[data-title="${place}"]`);
}

/**
 * A button to play beside each exercise's title; a candidate brings its own. In a drawn page it lies over the picture, since a button
 * cannot stand in one. A button stays the same as long as its title's place does, so that it keeps the keyboard.
 */
export function placePlayButtons(sheet: Element, wishes: PieceWishes): void {
  const wanted = new Set<Element>();
  for (const piece of piecesOn(sheet)) {
    const button = playButtonOf(piece) ?? (piece.kind === 'title' ? newButton(piece) : undefined);
    if (button === undefined) continue;
    button.onclick = () => wishes.press(piece);
    button.onfocus = () => wishes.prepare(piece);
    button.onpointerenter = () => wishes.prepare(piece);
    tellSounding(piece, button, wishes.sounds(piece));
    if (piece.kind === 'title') placeOverPicture(button, piece);
    wanted.add(button);
  }
  for (const button of sheet.querySelectorAll('.play-exercise')) if (!wanted.has(button)) button.remove();
}

/** The buttons say what a press would do. */
export function tellSoundingPiece(sheet: Element, sounds: (piece: Piece) => boolean): void {
  for (const piece of piecesOn(sheet)) {
    const button = playButtonOf(piece);
    if (button !== null) tellSounding(piece, button, sounds(piece));
  }
}

function tellSounding(piece: Piece, button: HTMLButtonElement, sounds: boolean): void {
  const verb = sounds ? 'Stop' : 'Play';
  const sign = sounds ? '■' : '▶';
  const label = `${verb} ${wordsOf(piece)}`;
  if (button.textContent !== `${sign} ${verb}`) {
    const word = document.createElement('span');
    word.textContent = ` ${verb}`;
    button.replaceChildren(sign, word);
  }
  if (button.getAttribute('aria-label') !== label) button.setAttribute('aria-label', label);
}

function newButton({ slot, place }: Piece): HTMLButtonElement {
  const button = document.createElement('button');
  button.type = 'button';
  button.className = 'play-exercise';
  button.dataset.title = String(place);
  button.dataset.control = '';
  slot.append(button);
  return button;
}

/** Beside a title in a picture: its place depends on how large the picture is shown. On a very small page only the margin is free. */
function placeOverPicture(button: HTMLButtonElement, { head, slot }: Piece): void {
  if (!(head instanceof SVGElement)) return;
  // The title's group has an area as wide as its line: its words end before that.
  const words = [...head.querySelectorAll('text')].map((word) => word.getBoundingClientRect());
  const box = words.at(-1) ?? head.getBoundingClientRect();
  const ground = slot.getBoundingClientRect();
  const page = (head.ownerSVGElement ?? slot).getBoundingClientRect();
  const inMargin = page.width < SMALL_PAGE;
  button.classList.toggle('in-margin', inMargin);
  button.style.left = `${(inMargin ? page.right - MARGIN_BUTTON : box.right + 10) - ground.left}px`;
  button.style.top = `${box.top - ground.top + box.height / 2}px`;
}

/** Under this width the line below a title is nearer than half a button with a word. Unit: px. */
const SMALL_PAGE = 520;

/** Room for the sign alone, at the edge of the page. Unit: px. */
const MARGIN_BUTTON = 17;
