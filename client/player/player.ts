import type { Performance } from '../../shared/score/performance.ts';
import { type PlayOptions, type Stretch, USUAL_OPTIONS } from './options.ts';
import { OrderedSounds } from './ordered-sounds.ts';
import type { Output, Timing } from './output.ts';
import { type Plan, type PlannedMark, type PlannedSound, planCountIn, planOf, samePlace } from './plan.ts';

export type PlayerState = 'stopped' | 'paused' | 'playing';

/** What is heard at this moment. */
export interface HeardMark extends PlannedMark {
  /** How long after it was heard it is told. Unit: s. */
  readonly late: number;
}

export interface PlayerListener {
  readonly marked: (mark: HeardMark) => void;
  /** The first sound after a wish to play is heard. */
  readonly started?: () => void;
  /** Also where the tempo or the time through has changed. */
  readonly changed: (player: Player) => void;
}

/** One time through that is being ordered. `base`: when it begins, by the output's clock. */
interface Running {
  readonly plan: Plan;
  readonly base: number;
  /** Those of the plan that are to be ordered, and the first that is not yet. */
  readonly sounds: readonly PlannedSound[];
  next: number;
  /** What began before the plan was made anew. */
  readonly begun: ReadonlySet<string>;
}

interface Waiting {
  readonly at: number;
  readonly mark: PlannedMark;
  readonly time: number;
}

/** Time between the wish and the first sound, which is what ordering takes. Unit: s. */
const LEAD_S = 0.015;
/** Sounds are ordered so often. Unit: ms. */
const BEAT_MS = 25;
/** A wish that comes while it plays holds from so far ahead. Unit: s. */
const SWITCH_S = 0.02;

/** Plays a performance and says what is heard. It knows no page: its clock, its sounds and its timers are given to it. */
export class Player {
  readonly #output: Output;
  readonly #ordering: OrderedSounds;
  readonly #timing: Timing;
  readonly #listener: PlayerListener;
  #performance: Performance | undefined;
  #options: PlayOptions = USUAL_OPTIONS;
  #selected: Stretch | undefined;
  #state: PlayerState = 'stopped';
  #running: Running | undefined;
  #waiting: Waiting[] = [];
  #bar = 0;
  /** The time through that is ordered, and the one that is heard; from 0. */
  #ordered = 0;
  #heard = 0;
  /** The time through that the ladder begins with: the one in which it was asked for. */
  #ladderFrom = 0;
  #endsAt: number | undefined;
  /** When the first sound begins, until it is heard. */
  #startsAt: number | undefined;
  #halts: readonly (() => void)[] = [];

  constructor(output: Output, timing: Timing, listener: PlayerListener) {
    this.#output = output;
    this.#ordering = new OrderedSounds(output);
    this.#timing = timing;
    this.#listener = listener;
  }

  get state(): PlayerState {
    return this.#state;
  }

  get options(): PlayOptions {
    return this.#options;
  }

  get performance(): Performance | undefined {
    return this.#performance;
  }

  /** The bar that is heard, or where it goes on. */
  get bar(): number {
    return this.#bar;
  }

  /** The time through that is heard, from 0. */
  get time(): number {
    return this.#heard;
  }

  /** What is played again and again: the selected bars, or all. */
  get stretch(): Stretch {
    return this.#selected ?? { from: 0, to: this.#performance?.bars.length ?? 0 };
  }

  /** Beats a minute of a time through, as the performance counts them. */
  perMinute(time = this.#heard): number {
    const tempos = this.#performance?.tempos ?? [];
    const climbed = Math.max(0, time - this.#ladderFrom);
    const step = this.#options.ladder ? Math.min(climbed, tempos.length - 1) : 0;
    return ((tempos[step] ?? 80) * this.#options.percent) / 100;
  }

  /** Another exercise, or the same one written anew. What plays is stopped. */
  load(performance: Performance): void {
    this.stop();
    this.#performance = performance;
    this.#ordering.take(performance);
    this.#selected = undefined;
    this.#bar = 0;
    this.#changed();
  }

  /** Makes the first sounds of an exercise ready that is about to be played. */
  prepare(performance: Performance): void {
    this.#ordering.prepareFirst(performance);
  }

  /** The same exercise as it is written now. What plays goes on where as many bars are left, and else stops. */
  renew(performance: Performance): void {
    if (this.#performance?.bars.length !== performance.bars.length) {
      this.load(performance);
      return;
    }
    this.#ordering.take(performance);
    if (this.#state === 'playing') this.#planAnew(performance);
    this.#performance = performance;
    this.#changed();
  }

  /** Bars to be looped; none for all of them. */
  select(stretch: Stretch | undefined): void {
    const bars = this.#performance?.bars.length ?? 0;
    const whole = stretch === undefined || (stretch.from <= 0 && stretch.to >= bars);
    this.#selected = whole ? undefined : stretch;
    if (this.#options.loop && this.#state === 'playing') this.play(this.stretch.from);
    else this.#changed();
  }

  /** Plays from a bar, or from where it was. To be called by a gesture of the reader, or the browser may hold the sound back. */
  play(from = this.#bar): void {
    const performance = this.#performance;
    if (performance === undefined || performance.bars.length === 0) return;
    this.#halt();
    this.#output.wake();
    this.#output.hush(this.#output.now());
    const { loop, countIn, swing } = this.#options;
    const within = loop ? this.stretch : { from: 0, to: performance.bars.length };
    const first = from >= within.from && from < within.to ? from : within.from;
    this.#bar = first;
    this.#ordered = 0;
    this.#heard = 0;
    this.#ladderFrom = 0;
    this.#state = 'playing';
    const counted = countIn ? planCountIn(performance, first, this.perMinute(), swing) : { sounds: [], length: 0 };
    const plan = planOf(performance, { ...within, from: first }, this.perMinute(), this.#options);
    for (const sound of [...counted.sounds, ...plan.sounds]) {
      if (sound.at > FIRST_S) break;
      this.#ordering.prepare(sound);
    }
    const start = this.#output.now() + LEAD_S;
    this.#startsAt = start;
    for (const sound of counted.sounds) this.#ordering.order(sound, start);
    this.#begin(plan, start + counted.length);
    this.#orderAhead();
    this.#halts = [this.#timing.every(BEAT_MS, () => this.#tick()), this.#timing.eachFrame(() => this.#tellHeard())];
    this.#changed();
  }

  /** Silence; it goes on from the bar that was heard. */
  pause(): void {
    if (this.#state !== 'playing') return;
    this.#halt();
    this.#output.hush(this.#output.now());
    this.#state = 'paused';
    this.#changed();
  }

  /** Silence; it begins anew. */
  stop(): void {
    if (this.#state === 'stopped') return;
    this.#halt();
    this.#output.hush(this.#output.now());
    this.#state = 'stopped';
    this.#bar = this.#options.loop ? this.stretch.from : 0;
    this.#heard = 0;
    this.#changed();
  }

  /** Another wish holds at once, also while it plays. */
  change(wish: Partial<PlayOptions>): void {
    const before = this.#options;
    this.#options = { ...before, ...wish, ...(wish.ladder === true ? { loop: true } : {}) };
    if (wish.ladder === true && !before.ladder) this.#ladderFrom = this.#ordered;
    const { loop } = this.#options;
    const performance = this.#performance;
    if (this.#state === 'playing' && performance !== undefined) {
      const outside = loop && !before.loop && (this.#bar < this.stretch.from || this.#bar >= this.stretch.to);
      if (outside) this.play(this.stretch.from);
      else this.#planAnew(performance);
    }
    this.#changed();
  }

  #begin(plan: Plan, base: number): void {
    this.#running = { plan, base, sounds: plan.sounds, next: 0, begun: new Set() };
    const time = this.#ordered;
    this.#waiting.push(...plan.marks.map((mark) => ({ at: base + mark.at, mark, time })));
  }

  #tick(): void {
    this.#orderAhead();
    this.#ordering.prepareNext();
  }

  /** Orders what begins soon, over the seam of a loop as well: the next time through begins exactly where this one ends. */
  #orderAhead(): void {
    const until = this.#output.now() + this.#timing.lookahead();
    while (this.#running !== undefined) {
      const { plan, base, sounds } = this.#running;
      while (this.#running.next < sounds.length) {
        const sound = sounds[this.#running.next];
        if (sound === undefined || base + sound.at >= until) return;
        this.#ordering.order(sound, base);
        this.#running.next += 1;
      }
      const end = base + plan.length;
      if (end >= until) return;
      this.#goRound(end);
    }
  }

  /** The next time through, or the end. */
  #goRound(at: number): void {
    const performance = this.#performance;
    this.#running = undefined;
    if (performance === undefined) return;
    this.#ordered += 1;
    const { loop } = this.#options;
    if (!loop && this.#ordered >= performance.times) {
      this.#endsAt = at;
      return;
    }
    const stretch = loop ? this.stretch : { from: 0, to: performance.bars.length };
    this.#begin(planOf(performance, stretch, this.perMinute(this.#ordered), this.#options), at);
  }

  /**
   * What is still to come is planned anew, from the place that is heard now: the same place of the same bar, at another tempo or in
   * another feel. What has begun goes on and ends in its new time.
   */
  #planAnew(performance: Performance): void {
    const running = this.#running;
    if (running === undefined) return;
    const same = performance === this.#performance;
    this.#performance = performance;
    const { plan } = running;
    // The time through that comes next may be on its way already, and the one before still be heard: that one stays as it is.
    const cut = Math.max(this.#output.now() + SWITCH_S, running.base);
    const anew = planOf(performance, plan.stretch, this.perMinute(this.#ordered), this.#options);
    const base = cut - samePlace(plan, anew, cut - running.base);
    this.#output.takeBack(cut);
    this.#ordering.moveEnds(running.base, base, cut, same ? anew : undefined);
    const begun = new Set(same ? running.begun : []);
    const toCome = new Set<string>();
    if (same) for (const { id, at } of running.sounds) (running.base + at < cut ? begun : toCome).add(id);
    // In another feel a note may be over its place already: what has not begun is not left out for that, and what has is not repeated.
    const sounds = anew.sounds.flatMap((sound): readonly PlannedSound[] => {
      const late = base + sound.at < cut - 1e-9;
      if (begun.has(sound.id) || (late && !toCome.has(sound.id))) return [];
      return late ? [{ ...sound, at: cut - base }] : [sound];
    });
    const time = this.#ordered;
    this.#waiting = [
      ...this.#waiting.filter(({ at }) => at < cut),
      ...anew.marks.flatMap((mark) => (base + mark.at >= cut ? [{ at: base + mark.at, mark, time }] : [])),
    ];
    this.#running = { plan: anew, base, sounds, next: 0, begun };
    this.#orderAhead();
  }

  #tellHeard(): void {
    const heard = this.#output.heard();
    if (this.#startsAt !== undefined && heard >= this.#startsAt) {
      this.#startsAt = undefined;
      this.#listener.started?.();
    }
    let first = 0;
    while (first < this.#waiting.length) {
      const waiting = this.#waiting[first];
      if (waiting === undefined || waiting.at > heard) break;
      first += 1;
      const { at, mark, time } = waiting;
      const other = this.#heard !== time;
      this.#bar = mark.bar;
      this.#heard = time;
      this.#listener.marked({ ...mark, late: heard - at });
      if (other) this.#changed();
    }
    if (first > 0) this.#waiting.splice(0, first);
    if (this.#endsAt !== undefined && heard >= this.#endsAt) this.stop();
  }

  #halt(): void {
    for (const halt of this.#halts) halt();
    this.#halts = [];
    this.#running = undefined;
    this.#waiting = [];
    this.#ordering.forget();
    this.#endsAt = undefined;
    this.#startsAt = undefined;
  }

  #changed(): void {
    this.#listener.changed(this);
  }
}

/** What sounds so soon is made ready before the start; the rest while it plays. Unit: s. */
const FIRST_S = 0.15;
