import type { ResolvedChord } from '../../lesson/model/resolved-chord.ts';
import type { ScoreBar, ScoreEvent, ScoreNote } from '../../score/timeline.ts';
import type { Rational } from '../../theory/rational.ts';
import { chordHeldAt } from '../chord-held.ts';
import type { TextSign } from './text-legend.ts';

/** A figure on a string line. `lead` stands before the column that the count line names: the `h` of a hammer-on. */
export interface Figure {
  readonly lead: string;
  readonly text: string;
}

/** What happens at one moment, as text. */
export interface TabCell {
  readonly at: Rational;
  /** By number of the string. */
  readonly strings: ReadonlyMap<number, Figure>;
  /** Below the strings: fingers of the picking hand, strokes, where strings are silenced. */
  readonly hand: string;
  readonly knocks: string;
}

/** Letters of knocks. */
const KNOCK_LETTERS = { thumb: 'T', palm: 'P', nails: 'N', body: 'B' } as const;

/** Writes bar after bar and remembers where each string was, for slides of a whole shape. */
export class CellWriter {
  readonly signs = new Set<TextSign>();
  private readonly lastFret = new Map<number, number>();
  private chord: ResolvedChord | undefined;

  cellsOf(bar: ScoreBar): readonly TabCell[] {
    const moments = new Map<string, { at: Rational; events: ScoreEvent[] }>();
    for (const event of bar.events) {
      if (event.kind === 'held') continue;
      const key = `${event.at.numerator}/${event.at.denominator}`;
      const known = moments.get(key) ?? { at: event.at, events: [] };
      known.events.push(event);
      moments.set(key, known);
    }
    const cells = [...moments.values()].map(({ at, events }) => this.cellOf(bar, at, events));
    this.chord = chordHeldAt(bar, bar.length, this.chord);
    return cells;
  }

  private cellOf(bar: ScoreBar, at: Rational, events: readonly ScoreEvent[]): TabCell {
    const strings = new Map<number, Figure>();
    const hand: string[] = [];
    const knocks: string[] = [];
    const chord = chordHeldAt(bar, at, this.chord);
    // Single notes have their string before a stroke that meets it.
    const ordered = [...events].sort((a, b) => Number(a.kind !== 'notes') - Number(b.kind !== 'notes'));
    for (const event of ordered) {
      for (const [string, figure] of this.figuresOf(event, chord))
        if (!strings.has(string)) strings.set(string, figure);
      const done = this.handOf(event);
      if (done !== '') hand.push(done);
      if (event.kind === 'hit') {
        this.signs.add(event.place);
        knocks.push(`${KNOCK_LETTERS[event.place]}${event.string ?? ''}${this.accentOf(event.accent)}`);
      }
    }
    const stop = stopText(events);
    if (stop !== undefined) {
      this.signs.add('stop');
      hand.push(stop);
    }
    return { at, strings, hand: hand.join('+'), knocks: knocks.join('+') };
  }

  private figuresOf(event: ScoreEvent, chord: ResolvedChord | undefined): readonly (readonly [number, Figure])[] {
    const plain = (fret: number): Figure => ({ lead: '', text: String(fret) });
    switch (event.kind) {
      case 'notes':
        return event.notes.map((note) => [note.string, this.noteFigure(note)]);
      case 'strum':
        if (event.damped) return event.notes.map(({ string }) => [string, this.deadFigure()]);
        return event.notes.map(({ string, fret }) => [string, this.reach(string, fret, plain(fret))]);
      case 'chunk':
        return stringsOf(chord).map(([string]) => [string, this.deadFigure()]);
      case 'roll':
        return stringsOf(chord).map(([string, fret]) => [string, this.reach(string, fret, plain(fret))]);
      case 'shape-slide':
        return stringsOf(chord).map(([string, fret]) => {
          const from = this.lastFret.get(string);
          const lead = from === undefined || from === fret ? '' : this.slideSign(from, fret);
          return [string, this.reach(string, fret, { lead, text: String(fret) })];
        });
      default:
        return [];
    }
  }

  private noteFigure({ string, fret, techniques, arrivesBy, arrivesFrom }: ScoreNote): Figure {
    let at = fret;
    let text = '';
    for (const technique of techniques) {
      switch (technique.kind) {
        case 'hammer-on':
        case 'pull-off':
          this.signs.add(technique.kind);
          text += `${technique.kind === 'hammer-on' ? 'h' : 'p'}${technique.fret}`;
          at = technique.fret;
          break;
        case 'slide':
          text += `${this.slideSign(at, technique.fret)}${technique.fret}`;
          at = technique.fret;
          break;
        case 'trill':
          this.signs.add('trill');
          text += `tr${technique.fret}`;
          break;
        case 'bend':
        case 'vibrato':
          this.signs.add(technique.kind);
          text += technique.kind === 'bend' ? 'b' : '~';
          break;
        case 'harmonic':
          break;
      }
    }
    const isHarmonic = arrivesBy === 'harmonic' || techniques.some(({ kind }) => kind === 'harmonic');
    if (isHarmonic) this.signs.add('harmonic');
    if (arrivesBy === 'hammer-on' || arrivesBy === 'pull-off' || arrivesBy === 'bend' || arrivesBy === 'vibrato')
      this.signs.add(arrivesBy);
    // Alone, a sign says what is done to the note before it.
    if (arrivesBy === 'bend' || arrivesBy === 'vibrato')
      return this.reach(string, at, { lead: '', text: arrivesBy === 'bend' ? 'b' : '~' });
    const lead =
      arrivesBy === 'hammer-on'
        ? 'h'
        : arrivesBy === 'pull-off'
          ? 'p'
          : arrivesBy === 'slide'
            ? this.slideSign(arrivesFrom ?? fret, fret)
            : '';
    return this.reach(
      string,
      at,
      isHarmonic ? { lead: '<', text: `${fret}>${text}` } : { lead, text: `${fret}${text}` },
    );
  }

  private slideSign(from: number, to: number): string {
    this.signs.add('slide');
    return to < from ? '\\' : '/';
  }

  private deadFigure(): Figure {
    this.signs.add('dead');
    return { lead: '', text: 'x' };
  }

  private reach(string: number, fret: number, figure: Figure): Figure {
    this.lastFret.set(string, fret);
    return figure;
  }

  private handOf(event: ScoreEvent): string {
    switch (event.kind) {
      case 'notes': {
        const fingers = event.notes.map(({ finger, restStroke }) => {
          if (finger !== undefined) this.signs.add('finger');
          if (restStroke) this.signs.add('rest-stroke');
          return `${finger ?? ''}${restStroke ? '^' : ''}`;
        });
        return fingers.join('') + this.accentOf(event.notes.some(({ accent }) => accent));
      }
      case 'strum': {
        const letter = event.direction === 'down' ? 'D' : 'U';
        this.signs.add('stroke');
        if (event.slow) this.signs.add('spread');
        if (event.light) this.signs.add('light');
        const stroke = `${letter}${event.slow ? '~' : ''}${this.accentOf(event.accent)}`;
        return event.light ? `(${stroke})` : stroke;
      }
      case 'chunk':
        this.signs.add('chunk');
        return `C${this.accentOf(event.accent)}`;
      case 'roll':
        this.signs.add('roll');
        return `R${this.accentOf(event.accent)}`;
      default:
        return '';
    }
  }

  private accentOf(accent: boolean): string {
    if (accent) this.signs.add('accent');
    return accent ? '!' : '';
  }
}

/** `stop`, or `stop43` where single strings are silenced: written out, as in a lesson, since a letter would be taken for a finger. */
function stopText(events: readonly ScoreEvent[]): string | undefined {
  const stops = events.filter((event) => event.kind === 'stop');
  if (stops.length === 0) return undefined;
  if (stops.some(({ strings }) => strings.length === 0)) return 'stop';
  const strings = [...new Set(stops.flatMap((event) => event.strings))].sort((one, other) => other - one);
  return `stop${strings.join('')}`;
}

function stringsOf(chord: ResolvedChord | undefined): readonly (readonly [string: number, fret: number])[] {
  if (chord === undefined) return [];
  const { shape } = chord;
  return shape.flatMap((fret, index) => (fret === 'muted' ? [] : [[shape.length - index, fret] as const]));
}
