import { inflateSync, strFromU8 } from 'fflate';
import { unpackMarkup } from '../../shared/export/page/packed-markup.ts';
import type { PageHand, PageLesson } from '../../shared/export/page/page-lesson.ts';
import type { Performance } from '../../shared/score/performance.ts';
import { unpacked } from '../../shared/score/performance-packed.ts';

export interface ShownBlock {
  readonly kind: string;
  readonly markup: string;
}

/** The lesson that the page was written with. */
export class Lesson {
  readonly #page: PageLesson;
  readonly #performances = new Map<string, Performance | undefined>();

  /** `data`: raw DEFLATE as base64, of the lesson as JSON. */
  constructor(data: string) {
    const bytes = Uint8Array.from(atob(data), (letter) => letter.charCodeAt(0));
    this.#page = JSON.parse(strFromU8(inflateSync(bytes)));
  }

  get widthsMm(): readonly number[] {
    return this.#page.widthsMm;
  }

  blocks(edition: number, hand: PageHand, width: number): readonly ShownBlock[] {
    const { pieces, blocks, editions } = this.#page;
    const numbers = editions[edition]?.sheets[hand][width] ?? [];
    return numbers.flatMap((number) => {
      const block = blocks[number];
      return block === undefined ? [] : [{ kind: block.kind, markup: unpackMarkup(block.packed, pieces) }];
    });
  }

  /** What an exercise sounds like on an edition; nothing where there is nothing to be heard. */
  performance(edition: number, exercise: number): Performance | undefined {
    const key = `${edition} ${exercise}`;
    if (!this.#performances.has(key)) {
      const packed = this.#page.editions[edition]?.performances[exercise] ?? undefined;
      this.#performances.set(key, packed === undefined ? undefined : unpacked(packed));
    }
    return this.#performances.get(key);
  }
}
