/** Does the work, which may exchange or move the element that has the keyboard, and gives the keyboard back to its like. */
export function keepingFocus(work: () => void): void {
  const focused = document.activeElement;
  const slot = focused?.closest('[data-block]');
  const like = likeOf(focused);
  work();
  if (focused === null || slot === null || slot === undefined || document.activeElement === focused) return;
  const heir = focused.isConnected ? focused : like && slot.querySelector(like);
  if (heir instanceof HTMLElement || heir instanceof SVGElement) heir.focus({ preventScroll: true });
}

/** What the like of an element is found by in its slot: its place, or what a candidate's button does. */
function likeOf(element: Element | null): string | undefined {
  const place = element?.getAttribute('data-place');
  if (place !== null && place !== undefined) return `[data-place="${place}"]`;
  return CONTROLS.find((control) => element?.matches(control));
}

const CONTROLS = ['button[data-hear]', 'button[data-write]'];

/** Exchanges the content of an element; a selection within it stays on the same characters, as far as they are still there. */
export function keepingSelection(element: Element, exchange: () => void): void {
  const selection = document.getSelection();
  const { anchorNode, focusNode } = selection ?? {};
  const inside =
    selection !== null &&
    !selection.isCollapsed &&
    element.contains(anchorNode ?? null) &&
    element.contains(focusNode ?? null);
  if (!inside || anchorNode === null || anchorNode === undefined || focusNode === null || focusNode === undefined) {
    exchange();
    return;
  }
  const anchor = charactersBefore(element, anchorNode, selection.anchorOffset);
  const focus = charactersBefore(element, focusNode, selection.focusOffset);
  exchange();
  const newAnchor = pointAfter(element, anchor);
  const newFocus = pointAfter(element, focus);
  if (newAnchor !== undefined && newFocus !== undefined) {
    selection.setBaseAndExtent(newAnchor.node, newAnchor.offset, newFocus.node, newFocus.offset);
  }
}

function charactersBefore(element: Element, node: Node, offset: number): number {
  const range = document.createRange();
  range.setStart(element, 0);
  range.setEnd(node, offset);
  return range.toString().length;
}

function pointAfter(
  element: Element,
  characters: number,
): { readonly node: Node; readonly offset: number } | undefined {
  const walker = document.createTreeWalker(element, NodeFilter.SHOW_TEXT);
  let left = characters;
  for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
    const { length } = node.textContent ?? '';
    if (left <= length) return { node, offset: left };
    left -= length;
  }
  return undefined;
}
