import type { Performance, PerformedBar } from '../../shared/score/performance.ts';
import { PERCENT, type PlayOptions, type Stretch } from './options.ts';
import { hasBothLayers } from './plan.ts';
import type { Player } from './player.ts';
import { make, press, toggle } from './transport-markup.ts';

/** Said where the browser makes no sound before the reader has done something on the page. */
const HELD_BACK = 'Your browser makes no sound before you click or press a key here. Press Play.';

export interface TransportWishes {
  readonly close: () => void;
  /** Before it plays, in the reader's own gesture. */
  readonly wished: () => void;
}

/** The bar of controls: it is there while an exercise is played, works by the keyboard alone, and shows what the player does. */
export class Transport {
  readonly element: HTMLElement;
  readonly #player: Player;
  readonly #wished: () => void;
  readonly #title = make('span', { class: 'transport-title' });
  readonly #place = make('span', { class: 'transport-place' });
  readonly #told = make('span', { class: 'transport-told', role: 'status' });
  readonly #play = make('button', { type: 'button', class: 'transport-play', 'aria-keyshortcuts': 'Space' });
  readonly #stop = make(
    'button',
    { type: 'button', 'aria-keyshortcuts': 'S', title: 'Stop, and back to the start (S)' },
    'Stop',
  );
  readonly #close = make(
    'button',
    { type: 'button', class: 'transport-close', 'aria-keyshortcuts': 'Escape', title: 'Stop and close (Esc)' },
    'Close',
  );
  readonly #tempo = make('input', {
    type: 'range',
    min: String(PERCENT.least),
    max: String(PERCENT.most),
    step: String(PERCENT.step),
    'aria-label': 'Tempo',
    'aria-keyshortcuts': '- +',
  });
  readonly #tempoTold = make('output', { class: 'transport-tempo-told' });
  readonly #ladder = toggle('Ladder', 'A', 'Each time through a step faster, as the lesson says');
  readonly #loop = toggle('Loop', 'L', 'The bars from … to … again and again');
  readonly #from = make('select', { 'aria-label': 'Loop from' });
  readonly #to = make('select', { 'aria-label': 'Loop to' });
  readonly #countIn = toggle('Count-in', 'C', 'One bar of clicks before the music');
  readonly #metronome = toggle('Metronome', 'M', 'A click on every beat');
  readonly #swing = toggle('Swing', 'W', 'Long and short, as the lesson says; else even, as written');
  readonly #tune = toggle('Tune', 'T', 'Hear the tune');
  readonly #accompaniment = toggle('Accompaniment', 'B', 'Hear what goes with the tune');
  readonly #caution = make('p', { class: 'transport-caution' });
  /** First performed bar of every written one, in written order. */
  #written: readonly { readonly bar: number; readonly label: string }[] = [];

  constructor(player: Player, { close, wished }: TransportWishes) {
    this.#player = player;
    this.#wished = wished;
    this.element = make(
      'section',
      { class: 'transport', 'aria-label': 'Playing', hidden: '' },
      make(
        'div',
        { class: 'transport-row' },
        this.#play,
        this.#stop,
        make('span', { class: 'transport-where' }, this.#title, this.#place),
        this.#close,
      ),
      make(
        'div',
        { class: 'transport-row' },
        make('label', { class: 'transport-tempo' }, 'Tempo ', this.#tempo, this.#tempoTold),
        this.#ladder,
        make(
          'span',
          { class: 'transport-loop' },
          this.#loop,
          make('label', {}, ' bars ', this.#from),
          make('label', {}, ' to ', this.#to),
        ),
        this.#countIn,
        this.#metronome,
        this.#swing,
        this.#tune,
        this.#accompaniment,
      ),
      this.#told,
      make('div', { class: 'transport-foot' }, keysLine(), this.#caution),
    );
    this.#play.addEventListener('click', () => this.#playOrPause());
    this.#stop.addEventListener('click', () => player.stop());
    this.#close.addEventListener('click', close);
    this.#tempo.addEventListener('input', () => player.change({ percent: Number(this.#tempo.value) }));
    for (const [button, option] of this.#toggles()) {
      button.addEventListener('click', () => player.change({ [option]: !player.options[option] }));
    }
    for (const end of [this.#from, this.#to]) end.addEventListener('change', () => this.#selectBars(end));
    this.element.addEventListener('keydown', (event) => this.#key(event, close));
  }

  /** Another exercise. */
  show(performance: Performance): void {
    this.element.hidden = false;
    this.#title.textContent = performance.title;
    this.#written = writtenBars(performance);
    for (const select of [this.#from, this.#to]) {
      select.replaceChildren(...this.#written.map(({ label }, index) => new Option(label, String(index))));
    }
    this.#ladder.hidden = performance.tempos.length < 2;
    this.#swing.hidden = !performance.swings;
    const canMute = hasBothLayers(performance);
    this.#tune.hidden = !canMute;
    this.#accompaniment.hidden = !canMute;
    this.#caution.textContent = performance.caution;
    this.update();
  }

  hide(): void {
    this.element.hidden = true;
    this.tellHeldBack(false);
  }

  focusPlay(): void {
    this.#play.focus({ preventScroll: true });
  }

  /** Whether a sentence says that the browser holds the sound back. */
  tellHeldBack(heldBack: boolean): void {
    const told = heldBack ? HELD_BACK : '';
    if (this.#told.textContent !== told) this.#told.textContent = told;
    this.#told.classList.toggle('held-back', heldBack);
  }

  /** What the player does now. Nothing here is read aloud by itself: who listens to the music is not to be talked over. */
  update(): void {
    const { options, state, performance, stretch } = this.#player;
    if (performance === undefined) return;
    const playing = state === 'playing';
    this.#play.textContent = playing ? 'Pause' : 'Play';
    this.#play.title = playing ? 'Pause (Space)' : 'Play (Space)';
    this.element.dataset.state = state;
    this.#tempo.value = String(options.percent);
    const perMinute = Math.round(this.#player.perMinute());
    this.#tempoTold.textContent = `${options.percent} %, ${perMinute} a minute`;
    this.#tempo.setAttribute('aria-valuetext', `${options.percent} percent, ${perMinute} beats a minute`);
    for (const [button, option] of this.#toggles()) press(button, options[option] === true);
    this.#from.value = String(this.#placeOf(stretch.from));
    this.#to.value = String(this.#placeOf(stretch.to - 1));
    this.showBar();
  }

  showBar(): void {
    const { performance, bar, time, options, state } = this.#player;
    if (performance === undefined) return;
    const label = this.#written[this.#placeOf(bar)]?.label ?? '';
    const round = options.loop || performance.times > 1 ? `, time ${time + 1}` : '';
    const place = state === 'stopped' ? '' : `bar ${label}${round}`;
    if (this.#place.textContent !== place) this.#place.textContent = place;
  }

  #toggles(): readonly (readonly [HTMLButtonElement, Exclude<keyof PlayOptions, 'percent'>])[] {
    return [
      [this.#ladder, 'ladder'],
      [this.#loop, 'loop'],
      [this.#countIn, 'countIn'],
      [this.#metronome, 'metronome'],
      [this.#swing, 'swing'],
      [this.#tune, 'tune'],
      [this.#accompaniment, 'accompaniment'],
    ];
  }

  #playOrPause(): void {
    if (this.#player.state === 'playing') this.#player.pause();
    else {
      this.#wished();
      this.#player.play();
    }
  }

  /** Letters press the buttons; Space plays wherever no control needs it. */
  #key(event: KeyboardEvent, close: () => void): void {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    const work = this.#workOf(event, close);
    if (work === undefined) return;
    event.preventDefault();
    event.stopPropagation();
    work();
  }

  #workOf({ key, target }: KeyboardEvent, close: () => void): (() => void) | undefined {
    const { options } = this.#player;
    const inSelect = target instanceof HTMLSelectElement;
    const inRange = target === this.#tempo;
    if (key === 'Escape') return close;
    if (key === ' ') return target instanceof HTMLButtonElement || inSelect ? undefined : () => this.#playOrPause();
    if (inSelect) return undefined;
    if (!inRange && (key === 'ArrowRight' || key === 'ArrowLeft'))
      return () => this.#step(key === 'ArrowRight' ? 1 : -1);
    if (key === '+' || key === '=') return () => this.#changeTempo(PERCENT.step);
    if (key === '-') return () => this.#changeTempo(-PERCENT.step);
    if (key === '[' || key === ']') return () => this.#loopHere(key === '[');
    const letter = key.toUpperCase();
    if (letter === 'S') return () => this.#player.stop();
    const pressed = this.#toggles().find(
      ([button]) => button.getAttribute('aria-keyshortcuts') === letter && !button.hidden,
    );
    if (pressed === undefined) return undefined;
    const [, option] = pressed;
    return () => this.#player.change({ [option]: !options[option] });
  }

  #changeTempo(by: number): void {
    const percent = Math.min(PERCENT.most, Math.max(PERCENT.least, this.#player.options.percent + by));
    this.#player.change({ percent });
  }

  #step(by: number): void {
    const bars = this.#player.performance?.bars.length ?? 0;
    this.#player.play(Math.min(bars - 1, Math.max(0, this.#player.bar + by)));
  }

  #loopHere(first: boolean): void {
    const here = String(this.#placeOf(this.#player.bar));
    const end = first ? this.#from : this.#to;
    end.value = here;
    this.#selectBars(end);
  }

  #selectBars(changed: HTMLSelectElement): void {
    // The end that was not touched gives way.
    if (Number(this.#from.value) > Number(this.#to.value)) {
      if (changed === this.#from) this.#to.value = this.#from.value;
      else this.#from.value = this.#to.value;
    }
    const performance = this.#player.performance;
    if (performance === undefined) return;
    const stretch = stretchOf(
      performance,
      this.#written[Number(this.#from.value)]?.bar,
      this.#written[Number(this.#to.value)]?.bar,
    );
    if (stretch === undefined) return;
    this.#player.select(stretch);
    if (!this.#player.options.loop) this.#player.change({ loop: true });
  }

  /** The written bar that a performed one is. */
  #placeOf(bar: number): number {
    const { bars } = this.#player.performance ?? {};
    const performed = bars?.[bar];
    const place = this.#written.findIndex(({ bar: first }) => sameWritten(bars?.[first], performed));
    return Math.max(0, place);
  }
}

/** What the keyboard does while it is in the bar. */
const KEYS: readonly (readonly [string, string])[] = [
  ['Space', 'play, pause'],
  ['S', 'stop'],
  ['← →', 'bar'],
  ['− +', 'tempo'],
  ['[ ]', 'loop from, to here'],
  ['L', 'loop'],
  ['A', 'ladder'],
  ['C', 'count-in'],
  ['M', 'metronome'],
  ['Esc', 'close'],
];

function keysLine(): HTMLElement {
  const line = make('p', { class: 'transport-keys' });
  for (const [key, does] of KEYS) line.append(make('span', {}, make('kbd', {}, key), ` ${does}`), ' ');
  return line;
}

function sameWritten(a: PerformedBar | undefined, b: PerformedBar | undefined): boolean {
  return a !== undefined && b !== undefined && a.pass === b.pass && a.written === b.written;
}

/** Bars as a reader counts them. A pickup has no number, and a second time through the same bars is told from the first. */
function writtenBars({ bars }: Performance): readonly { readonly bar: number; readonly label: string }[] {
  const passes = new Set(bars.map(({ pass }) => pass)).size;
  const found = new Map<string, { bar: number; pass: number; written: number; label: string }>();
  bars.forEach(({ pass, written, number }, bar) => {
    const key = `${pass}.${written}`;
    if (found.has(key)) return;
    const name = number === undefined ? 'pickup' : String(number);
    found.set(key, { bar, pass, written, label: passes > 1 ? `${name}, time ${pass}` : name });
  });
  return [...found.values()].sort((a, b) => a.pass - b.pass || a.written - b.written);
}

/** From the first turn of one written bar to the next turn of another. Nothing where the second never follows the first. */
function stretchOf(performance: Performance, first: number | undefined, last: number | undefined): Stretch | undefined {
  if (first === undefined || last === undefined) return undefined;
  const { bars } = performance;
  const end = bars.findIndex((bar, index) => index >= first && sameWritten(bar, bars[last]));
  return end < 0 ? undefined : { from: first, to: end + 1 };
}
