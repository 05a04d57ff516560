import type { WireBlock } from '../../../server/protocol/preview.ts';
import { type Operation, rearrange } from '../../../server/protocol/sequence.ts';
import { readFragment } from './fragment.ts';
import { keepingFocus, keepingSelection } from './keeping.ts';

/**
 * The blocks on the page. Each has one element, its slot, which stays as long as its place in the sequence does: only the
 * content of changed slots is exchanged, so scroll, focus, selection and the cursor's mark stay where they are.
 */
export class Slots {
  readonly #sheet: HTMLElement;
  readonly #zoom: number;
  #slots: readonly HTMLElement[] = [];

  constructor(sheet: HTMLElement, zoom: number) {
    this.#sheet = sheet;
    this.#zoom = zoom;
  }

  get count(): number {
    return this.#slots.length;
  }

  at(index: number): HTMLElement | undefined {
    return this.#slots[index];
  }

  indexOf(slot: HTMLElement): number {
    return this.#slots.indexOf(slot);
  }

  /** Shows these blocks and no others. Slots already there are used again, so that a redrawn sheet does not jump. */
  showAll(blocks: readonly WireBlock[]): void {
    const operations = blocks.map((block, index): Operation<WireBlock> => {
      return index < this.#slots.length ? { kind: 'replace', block } : { kind: 'insert', block };
    });
    const surplus = this.#slots.length - blocks.length;
    this.patch(surplus > 0 ? [...operations, { kind: 'remove', count: surplus }] : operations);
  }

  /** False when the operations do not fit the slots held: a full sheet must be asked for, and nothing was changed. */
  patch(operations: readonly Operation<WireBlock>[]): boolean {
    const next = rearrange(this.#slots, operations);
    if (next === undefined) return false;
    keepingFocus(() => {
      for (const slot of [...next.gone, ...next.moved]) slot.remove();
      const slots = next.places.map(({ slot, block }) => {
        const element = slot ?? document.createElement('div');
        if (block !== undefined) keepingSelection(element, () => this.#fill(element, block));
        return element;
      });
      this.#place(slots);
    });
    return true;
  }

  /** Puts the slots into their order without touching those that stand right already. */
  #place(slots: readonly HTMLElement[]): void {
    let standing = this.#sheet.firstElementChild;
    slots.forEach((slot, index) => {
      if (slot.dataset.block !== String(index)) slot.dataset.block = String(index);
      if (slot === standing) standing = standing.nextElementSibling;
      else this.#sheet.insertBefore(slot, standing);
    });
    this.#slots = slots;
  }

  #fill(slot: HTMLElement, block: WireBlock): void {
    const atCursor = slot.classList.contains('at-cursor');
    slot.className = `block ${block.kind}${atCursor ? ' at-cursor' : ''}`;
    const content = readFragment(block.markup, this.#zoom);
    if (content !== undefined) {
      // Controls that the page has put into the slot stay.
      const controls = slot.querySelectorAll(':scope > [data-control]');
      slot.replaceChildren(...staleMark(block.stale), content, ...controls);
    } else if (slot.querySelector(':scope > .undrawn') === null) {
      // A drawing that cannot be read is a fault of ours: the last good one stays, and says so.
      slot.prepend(mark('undrawn', 'This part could not be drawn anew. It may show an earlier text.'));
    }
    slot.classList.toggle('stale', block.stale !== undefined || content === undefined);
  }
}

function staleMark(sentence: string | undefined): readonly HTMLElement[] {
  return sentence === undefined ? [] : [mark('stale-sentence', sentence)];
}

function mark(className: string, sentence: string): HTMLElement {
  const line = document.createElement('p');
  line.className = `mark ${className}`;
  const sign = document.createElement('span');
  sign.setAttribute('aria-hidden', 'true');
  sign.className = 'sign';
  sign.textContent = '⚠';
  line.append(sign, ` ${sentence}`);
  return line;
}
