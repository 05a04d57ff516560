/** One sound on a string of a tab, as its text has it. */
export interface TabMark {
  /** 1 is the top line's, nearest the floor. */
  readonly string: number;
  /** Column of the first figure, counted from the start of its bar. */
  readonly column: number;
  readonly sound:
    | { readonly kind: 'struck'; readonly fret: number }
    /** Reached by the fretting hand alone; `by` is the letter that the lesson language has for it. */
    | { readonly kind: 'linked'; readonly fret: number; readonly by: 'h' | 'p' | 's' }
    /** The string is struck while it is damped. */
    | { readonly kind: 'dead' }
    /** A picking pattern says which string is plucked, and perhaps by which finger, but no fret. */
    | { readonly kind: 'plucked'; readonly finger: string };
  /** What stands behind the note in the lesson language: `b`, `v`, `*`, `t7`. */
  readonly signs: readonly string[];
}

/** A place of a tab where the lesson says something else than the text, or less. */
export interface TabRemark {
  readonly string: number;
  readonly column: number;
  readonly message: string;
}

/** Highest fret that two figures are read as; above it they are two notes. Most necks end here. Common practice, no source. */
const HIGHEST_FRET = 24;

/** Reads one string of a tab, bar after bar. What was played last is remembered: a hammer-on may cross a bar line. */
export class StringReader {
  readonly #string: number;
  readonly #plucksOnly: boolean;
  /** The fret that sounds now. */
  #fret: number | undefined;
  #pending: { readonly by: 'h' | 'p' | 's'; readonly written: string; readonly column: number } | undefined;
  #marks: (Omit<TabMark, 'signs'> & { signs: string[] })[] = [];
  #remarks: TabRemark[] = [];

  /** `plucksOnly` where no string of the whole tab has a figure: then `x` and letters say which string is plucked. */
  constructor(string: number, plucksOnly: boolean) {
    this.#string = string;
    this.#plucksOnly = plucksOnly;
  }

  readBar(text: string): { readonly marks: readonly TabMark[]; readonly remarks: readonly TabRemark[] } {
    this.#marks = [];
    this.#remarks = [];
    for (let at = 0; at < text.length; ) at = this.#plucksOnly ? this.#readPluck(text, at) : this.#readSign(text, at);
    return { marks: this.#marks, remarks: this.#remarks };
  }

  #readPluck(text: string, at: number): number {
    const sign = text.charAt(at).toLowerCase();
    if (/[xo*pima]/.test(sign)) this.#add(at, { kind: 'plucked', finger: /[pima]/.test(sign) ? sign : '' });
    else if (!isFiller(sign)) this.#tell(at, `${text.charAt(at)} is not understood`);
    return at + 1;
  }

  /** Reads what stands at a place; the place behind it. */
  #readSign(text: string, at: number): number {
    const sign = text.charAt(at).toLowerCase();
    if (isFiller(sign)) return at + 1;
    if (/\d/.test(sign)) return this.#readFret(text, at);
    switch (sign) {
      case '(':
      case '<':
      case '[':
        return this.#readEnclosed(text, at);
      case 'h':
      case '^':
        return this.#link(text, at, 'h');
      case 'p':
        return this.#link(text, at, 'p');
      case '/':
      case '\\':
      case 's':
        return this.#link(text, at, 's');
      case 't':
        return this.#readTrill(text, at);
      case 'b':
        return this.#readBend(text, at);
      case '~':
      case 'v':
        return this.#readVibrato(text, at);
      case '*':
        this.#sign(at, '*', text);
        return at + 1;
      case 'x':
        this.#add(at, { kind: 'dead' });
        return at + 1;
      case 'o':
        this.#tell(at, `${text.charAt(at)} is read as the open string`);
        this.#strike(at, 0);
        return at + 1;
      default:
        this.#tell(at, `${text.charAt(at)} is not understood`);
        return at + 1;
    }
  }

  #readFret(text: string, at: number): number {
    const { fret, end } = fretAt(text, at);
    this.#arrive(at, fret);
    return end;
  }

  /** A note that the pending sign leads to, or one that is struck. */
  #arrive(column: number, fret: number): void {
    const pending = this.#pending;
    this.#pending = undefined;
    if (pending === undefined) {
      this.#strike(column, fret);
      return;
    }
    const from = this.#fret;
    // A slide whose end stands far away only left its note.
    const isFar = pending.by === 's' && column - pending.column > 3;
    if (from === undefined || isFar) {
      this.#tell(pending.column, `${pending.written} ${from === undefined ? 'before' : 'behind'} a note is left out`);
      this.#strike(column, fret);
      return;
    }
    const by = pending.by === 's' ? 's' : fret > from ? 'h' : 'p';
    if (fret === from) {
      this.#tell(column, `${from}${pending.written}${fret} does not move, so fret ${fret} is struck again`);
      this.#strike(column, fret);
      return;
    }
    if (by !== pending.by) {
      const meant = by === 'h' ? 'a hammer-on' : 'a pull-off';
      this.#tell(column, `${from}${pending.written}${fret}: from fret ${from} to ${fret} is ${meant}`);
    }
    this.#add(column, { kind: 'linked', fret, by });
    this.#fret = fret;
  }

  #strike(column: number, fret: number): void {
    this.#add(column, { kind: 'struck', fret });
    this.#fret = fret;
  }

  /** `(7)` behind the same fret lets it ring on, else it is a soft note; `<12>` and `[12]` are harmonics. */
  #readEnclosed(text: string, at: number): number {
    const inside = /^[(<[](\d{1,2}|[xX])[)>\]]/.exec(text.slice(at, at + 4));
    const [whole, content] = inside ?? [];
    if (whole === undefined || content === undefined || Number(content) > HIGHEST_FRET) {
      this.#tell(at, `${text.charAt(at)} is not understood`);
      return at + 1;
    }
    const end = at + whole.length;
    if (!/\d/.test(content)) {
      this.#add(at + 1, { kind: 'dead' });
      return end;
    }
    const fret = Number(content);
    if (whole.startsWith('(') && this.#pending === undefined && this.#fret === fret) {
      this.#tell(at, `${whole} lets the note before it sound on`);
      return end;
    }
    this.#arrive(at + 1, fret);
    if (whole.startsWith('(')) this.#tell(at, `${whole} is written as a plain note`);
    else this.#sign(at, '*', text);
    return end;
  }

  #link(text: string, at: number, by: 'h' | 'p' | 's'): number {
    if (this.#pending !== undefined) this.#tell(this.#pending.column, `${this.#pending.written} is left out`);
    this.#pending = { by, written: text.charAt(at), column: at };
    return at + 1;
  }

  /** `5t7` and `5tr7` trill; a `t` with no note before it taps. */
  #readTrill(text: string, at: number): number {
    const letters = /^tr?/i.exec(text.slice(at, at + 2))?.[0] ?? 't';
    const figure = at + letters.length;
    const target = /\d/.test(text.charAt(figure)) ? fretAt(text, figure) : undefined;
    const from = this.#fret;
    const follows = at > 0 && !isFiller(text.charAt(at - 1));
    if (target !== undefined && follows && from !== undefined && target.fret !== from) {
      this.#sign(at, `t${target.fret}`, text);
      return target.end;
    }
    this.#tell(at, `${letters} is left out`);
    return figure;
  }

  /** `7b`, and `7b9r7`, of which the lesson keeps that it is a bend. */
  #readBend(text: string, at: number): number {
    const whole = /^b(?:\(?\d{0,2}\)?)?(?:r(?:\(?\d{0,2}\)?)?)?/i.exec(text.slice(at, at + 12))?.[0] ?? 'b';
    this.#sign(at, 'b', text);
    if (whole.length > 1) this.#tell(at, `${this.#fret ?? ''}${whole} is written as a bend`);
    return at + whole.length;
  }

  #readVibrato(text: string, at: number): number {
    let end = at + 1;
    while (text.charAt(end) === text.charAt(at)) end += 1;
    this.#sign(at, 'v', text);
    return end;
  }

  /** Puts a sign behind the last note of this bar. One that was hammered on has no room for it. */
  #sign(at: number, sign: string, text: string): void {
    const last = this.#marks.at(-1);
    if (last?.sound.kind === 'struck') {
      if (!last.signs.includes(sign)) last.signs.push(sign);
    } else this.#tell(at, `${text.charAt(at)} is left out`);
  }

  #add(column: number, sound: TabMark['sound']): void {
    this.#marks.push({ string: this.#string, column, sound, signs: [] });
    if (sound.kind === 'dead') this.#fret = undefined;
  }

  #tell(column: number, message: string): void {
    this.#remarks.push({ string: this.#string, column, message });
  }
}

/** Two figures are one fret where the neck has it: 12, but 5 and 7 in 57. */
export function fretAt(text: string, at: number): { readonly fret: number; readonly end: number } {
  const two = /^\d\d/.exec(text.slice(at, at + 2))?.[0];
  if (two !== undefined && !two.startsWith('0') && Number(two) <= HIGHEST_FRET) {
    return { fret: Number(two), end: at + 2 };
  }
  return { fret: Number(text.charAt(at)), end: at + 1 };
}

function isFiller(sign: string): boolean {
  return /[-=_.\s']/.test(sign);
}
