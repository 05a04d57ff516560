import type { Performance } from '../../shared/score/performance.ts';
import type { Output, Sounding } from './output.ts';
import type { Plan, PlannedSound } from './plan.ts';
import { knockRecipe, type Recipe, recipeOf, type Voice, voiceOf } from './sound/tone.ts';

/** A sound of a plan that begins at `base`, by the output's clock. Unit: s. */
interface Ordered {
  readonly id: string;
  readonly base: number;
  readonly sounding: Sounding;
}

/** The sounds of one exercise on their way to the output: made ready, ordered, and given another end while they sound. */
export class OrderedSounds {
  readonly #output: Output;
  #voice: Voice = { material: 'nylon', body: 'small' };
  #soundings: Ordered[] = [];
  #unprepared: Recipe[] = [];

  constructor(output: Output) {
    this.#output = output;
  }

  /** What is ordered from now on belongs to this exercise. */
  take(performance: Performance): void {
    this.#voice = voiceOf(performance);
    const recipes = performance.sounds.map((sound) => recipeOf(sound, this.#voice));
    // Every different sound, in the order in which they come.
    this.#unprepared = [...new Map(recipes.map((recipe) => [recipe.key, recipe])).values()];
  }

  /** Makes the first sounds of an exercise ready that is about to be played. */
  prepareFirst(performance: Performance): void {
    const voice = voiceOf(performance);
    this.#output.prepare(knockRecipe('click'));
    this.#output.prepare(knockRecipe('strong-click'));
    for (const sound of performance.sounds.slice(0, FIRST_SOUNDS)) this.#output.prepare(recipeOf(sound, voice));
  }

  prepare(planned: PlannedSound): void {
    this.#output.prepare(this.#recipeOf(planned));
  }

  /** One sound more in each turn, so that none takes long when its time has come. */
  prepareNext(): void {
    const recipe = this.#unprepared.shift();
    if (recipe !== undefined) this.#output.prepare(recipe);
  }

  /** `base`: when the plan begins that the sound is of, by the output's clock. Unit: s. */
  order(planned: PlannedSound, base: number): void {
    const recipe = this.#recipeOf(planned);
    const at = base + planned.at;
    if (planned.kind === 'click') {
      const sounding = this.#output.order({ recipe, at, loudness: planned.strong ? 0.5 : 0.36 });
      this.#remember({ id: planned.id, base, sounding });
      return;
    }
    const { sound } = planned;
    const { midi, from, string, bend, vibrato, loudness } = sound;
    const sounding = this.#output.order({
      recipe,
      at,
      loudness,
      // A knock is over by itself, and is no sound of the string that it falls on.
      ...(midi === undefined ? {} : { end: base + planned.end }),
      ...(midi === undefined || string === undefined ? {} : { string }),
      ...(midi === undefined || from === undefined ? {} : { glide: from - midi }),
      ...(bend === undefined ? {} : { bend }),
      ...(vibrato === undefined ? {} : { vibrato }),
    });
    this.#remember({ id: planned.id, base, sounding });
  }

  /** What has begun before the cut ends as the plan made anew says, where it says anything of it. Times by the output's clock. Unit: s. */
  moveEnds(before: number, base: number, cut: number, anew: Plan | undefined): void {
    const ends = new Map(
      anew?.sounds.flatMap((sound) => (sound.kind === 'sound' ? [[sound.id, sound.end] as const] : [])),
    );
    this.#soundings = this.#soundings.flatMap((one) => {
      if (one.sounding.at >= cut) return [];
      const end = one.base === before ? ends.get(one.id) : undefined;
      if (end !== undefined && base + end >= cut) one.sounding.endAt(base + end);
      return [one.base === before ? { ...one, base } : one];
    });
  }

  /** What sounds is left to itself. */
  forget(): void {
    this.#soundings = [];
  }

  #remember(one: Ordered): void {
    this.#soundings.push(one);
    if (this.#soundings.length > MOST_REMEMBERED) this.#soundings = this.#soundings.slice(-MOST_REMEMBERED / 2);
  }

  #recipeOf(planned: PlannedSound): Recipe {
    if (planned.kind === 'click') return knockRecipe(planned.strong ? 'strong-click' : 'click');
    return recipeOf(planned.sound, this.#voice);
  }
}

/** A full stroke over the strings of a guitar. */
const FIRST_SOUNDS = 6;
/** More than can sound at a time. */
const MOST_REMEMBERED = 400;
