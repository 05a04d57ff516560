import type { Performance } from '../../shared/score/performance.ts';
import { type Piece, piecesOn, playButtonOf } from '../player/pieces.ts';
import { SheetPlayer } from '../player/sheet-player.ts';

/** What there is to be played on the page lies in it: each exercise by its number, as it is on the edition that is shown. */
export class Practice {
  readonly #sheet: HTMLElement;
  readonly #performanceOf: (exercise: number) => Performance | undefined;
  readonly #player: SheetPlayer;

  constructor(sheet: HTMLElement, performanceOf: (exercise: number) => Performance | undefined) {
    this.#sheet = sheet;
    this.#performanceOf = performanceOf;
    this.#player = new SheetPlayer(sheet, {
      hear: (piece) => this.#hear(piece, 0),
      prepare: ({ place }) => {
        const music = this.#performanceOf(place);
        if (music !== undefined) this.#player.prepare(music);
      },
    });
    sheet.addEventListener('click', ({ target }) => this.#clicked(target));
  }

  /** The sheet was drawn again. An exercise that plays goes on, as it is on the edition that is shown now. */
  sheetChanged(): void {
    this.#player.placeButtons();
    for (const piece of piecesOn(this.#sheet)) {
      const button = playButtonOf(piece);
      if (button !== null) button.hidden = this.#performanceOf(piece.place) === undefined;
    }
    const piece = this.#player.findAgain();
    if (piece === undefined) return;
    const music = this.#performanceOf(piece.place);
    if (music === undefined) this.#player.close();
    else if (music !== this.#player.performance) this.#player.renew(music);
  }

  #hear(piece: Piece, from: number): void {
    const music = this.#performanceOf(piece.place);
    if (music === undefined) return;
    this.#player.wished();
    this.#player.play(piece, music, from);
  }

  /** A press on a bar plays from there. */
  #clicked(target: EventTarget | null): void {
    const bar = target instanceof Element ? target.closest('g[data-bar]') : null;
    const piece = bar === null ? undefined : pieceBefore(this.#sheet, bar);
    const written = bar?.getAttribute('data-bar');
    const bars = piece === undefined ? [] : (this.#performanceOf(piece.place)?.bars ?? []);
    const first = bars.findIndex((one) => `${one.pass}.${one.written}` === written);
    if (piece !== undefined && first >= 0) this.#hear(piece, first);
  }
}

/** The exercise that a bar belongs to; nothing for the bars of a pattern, which follow a heading of their own. */
function pieceBefore(sheet: HTMLElement, bar: Element): Piece | undefined {
  const headings = [...sheet.querySelectorAll('h2, h3, h4')];
  const last = headings.findLast(
    (heading) => (heading.compareDocumentPosition(bar) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0,
  );
  return piecesOn(sheet).find(({ head }) => head === last);
}
