import type { PerformanceAnswer } from '../../../server/protocol/playing.ts';
import { AudioOutput } from '../../player/audio-output.ts';
import { HeardInView } from '../../player/heard-in-view.ts';
import { PAGE_TIMING } from '../../player/page-timing.ts';
import { type HeardMark, Player } from '../../player/player.ts';
import { SheetMarks } from '../../player/sheet-marks.ts';
import { Transport } from '../../player/transport.ts';
import { type PlayingFromPage, readPlayingToPage } from '../playing-messages.ts';
import { type ExerciseTitle, placePlayButtons, titlesOn } from './play-buttons.ts';

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

/** Plays exercises of the sheet: fetches what they sound like, shows the bar of controls, and marks what is heard. */
export class Playing {
  readonly #page: PlayingPage;
  readonly #output = new AudioOutput();
  readonly #player: Player;
  readonly #transport: Transport;
  readonly #view: HeardInView;
  #marks: SheetMarks | undefined;
  /** The exercise in the bar of controls. Its title may be drawn again, its slot and place stay. */
  #title: ExerciseTitle | undefined;
  #asks = 0;
  /** Questions on their way. */
  readonly #asked = new Map<number, (answer: PerformanceAnswer) => void>();
  /** Answers for what the sheet shows now, by slot and place. */
  readonly #known = new Map<string, Promise<PerformanceAnswer>>();
  /** What the editor's cursor asks to be played, until the sheet that it means is shown. */
  #awaited: Extract<PerformanceAnswer, { kind: 'found' }> | undefined;
  /** Until the reader scrolls away, the sheet goes along with the music. */
  /** Pressed while the sheet was behind its text: played as soon as it is not. */
  #pressed: HTMLElement | undefined;
  #wishedAt = 0;
  #rest = 0;

  constructor(page: PlayingPage) {
    this.#page = page;
    this.#player = new Player(this.#output, PAGE_TIMING, {
      marked: (mark) => this.#marked(mark),
      changed: () => this.#changed(),
      started: () => {
        // For tests and benchmarks: from the wish to the first sound.
        this.#transport.element.dataset.startMs = String(Math.round(performance.now() - this.#wishedAt));
      },
    });
    this.#transport = new Transport(this.#player, { close: () => this.#close(), wished: () => this.#wished() });
    document.body.append(this.#transport.element);
    this.#view = new HeardInView(this.#transport.element);
    new ResizeObserver(() => this.#placeButtons()).observe(page.sheet);
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
    this.#placeButtons();
    const pressed = titlesOn(this.#page.sheet).find(({ slot }) => slot === this.#pressed);
    this.#pressed = undefined;
    if (pressed !== undefined) void this.#press(pressed);
    if (this.#awaited !== undefined && this.#awaited.revision === this.#page.revision())
      this.#playFromCursor(this.#awaited);
    const title = this.#titleNow();
    if (title === undefined) {
      if (this.#title !== undefined) this.#close();
      return;
    }
    this.#title = title;
    this.#marks?.read(title.heading);
    clearTimeout(this.#rest);
    this.#rest = window.setTimeout(() => void this.#renew(), REST_MS);
  }

  /** Another lesson, edition or look: what was played is not what is shown. */
  close(): void {
    if (this.#title !== undefined) this.#close();
  }

  #placeButtons(): void {
    placePlayButtons(
      this.#page.sheet,
      (title) => void this.#press(title),
      (title) => void this.#prepare(title),
    );
  }

  async #press(title: ExerciseTitle): Promise<void> {
    this.#wished();
    // While the press is fresh: the browser allows sound for it.
    this.#output.wake();
    const answer = await this.#ask(title);
    switch (answer.kind) {
      case 'found':
        this.#load(title, answer);
        this.#player.play(0);
        this.#transport.focusPlay();
        return;
      case 'nothing':
        this.#page.tell(answer.sentence);
        return;
      case 'outdated':
        this.#pressed = title.slot;
        return;
      default:
        return;
    }
  }

  /** The keyboard or the pointer is on the button: what the press will need is fetched and made. */
  async #prepare(title: ExerciseTitle): Promise<void> {
    const answer = await this.#ask(title);
    // A browser complains of sound that is made ready before the reader has done anything on the page.
    if (answer.kind === 'found' && navigator.userActivation?.hasBeenActive === true)
      this.#player.prepare(answer.performance);
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
    const title = titlesOn(this.#page.sheet).find((one) => one.slot === slot && one.place === answer.place);
    if (shown !== answer.revision || title === undefined) return;
    this.#wished();
    this.#load(title, answer);
    if (answer.selected) this.#player.select({ from: answer.from, to: answer.to });
    this.#player.change({ loop: answer.selected });
    this.#player.play(answer.from);
    setTimeout(() => {
      if (this.#output.running() || this.#player.state !== 'playing') return;
      this.#player.pause();
      this.#transport.tellHeldBack(true);
      this.#transport.focusPlay();
      this.#page.post({ kind: 'held-back' });
    }, HELD_BACK_MS);
  }

  #load(title: ExerciseTitle, { performance }: Extract<PerformanceAnswer, { kind: 'found' }>): void {
    this.#title = title;
    this.#marks?.forget();
    this.#player.load(performance);
    this.#marks = new SheetMarks(this.#page.sheet, title.heading, performance);
    this.#transport.show(performance);
    this.#view.makeRoom();
  }

  /** What is written now takes the place of what was. */
  async #renew(): Promise<void> {
    const title = this.#title;
    if (title === undefined) return;
    const answer = await this.#ask(title);
    if (answer.kind !== 'found' || title !== this.#title) return;
    if (JSON.stringify(answer.performance) === JSON.stringify(this.#player.performance)) return;
    this.#player.renew(answer.performance);
    this.#marks?.forget();
    this.#marks = new SheetMarks(this.#page.sheet, title.heading, answer.performance);
    this.#transport.show(answer.performance);
  }

  /** Each title is asked about once for each picture of the sheet. */
  #ask({ slot, place }: ExerciseTitle): Promise<PerformanceAnswer> {
    const revision = this.#page.revision();
    const number = this.#page.slotNumber(slot);
    if (revision === undefined || number < 0) return Promise.resolve({ kind: 'unknown' });
    const key = `${number} ${place}`;
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    this.#asks += 1;
    const ask = this.#asks;
    const answer = new Promise<PerformanceAnswer>((resolve) => this.#asked.set(ask, resolve));
    this.#known.set(key, answer);
    this.#page.post({ kind: 'perform', ask, revision, slot: number, place });
    return answer;
  }

  #wished(): void {
    this.#wishedAt = performance.now();
    this.#view.follow();
    delete this.#transport.element.dataset.startMs;
    this.#transport.tellHeldBack(false);
  }

  #marked(mark: HeardMark): void {
    this.#marks?.show(mark);
    this.#transport.showBar();
    const { dataset } = this.#transport.element;
    // For tests: how long after it was heard it is shown, at most so far.
    const late = mark.late * 1000;
    if (late > Number(dataset.latestMs ?? 0)) dataset.latestMs = late.toFixed(1);
    dataset.bar = String(mark.bar);
    if (mark.moment === undefined) this.#view.show(this.#marks?.barElement(mark.bar));
  }

  #changed(): void {
    if (this.#player.state === 'stopped') this.#marks?.forget();
    this.#transport.update();
  }

  #close(): void {
    const title = this.#titleNow();
    this.#player.stop();
    this.#marks?.forget();
    this.#marks = undefined;
    this.#title = undefined;
    const hadKeyboard = this.#transport.element.contains(document.activeElement);
    this.#transport.hide();
    this.#view.makeRoom();
    if (hadKeyboard && title !== undefined)
      title.slot.querySelector<HTMLElement>(`:scope > .play-exercise[data-title="${title.place}"]`)?.focus();
  }

  /** The title of what is played as it is drawn now; by its words where blocks have moved. */
  #titleNow(): ExerciseTitle | undefined {
    const before = this.#title;
    if (before === undefined) return undefined;
    const titles = titlesOn(this.#page.sheet);
    const same = titles.filter(({ heading }) => heading.textContent === before.heading.textContent);
    return (
      titles.find(({ heading }) => heading === before.heading) ??
      same.find(({ slot }) => slot === before.slot) ??
      same[0] ??
      titles.find(({ slot, place }) => slot === before.slot && place === before.place)
    );
  }
}
