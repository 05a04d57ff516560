/** Size of a millimetre on screen at zoom 1. Unit: CSS pixels. Source: CSS Values and Units, 96 px = 1 in = 25.4 mm. */
export const PX_PER_MM = 96 / 25.4;

/**
 * Reads one block's markup as XML, so that nothing in it can run or break out; undefined when it is not well-formed.
 * Drawings come in millimetres and leave in pixels.
 */
export function readFragment(markup: string, zoom: number): Element | undefined {
  const wrapped = `<div xmlns="http://www.w3.org/1999/xhtml">${markup}</div>`;
  const parsed = new DOMParser().parseFromString(wrapped, 'application/xml');
  const content = parsed.documentElement.firstElementChild;
  if (content === null || parsed.getElementsByTagName('parsererror').length > 0) return undefined;
  const fragment = document.importNode(content, true);
  const drawings = fragment.localName === 'svg' ? [fragment] : fragment.querySelectorAll('svg');
  for (const drawing of drawings) {
    for (const side of ['width', 'height']) {
      const sizeMm = Number.parseFloat(drawing.getAttribute(side) ?? '');
      if (Number.isFinite(sizeMm)) drawing.setAttribute(side, (sizeMm * PX_PER_MM * zoom).toFixed(2));
    }
  }
  for (const place of placesIn(fragment)) {
    // Headings and paragraphs stay what they are to a screen reader; pictures and words that can be picked are links.
    const words = place.getAttribute('role') === 'heading' || place.getAttribute('role') === 'paragraph';
    if ((place instanceof SVGElement && !words) || place.localName === 'span') place.setAttribute('role', 'link');
    if (!place.hasAttribute('tabindex')) place.setAttribute('tabindex', '0');
  }
  return fragment;
}

/** The elements that stand for a place in the lesson, the element itself included. */
function placesIn(element: Element): readonly Element[] {
  const within = [...element.querySelectorAll('[data-place]')];
  return element.hasAttribute('data-place') ? [element, ...within] : within;
}
