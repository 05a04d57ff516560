import type { Performance } from '../../shared/score/performance.ts';
import { AudioOutput } from './audio-output.ts';
import { HeardInView } from './heard-in-view.ts';
import type { Stretch } from './options.ts';
import { PAGE_TIMING } from './page-timing.ts';
import { type Piece, piecesOn, placePlayButtons, playButtonOf, tellSoundingPiece, wordsOf } from './pieces.ts';
import { type HeardMark, Player } from './player.ts';
import { SheetMarks } from './sheet-marks.ts';
import { Transport } from './transport.ts';

/** What the page around a sheet does for what is heard on it. */
export interface SheetPlayerWishes {
  /** Somebody wants to hear the piece: the page finds out what it sounds like, and lets it play. */
  readonly hear: (piece: Piece) => void;
  /** It may be wanted soon. */
  readonly prepare: (piece: Piece) => void;
}

/**
 * Plays the pieces of a sheet wherever one is shown: the buttons beside them, the bar of controls, the marks on what is heard, and the
 * sheet that goes along until the reader scrolls away.
 */
export class SheetPlayer {
  readonly #sheet: HTMLElement;
  readonly #wishes: SheetPlayerWishes;
  readonly #output = new AudioOutput();
  readonly #player: Player;
  readonly #transport: Transport;
  readonly #view: HeardInView;
  #marks: SheetMarks | undefined;
  /** The piece in the bar of controls, as it was drawn when it was last looked at. */
  #piece: Piece | undefined;
  #wishedAt = 0;

  constructor(sheet: HTMLElement, wishes: SheetPlayerWishes) {
    this.#sheet = sheet;
    this.#wishes = wishes;
    this.#player = new Player(this.#output, PAGE_TIMING, {
      marked: (mark) => this.#marked(mark),
      changed: () => this.#changed(),
      started: () => {
        // For tests and benchmarks: from the wish to the first sound.
        this.#transport.element.dataset.startMs = String(Math.round(performance.now() - this.#wishedAt));
      },
    });
    this.#transport = new Transport(this.#player, {
      close: () => this.close(),
      wished: () => {
        this.wished();
        this.#show(this.#player.bar);
      },
    });
    document.body.append(this.#transport.element);
    this.#view = new HeardInView(this.#transport.element);
    new ResizeObserver(() => this.#view.makeRoom()).observe(this.#transport.element);
    document.addEventListener('keydown', (event) => this.#key(event));
  }

  get piece(): Piece | undefined {
    return this.#piece;
  }

  get performance(): Performance | undefined {
    return this.#player.performance;
  }

  /** Buttons for what stands on the sheet now. */
  placeButtons(): void {
    placePlayButtons(this.#sheet, {
      press: (piece) => this.#press(piece),
      prepare: (piece) => this.#wishes.prepare(piece),
      sounds: (piece) => this.#sounds(piece),
    });
  }

  /** Something is wanted to be heard, in a gesture of the reader: from here on sound may be made, and the sheet goes along. */
  wished(): void {
    this.#wishedAt = performance.now();
    this.#view.follow();
    delete this.#transport.element.dataset.startMs;
    this.#transport.tellHeldBack(false);
    this.#output.wake();
  }

  /** Makes the first sounds ready. A browser complains of sound that is made before the reader has done anything on the page. */
  prepare(music: Performance): void {
    if (navigator.userActivation?.hasBeenActive === true) this.#player.prepare(music);
  }

  /** Plays a piece from a bar on; `loop` has the bars that are played again and again, and nothing where none are. */
  play(wanted: Piece, music: Performance, from = 0, wish: { readonly loop?: Stretch | undefined } = {}): void {
    // It may have been drawn again since it was pressed.
    const piece = wanted.head.isConnected ? wanted : (sameIn(piecesOn(this.#sheet), wanted) ?? wanted);
    if (piece.head !== this.#piece?.head || music !== this.#player.performance) this.#load(piece, music);
    if ('loop' in wish) {
      if (wish.loop !== undefined) this.#player.select(wish.loop);
      this.#player.change({ loop: wish.loop !== undefined });
    }
    this.#player.play(from);
    this.#show(from);
    // Who compares candidates goes on from one to the next.
    if (piece.kind === 'title') this.#transport.focusPlay();
  }

  /** Whether the browser makes no sound yet: then it waits, and the bar of controls says what is needed. */
  holdBack(): boolean {
    if (this.#output.running() || this.#player.state !== 'playing') return false;
    this.#player.pause();
    this.#transport.tellHeldBack(true);
    this.#transport.focusPlay();
    return true;
  }

  /** The sheet was drawn again: finds the piece there and marks what is heard. What is not there any more is silent. */
  findAgain(): Piece | undefined {
    const before = this.#piece;
    if (before === undefined) return undefined;
    const piece = sameIn(piecesOn(this.#sheet), before);
    if (piece === undefined) {
      this.close();
      return undefined;
    }
    this.#piece = piece;
    this.#marks?.read(piece.head);
    this.#tellSounding();
    return piece;
  }

  /** The piece as it is written now. */
  renew(music: Performance): void {
    const piece = this.#piece;
    if (piece === undefined) return;
    this.#player.renew(music);
    this.#marks?.forget();
    this.#marks = new SheetMarks(this.#sheet, piece.head, music);
    this.#transport.show(music);
  }

  stop(): void {
    this.#player.stop();
  }

  /** Silence, and no bar of controls. */
  close(): void {
    const piece = this.#piece === undefined ? undefined : sameIn(piecesOn(this.#sheet), this.#piece);
    this.#piece = undefined;
    this.#player.stop();
    this.#marks?.forget();
    this.#marks = undefined;
    const hadKeyboard = this.#transport.element.contains(document.activeElement);
    this.#transport.hide();
    this.#view.makeRoom();
    if (hadKeyboard && piece !== undefined) playButtonOf(piece)?.focus();
  }

  #press(piece: Piece): void {
    if (this.#sounds(piece)) this.#player.stop();
    else this.#wishes.hear(piece);
  }

  #sounds({ head }: Piece): boolean {
    return this.#player.state === 'playing' && head === this.#piece?.head;
  }

  #load(piece: Piece, music: Performance): void {
    this.#piece = piece;
    this.#marks?.forget();
    this.#player.load(music);
    this.#marks = new SheetMarks(this.#sheet, piece.head, music);
    this.#transport.show(music);
    this.#view.makeRoom();
  }

  /** Brings into view what is heard in a bar, from this chord on where one is taken. */
  #show(bar: number, chord?: number): void {
    this.#view.show(this.#marks?.elementOf(bar, chord));
  }

  #marked(mark: HeardMark): void {
    this.#marks?.show(mark);
    this.#transport.showBar();
    const { dataset } = this.#transport.element;
    // For tests: how long after it was heard it is shown, at most so far.
    const late = mark.late * 1000;
    if (late > Number(dataset.latestMs ?? 0)) dataset.latestMs = late.toFixed(1);
    dataset.bar = String(mark.bar);
    if (mark.moment === undefined) this.#show(mark.bar, mark.chord);
  }

  #changed(): void {
    if (this.#player.state === 'stopped') this.#marks?.forget();
    this.#transport.update();
    this.#tellSounding();
  }

  #tellSounding(): void {
    tellSoundingPiece(this.#sheet, (piece) => this.#sounds(piece));
  }

  /** Escape on the sheet, too: who presses Play beside a candidate keeps the keyboard there. */
  #key(event: KeyboardEvent): void {
    if (event.key !== 'Escape' || event.defaultPrevented || this.#piece === undefined) return;
    event.preventDefault();
    this.close();
  }
}

/** The piece among those that are drawn now; by its words where blocks have moved. */
function sameIn(pieces: readonly Piece[], before: Piece): Piece | undefined {
  // A slot may pass from a family that was chosen to a tune: that is another piece.
  const alike = pieces.filter(
    ({ kind, head }) => kind === before.kind && (kind === 'title' || cardOf(head) === cardOf(before.head)),
  );
  const words = wordsOf(before);
  const same = alike.filter((piece) => wordsOf(piece) === words);
  return (
    alike.find(({ head }) => head === before.head) ??
    same.find(({ slot }) => slot === before.slot) ??
    same.find(({ place }) => place === before.place) ??
    same[0] ??
    alike.find(({ slot, place }) => slot === before.slot && place === before.place)
  );
}

/** `Family 2 of 4` */
function cardOf(head: Element): string | null {
  return head.getAttribute('aria-label');
}
