// Functions that run inside the sheet's page. Each is sent there as text, so it can use nothing from this file.

/** Notes which slots there are, and from now on which of them change inside. */
export function rememberSlots(): void {
  const slots = [...document.querySelectorAll('[data-block]')];
  const touched = new Set<Element>();
  const observer = new MutationObserver((changes) => {
    for (const { target } of changes) {
      const slot = (target instanceof Element ? target : target.parentElement)?.closest('[data-block]');
      if (slot !== null && slot !== undefined) touched.add(slot);
    }
  });
  // Attributes are left out: the cursor's mark may move.
  for (const slot of slots) observer.observe(slot, { childList: true, characterData: true, subtree: true });
  Object.assign(window, { rememberedSlots: { slots, touched, observer } });
}

/** How many of the remembered slots still stand on the page, and the text of those that changed inside. */
export function slotsTouched(): { kept: number; count: number; touched: string[] } {
  const remembered: { slots: Element[]; touched: Set<Element>; observer: MutationObserver } = Reflect.get(
    window,
    'rememberedSlots',
  );
  remembered.observer.disconnect();
  const now = [...document.querySelectorAll('[data-block]')];
  return {
    count: remembered.slots.length,
    kept: remembered.slots.filter((slot, index) => now[index] === slot).length,
    touched: [...remembered.touched].map((slot) => slot.textContent ?? ''),
  };
}

/**
 * The contrast of each kind of text on the sheet with its ground: the page, or the dot or bar that a number stands on. Source of the formula: WCAG 2.2, definitions of
 * relative luminance and contrast ratio.
 */
export function contrastOfText(): { what: string; ratio: number }[] {
  const canvas = document.createElement('canvas').getContext('2d', { willReadFrequently: true });
  if (canvas === null) throw new Error('the page has no canvas');
  const luminance = (colours: readonly string[]): number => {
    // Painting them one over the other resolves every way of writing a colour, transparent ones too.
    for (const colour of colours) {
      canvas.fillStyle = colour;
      canvas.fillRect(0, 0, 1, 1);
    }
    const [red = 0, green = 0, blue = 0] = [...canvas.getImageData(0, 0, 1, 1).data].map((part) => {
      const share = part / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const paper = getComputedStyle(document.body).backgroundColor;
  /** The filled shape drawn last before a word of a drawing and under its middle; else the page. */
  const groundOf = (word: SVGTextElement): string => {
    const { x, y, width, height } = word.getBBox();
    let ground = paper;
    for (const shape of word.parentElement?.children ?? []) {
      if (shape === word) break;
      if (!(shape instanceof SVGGraphicsElement) || shape instanceof SVGTextElement) continue;
      const { fill } = getComputedStyle(shape);
      const box = shape.getBBox();
      const under =
        Math.abs(box.x + box.width / 2 - x - width / 2) <= box.width / 2 &&
        Math.abs(box.y + box.height / 2 - y - height / 2) <= box.height / 2;
      if (under && fill !== 'none' && box.width > 0 && box.height > 0) ground = fill;
    }
    return ground;
  };
  /** The nearest ground that is painted round a word: a button's, else the page. */
  const filledAround = (element: Element): string => {
    for (let around: Element | null = element; around !== null; around = around.parentElement) {
      const { backgroundColor } = getComputedStyle(around);
      if (backgroundColor !== 'rgba(0, 0, 0, 0)') return backgroundColor;
    }
    return paper;
  };
  const found = new Map<string, number>();
  const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
    const element = node.parentElement;
    if (element === null || node.textContent?.trim() === '' || element.closest('[hidden], script, style')) continue;
    const style = getComputedStyle(element);
    const ink = element instanceof SVGElement ? style.fill : style.color;
    if (ink === 'none') continue;
    const ground = element instanceof SVGTextElement ? groundOf(element) : filledAround(element);
    const [light = 0, dark = 0] = [luminance([paper, ground]), luminance([paper, ground, ink])].sort((a, b) => b - a);
    found.set(
      `${element.tagName}.${element.getAttribute('class') ?? ''}: ${node.textContent?.trim().slice(0, 30)}`,
      (light + 0.05) / (dark + 0.05),
    );
  }
  return [...found].map(([what, ratio]) => ({ what, ratio }));
}

/** In the page: the controls above the sheet that reach out of the window. */
export function controlsOutside(): readonly string[] {
  return [...document.querySelectorAll('.toolbar :is(label, select, button)')]
    .filter((control) => {
      const { left, right, width } = control.getBoundingClientRect();
      return width > 0 && (left < 0 || right > window.innerWidth);
    })
    .map((control) => control.textContent ?? '');
}

/** In the page: words of the pages that a play button stands upon. */
export function wordsUnderButtons(): readonly string[] {
  const buttons = [...document.querySelectorAll('.play-exercise')].map((button) => button.getBoundingClientRect());
  return [...document.querySelectorAll('.block.page svg text')]
    .filter((word) => {
      const box = word.getBoundingClientRect();
      return buttons.some(
        ({ left, right, top, bottom }) => box.left < right && box.right > left && box.top < bottom && box.bottom > top,
      );
    })
    .map((word) => word.textContent ?? '');
}
