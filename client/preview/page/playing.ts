import type { PerformanceAnswer } from '../../../server/protocol/playing.ts';
import { type Piece, piecesOn } from '../../player/pieces.ts';
import { SheetPlayer } from '../../player/sheet-player.ts';
import { type PlayingFromPage, readPlayingToPage } from '../playing-messages.ts';

/** What the page around it knows and does. */
export interface PlayingPage {
  readonly sheet: HTMLElement;
  /** The revision that is shown; undefined before the first sheet. */
  readonly revision: () => number | undefined;
  readonly slotNumber: (slot: HTMLElement) => number;
  readonly slotAt: (index: number) => HTMLElement | undefined;
  readonly post: (message: PlayingFromPage) => void;
  readonly tell: (sentence: string) => void;
}

/** Text that changes while it is played is asked for again when it has rested so long. Unit: ms. */
const REST_MS = 300;
/** A browser that is to make sound has begun to by then. Unit: ms. */
const HELD_BACK_MS = 400;

/** Lets the sheet be heard: fetches what its pieces sound like from the panel, and keeps what plays in step with the text. */
export class Playing {
  readonly #page: PlayingPage;
  readonly #player: SheetPlayer;
  #asks = 0;
  /** Questions on their way. */
  readonly #asked = new Map<number, (answer: PerformanceAnswer) => void>();
  /** Answers for what the sheet shows now, by kind, slot and place. */
  readonly #known = new Map<string, Promise<PerformanceAnswer>>();
  /** What the editor's cursor asks to be played, until the sheet that it means is shown. */
  #awaited: Extract<PerformanceAnswer, { kind: 'found' }> | undefined;
  /** Pressed while the sheet was behind its text: played as soon as it is not. */
  #pressed: Piece | undefined;
  #rest = 0;

  constructor(page: PlayingPage) {
    this.#page = page;
    this.#player = new SheetPlayer(page.sheet, {
      hear: (piece) => void this.#hear(piece),
      prepare: (piece) => void this.#prepare(piece),
    });
    new ResizeObserver(() => this.#player.placeButtons()).observe(page.sheet);
  }

  /** A message of the panel; false where it is about something else. */
  receive(value: unknown): boolean {
    const message = readPlayingToPage(value);
    if (message === undefined) return false;
    if (message.kind === 'stop-playing') this.#player.stop();
    else if (message.ask === undefined) this.#playFromCursor(message.answer);
    else {
      this.#asked.get(message.ask)?.(message.answer);
      this.#asked.delete(message.ask);
    }
    return true;
  }

  /** The sheet was drawn again. */
  sheetChanged(): void {
    this.#known.clear();
    this.#player.placeButtons();
    const before = this.#pressed;
    this.#pressed = undefined;
    const pressed = before && piecesOn(this.#page.sheet).find((piece) => standsAt(piece, before));
    if (pressed !== undefined) void this.#hear(pressed);
    if (this.#awaited !== undefined && this.#awaited.revision === this.#page.revision())
      this.#playFromCursor(this.#awaited);
    if (this.#player.findAgain() === undefined) return;
    clearTimeout(this.#rest);
    this.#rest = window.setTimeout(() => void this.#renew(), REST_MS);
  }

  /** Another lesson, edition or look: what was played is not what is shown. */
  close(): void {
    if (this.#player.piece !== undefined) this.#player.close();
  }

  async #hear(piece: Piece): Promise<void> {
    // While the press is fresh: the browser allows sound for it.
    this.#player.wished();
    const answer = await this.#ask(piece);
    if (answer.kind === 'found') this.#player.play(piece, answer.performance);
    else if (answer.kind === 'nothing') this.#page.tell(answer.sentence);
    else if (answer.kind === 'outdated') this.#pressed = piece;
  }

  /** What the press will need is fetched and made. */
  async #prepare(piece: Piece): Promise<void> {
    const answer = await this.#ask(piece);
    if (answer.kind === 'found') this.#player.prepare(answer.performance);
  }

  #playFromCursor(answer: PerformanceAnswer): void {
    this.#awaited = undefined;
    if (answer.kind === 'nothing') this.#page.tell(answer.sentence);
    if (answer.kind !== 'found') return;
    const shown = this.#page.revision();
    if (shown === undefined || shown < answer.revision) {
      this.#awaited = answer;
      return;
    }
    const slot = this.#page.slotAt(answer.slot);
    const { place, from, to, selected } = answer;
    const piece = piecesOn(this.#page.sheet).find((one) => one.slot === slot && one.place === place);
    if (shown !== answer.revision || piece === undefined) return;
    this.#player.wished();
    this.#player.play(piece, answer.performance, from, { loop: selected ? { from, to } : undefined });
    setTimeout(() => {
      if (this.#player.holdBack()) this.#page.post({ kind: 'held-back' });
    }, HELD_BACK_MS);
  }

  /** What is written now takes the place of what was. */
  async #renew(): Promise<void> {
    const { piece } = this.#player;
    if (piece === undefined) return;
    const answer = await this.#ask(piece);
    if (answer.kind !== 'found' || piece !== this.#player.piece) return;
    if (JSON.stringify(answer.performance) !== JSON.stringify(this.#player.performance))
      this.#player.renew(answer.performance);
  }

  /** Each piece is asked about once for each picture of the sheet. */
  #ask({ kind, slot, place }: Piece): Promise<PerformanceAnswer> {
    const revision = this.#page.revision();
    const number = this.#page.slotNumber(slot);
    if (revision === undefined || number < 0) return Promise.resolve({ kind: 'unknown' });
    const key = `${kind} ${number} ${place}`;
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    this.#asks += 1;
    const ask = this.#asks;
    const answer = new Promise<PerformanceAnswer>((resolve) => this.#asked.set(ask, resolve));
    this.#known.set(key, answer);
    this.#page.post({ kind: 'perform', ask, of: kind, revision, slot: number, place });
    return answer;
  }
}

function standsAt(piece: Piece, before: Piece): boolean {
  return piece.kind === before.kind && piece.slot === before.slot && piece.place === before.place;
}
