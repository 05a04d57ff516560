/** An element with attributes and content; text is text and never markup. */
export function make<K extends keyof HTMLElementTagNameMap>(
  name: K,
  attributes: Readonly<Record<string, string>> = {},
  ...content: readonly (Node | string)[]
): HTMLElementTagNameMap[K] {
  const element = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  element.append(...content);
  return element;
}

/** A button that stays pressed. `keys`: the letter that presses it, while the keyboard is in the bar. */
export function toggle(label: string, keys: string, title: string): HTMLButtonElement {
  return make(
    'button',
    {
      type: 'button',
      class: 'toggle',
      'aria-pressed': 'false',
      'aria-keyshortcuts': keys,
      title: `${title} (${keys})`,
    },
    label,
  );
}

export function press(button: HTMLButtonElement, pressed: boolean): void {
  button.setAttribute('aria-pressed', String(pressed));
}
