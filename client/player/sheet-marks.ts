import type { Performance } from '../../shared/score/performance.ts';
import { beginsPiece } from './pieces.ts';
import type { PlannedMark } from './plan.ts';

/** A moment of a bar as the sheet's markup tells it. */
interface DrawnMoment {
  /** Counted as written from the start of the bar. Unit: ticks. */
  readonly ticks: number;
  readonly x: number;
}

/** A bar, or a part of one that is too wide for its line. */
interface DrawnBar {
  readonly element: SVGGElement;
  readonly moments: readonly DrawnMoment[];
}

interface DrawnChord {
  readonly element: Element;
  readonly ticks: number;
}

/** Width of the mark on a moment. Unit: that of the drawing, hundredths of a millimetre. */
const MARK_WIDTH = 420;
const SVG = 'http://www.w3.org/2000/svg';

/**
 * Marks on the sheet what is heard: the bar, the moment in it, the chord's name and its diagrams. It reads the attributes that the
 * sheet's markup has for it and knows nothing of music.
 */
export class SheetMarks {
  readonly #sheet: Element;
  readonly #performance: Performance;
  readonly #bars = new Map<string, DrawnBar[]>();
  readonly #chords = new Map<string, DrawnChord[]>();
  readonly #diagrams = new Map<string, Element[]>();
  #marked: Element[] = [];
  #markedChord: Element[] = [];
  readonly #cursor: SVGRectElement;
  #last: { bar?: PlannedMark; moment?: PlannedMark; chord?: PlannedMark } = {};

  /** `head` is what the piece begins with; what is marked stands in it or follows it, up to the next piece or heading. */
  constructor(sheet: Element, head: Element, performance: Performance) {
    this.#sheet = sheet;
    this.#performance = performance;
    this.#cursor = document.createElementNS(SVG, 'rect');
    this.#cursor.setAttribute('class', 'sounding-moment');
    this.read(head);
  }

  /** Finds the bars anew after the sheet was drawn again, and puts the marks back. */
  read(head: Element): void {
    this.clear();
    this.#bars.clear();
    this.#chords.clear();
    this.#diagrams.clear();
    let own = false;
    for (const element of this.#sheet.querySelectorAll(
      'h2, h3, h4, [role="heading"], [data-candidate], [data-bar], [data-chord], [data-held]',
    )) {
      if (beginsPiece(element)) own = element === head;
      else this.#keep(element, own);
    }
    const { bar, moment, chord } = this.#last;
    for (const mark of [bar, moment, chord]) if (mark !== undefined) this.show(mark);
  }

  /** Where a bar is shown, to be scrolled to: the bar itself, or the diagram of what is held in it where there are diagrams alone. */
  elementOf(bar: number, chord = this.#performance.chords.findLastIndex((one) => one.bar <= bar)): Element | undefined {
    const { held } = this.#performance.chords[chord] ?? {};
    const drawn = this.#bars.get(this.#keyOf(bar))?.[0]?.element;
    return drawn ?? (held === undefined ? undefined : this.#diagrams.get(held)?.[0]);
  }

  show(mark: PlannedMark): void {
    if (mark.moment === undefined && mark.chord === undefined) {
      this.#last = { ...this.#last, bar: mark };
      const parts = this.#bars.get(this.#keyOf(mark.bar)) ?? [];
      this.#marked = exchange(
        this.#marked,
        parts.map(({ element }) => element),
      );
    }
    if (mark.moment !== undefined) this.#showMoment(mark, mark.moment);
    if (mark.chord !== undefined) this.#showChord(mark, mark.chord);
  }

  clear(): void {
    this.#marked = exchange(this.#marked, []);
    this.#markedChord = exchange(this.#markedChord, []);
    this.#cursor.remove();
  }

  /** Nothing is heard any more. */
  forget(): void {
    this.#last = {};
    this.clear();
  }

  #keep(element: Element, own: boolean): void {
    const held = element.getAttribute('data-held');
    const bar = element.getAttribute('data-bar');
    const chord = element.getAttribute('data-chord');
    // Diagrams over the lines of other exercises are not this one's, nor are those of other candidates; those in rows belong to all.
    const forAll = chord === null && element.closest('[data-candidate]') === null;
    if (held !== null && (own || forAll)) push(this.#diagrams, held, element);
    if (!own) return;
    if (bar !== null && element instanceof SVGGElement) {
      const moments = (element.getAttribute('data-moments') ?? '').split(' ').filter((pair) => pair !== '');
      push(this.#bars, bar, {
        element,
        moments: moments.map((pair) => {
          const [at = '0', x = '0'] = pair.split(':');
          return { ticks: this.#ticks(at), x: Number(x) };
        }),
      });
    }
    if (chord !== null) {
      const [where = '', at = '0'] = chord.split(':');
      push(this.#chords, where, { element, ticks: this.#ticks(at) });
    }
  }

  /** A fraction of a whole note. */
  #ticks(fraction: string): number {
    const [numerator = '0', denominator = '1'] = fraction.split('/');
    return (Number(numerator) * this.#performance.perWhole) / Number(denominator);
  }

  #keyOf(bar: number): string {
    const { pass, written } = this.#performance.bars[bar] ?? {};
    return `${pass}.${written}`;
  }

  #showMoment(mark: PlannedMark, ticks: number): void {
    this.#last = { ...this.#last, moment: mark };
    const parts = this.#bars.get(this.#keyOf(mark.bar)) ?? [];
    for (const { element, moments } of parts) {
      const moment = moments.find((one) => one.ticks === ticks);
      if (moment === undefined) continue;
      // The bar's area comes first in its group: the mark lies over that and under everything that is drawn.
      const area = element.firstElementChild;
      this.#cursor.setAttribute('x', String(moment.x - MARK_WIDTH / 2));
      this.#cursor.setAttribute('y', area?.getAttribute('y') ?? '0');
      this.#cursor.setAttribute('width', String(MARK_WIDTH));
      this.#cursor.setAttribute('height', area?.getAttribute('height') ?? '0');
      this.#cursor.setAttribute('rx', '60');
      if (this.#cursor.parentNode !== element) element.insertBefore(this.#cursor, area?.nextSibling ?? null);
      return;
    }
    // What has no place of its own in the drawing (a quick slur, a chord under a tune) leaves the mark where it is in the bar.
    if (!parts.some(({ element }) => element === this.#cursor.parentNode)) this.#cursor.remove();
  }

  #showChord(mark: PlannedMark, index: number): void {
    this.#last = { ...this.#last, chord: mark };
    const chord = this.#performance.chords[index];
    const bar = this.#performance.bars[chord?.bar ?? -1];
    if (chord === undefined || bar === undefined) return;
    const even = (moment: typeof chord.at): number => (typeof moment === 'number' ? moment : moment[1]);
    const at = even(chord.at) - even(bar.at);
    const names = this.#chords.get(this.#keyOf(chord.bar)) ?? [];
    const name = names.find(({ ticks }) => ticks === at);
    const diagrams = chord.held === undefined ? [] : (this.#diagrams.get(chord.held) ?? []);
    this.#markedChord = exchange(this.#markedChord, [...(name === undefined ? [] : [name.element]), ...diagrams]);
  }
}

function push<T>(lists: Map<string, T[]>, key: string, item: T): void {
  const list = lists.get(key);
  if (list === undefined) lists.set(key, [item]);
  else list.push(item);
}

/** Marks these elements in the place of those. */
function exchange(before: readonly Element[], now: readonly Element[]): Element[] {
  for (const element of before) if (!now.includes(element)) element.classList.remove('sounding');
  for (const element of now) element.classList.add('sounding');
  return [...now];
}
