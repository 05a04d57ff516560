import type { Performance } from '../../shared/score/performance.ts';
import { AudioOutput } from '../player/audio-output.ts';
import { HeardInView } from '../player/heard-in-view.ts';
import { PAGE_TIMING } from '../player/page-timing.ts';
import { type HeardMark, Player } from '../player/player.ts';
import { SheetMarks } from '../player/sheet-marks.ts';
import { Transport } from '../player/transport.ts';
import { type ExerciseTitle, placePlayButtons, titlesOn } from '../preview/page/play-buttons.ts';

/** Plays the exercises of the page: shows the bar of controls, and marks on the sheet what is heard. */
export class Practice {
  readonly #sheet: HTMLElement;
  readonly #performanceOf: (exercise: number) => Performance | undefined;
  readonly #output = new AudioOutput();
  readonly #player: Player;
  readonly #transport: Transport;
  readonly #view: HeardInView;
  #marks: SheetMarks | undefined;
  /** The exercise in the bar of controls. */
  #exercise: number | undefined;
  /** Until the reader scrolls away, the sheet goes along with the music. */
  #wishedAt = 0;

  constructor(sheet: HTMLElement, performanceOf: (exercise: number) => Performance | undefined) {
    this.#sheet = sheet;
    this.#performanceOf = performanceOf;
    this.#player = new Player(this.#output, PAGE_TIMING, {
      marked: (mark) => this.#marked(mark),
      changed: () => this.#changed(),
      started: () => {
        // For tests: from the wish to the first sound.
        this.#transport.element.dataset.startMs = String(Math.round(performance.now() - this.#wishedAt));
      },
    });
    this.#transport = new Transport(this.#player, { close: () => this.#close(), wished: () => this.#wished() });
    document.body.append(this.#transport.element);
    this.#view = new HeardInView(this.#transport.element);
    new ResizeObserver(() => this.#view.makeRoom()).observe(this.#transport.element);
    sheet.addEventListener('click', ({ target }) => this.#clicked(target));
  }

  /** The sheet was drawn again. An exercise that plays goes on, as it is on the edition that is shown now. */
  sheetChanged(): void {
    this.#placeButtons();
    const title = this.#titleNow();
    const music = title === undefined ? undefined : this.#performanceOf(title.place);
    if (title === undefined || music === undefined) {
      if (this.#exercise !== undefined) this.#close();
      return;
    }
    if (music === this.#player.performance) {
      this.#marks?.read(title.heading);
      return;
    }
    this.#player.renew(music);
    this.#marks?.forget();
    this.#marks = new SheetMarks(this.#sheet, title.heading, music);
    this.#transport.show(music);
  }

  #placeButtons(): void {
    placePlayButtons(
      this.#sheet,
      (title) => this.#press(title),
      (title) => this.#prepare(title),
    );
    for (const { slot, place } of titlesOn(this.#sheet)) {
      const button = slot.querySelector<HTMLElement>(':scope > .play-exercise');
      if (button !== null) button.hidden = this.#performanceOf(place) === undefined;
    }
  }

  #press(title: ExerciseTitle): void {
    const music = this.#performanceOf(title.place);
    if (music === undefined) return;
    this.#wished();
    this.#load(title, music);
    this.#player.play(0);
    this.#transport.focusPlay();
  }

  /** The keyboard or the pointer is on the button: what the press will need is made. */
  #prepare({ place }: ExerciseTitle): void {
    const music = this.#performanceOf(place);
    // A browser complains of sound that is made ready before the reader has done anything on the page.
    if (music !== undefined && navigator.userActivation?.hasBeenActive === true) this.#player.prepare(music);
  }

  /** A press on a bar plays from there. */
  #clicked(target: EventTarget | null): void {
    const bar = target instanceof Element ? target.closest('g[data-bar]') : null;
    const title = bar === null ? undefined : titleBefore(this.#sheet, bar);
    const music = title === undefined ? undefined : this.#performanceOf(title.place);
    if (bar === null || title === undefined || music === undefined) return;
    const written = bar.getAttribute('data-bar');
    const first = music.bars.findIndex((one) => `${one.pass}.${one.written}` === written);
    if (first < 0) return;
    this.#wished();
    if (this.#exercise !== title.place) this.#load(title, music);
    this.#player.play(first);
    this.#transport.focusPlay();
  }

  #load(title: ExerciseTitle, music: Performance): void {
    this.#exercise = title.place;
    this.#marks?.forget();
    this.#player.load(music);
    this.#marks = new SheetMarks(this.#sheet, title.heading, music);
    this.#transport.show(music);
    this.#view.makeRoom();
  }

  #wished(): void {
    this.#wishedAt = performance.now();
    this.#view.follow();
    delete this.#transport.element.dataset.startMs;
  }

  #marked(mark: HeardMark): void {
    this.#marks?.show(mark);
    this.#transport.showBar();
    this.#transport.element.dataset.bar = String(mark.bar);
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
    this.#exercise = undefined;
    const hadKeyboard = this.#transport.element.contains(document.activeElement);
    this.#transport.hide();
    this.#view.makeRoom();
    if (hadKeyboard) title?.slot.querySelector<HTMLElement>(':scope > .play-exercise')?.focus();
  }

  #titleNow(): ExerciseTitle | undefined {
    return titlesOn(this.#sheet).find(({ place }) => place === this.#exercise);
  }
}

/** The title of the exercise that a bar belongs to; nothing for the bars of a pattern, which follow a heading of their own. */
function titleBefore(sheet: HTMLElement, bar: Element): ExerciseTitle | undefined {
  const headings = [...sheet.querySelectorAll('h2, h3, h4')];
  const last = headings.findLast(
    (heading) => (heading.compareDocumentPosition(bar) & Node.DOCUMENT_POSITION_FOLLOWING) !== 0,
  );
  return titlesOn(sheet).find(({ heading }) => heading === last);
}
