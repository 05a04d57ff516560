// Lessons made by chance from everything that a lesson can say, to be drawn and looked at by tests. The music is nobody's.

/** One made lesson; the same seed gives the same text. */
export function generatedLesson(seed: number): string {
  return new Writer(seed).lesson();
}

const INSTRUMENTS: readonly (readonly [strings: number, text: string])[] = [
  [4, 'tenor ukulele, high G'],
  [4, 'soprano ukulele, low G, capo 2'],
  [5, 'tuned G4 C4 E4 A4 D5 scale 430 mm frets 19 spacing 9 mm'],
  [6, 'guitar'],
  [7, 'tuned B1 E2 A2 D3 G3 B3 E4 scale 650 mm frets 22 spacing 7 mm'],
  [8, 'tuned E2 A2 D3 G3 B3 E4 G4 B4 scale 610 mm frets 22 spacing 7 mm'],
];

const METERS = ['2/4', '3/4', '4/4', '4/4', '5/4', '6/8', '7/8', '9/8', '12/8'] as const;

const NAMES = [
  'C',
  'G',
  'Em',
  'Bb',
  'F#m7b5',
  'Ebmaj7/Bb',
  'D(add9)',
  'C13(no5)',
  'G#m7b5/F#',
  'Am(maj7)',
  'D/F#',
  'Gsus4',
];

const SYLLABLES = ['Lan-', 'terns', 'through', 'a', 'Wednes-', 'day', 'strength', 'o', 'Al-', 'low', 'moonlight'];

class Writer {
  private state: number;
  private strings = 4;
  private chords: readonly string[] = [];

  constructor(seed: number) {
    this.state = (seed * 2_654_435_761) >>> 0;
  }

  lesson(): string {
    const [strings, instrument] = this.pick(INSTRUMENTS);
    this.strings = strings;
    this.chords = this.some(NAMES, 2, 5);
    const meter = this.pick(METERS);
    const head = ['lesson  Made by chance', `for  ${instrument}`, `meter  ${meter}`, ''];
    const chords = this.chords.map((name) => `chord  ${name}  ${this.shape()}`);
    const exercise = this.exercise();
    const isUsed = (name: string): boolean => exercise.some((line) => line.includes(name));
    const grids = (['one', 'two', 'tune-a'] as const)
      .filter(isUsed)
      .map((name) => this.grid(name === 'tune-a' ? 'melody' : 'pattern', name, meter));
    const played = isUsed('verse') ? [this.progression(meter), ''] : [];
    return `${[...head, ...chords, '', ...played, ...grids, ...exercise].join('\n')}\n`;
  }

  private exercise(): readonly string[] {
    if (this.chance(0.5)) {
      const each = this.pick(['one', 'two, tune-a', 'one + tune-a', 'tune-a + two, one']);
      return ['exercise  Together', `  over  ${this.chords.slice(0, 2).join(', ')}`, `  each  ${each}`];
    }
    const lines = [
      'exercise  Through',
      '  play  verse',
      `  with  ${this.pick(['one', 'one, two', 'one + tune-a', 'tune-a + two', 'tune-a'])}`,
    ];
    if (this.chance(0.15)) lines.push('  with  two, tune-a');
    if (this.chance(0.3)) lines.push('  restart  chord');
    return lines;
  }

  private shape(): string {
    const base = this.pick([0, 0, 0, 2, 5, 7, 10, 12]);
    const frets = Array.from({ length: this.strings }, () => {
      if (this.chance(0.12)) return 'x';
      if (this.chance(0.2)) return '0';
      return String(base + this.below(4));
    });
    return frets.every((fret) => fret === 'x') ? this.shape() : frets.join('-');
  }

  private progression(meter: string): string {
    const name = (): string => this.pick(this.chords);
    const beats = Number(meter.split('/')[0]);
    const bar = (): string => {
      const kind = this.below(12);
      if (kind === 0) return '%';
      if (kind === 1) return 'NC';
      if (kind < 5 && beats % 2 === 0) return `${name()} ${name()}`;
      if (kind === 5 && beats === 4) return `${name()} / / ${name()}`;
      if (kind === 6 && beats === 4) return `${name()} ${name()} ${name()} ${name()}`;
      return name();
    };
    const line = (): string => {
      const bars = Array.from({ length: 1 + this.below(2) }, bar);
      if (bars[0] === '%') bars[0] = name();
      const joined = bars.join(' | ');
      const kind = this.below(5);
      if (kind === 0) return `  |: ${joined} | 1st ${name()} :| 2nd ${name()} ||`;
      if (kind === 1) return `  |: ${joined} :| x3`;
      if (kind === 2) return `  |: ${joined} | 1st+2nd ${name()} :| 3rd ${name()} | ${name()} ||`;
      if (kind === 3) return `  |: ${joined} :|: ${name()} | ${name()} :|`;
      return `  | ${joined} |`;
    };
    const lines = ['progression  verse'];
    const count = this.chance(0.2) ? 2 : 1;
    for (let index = 0; index < count; index++) {
      const bars = line();
      lines.push(bars);
      const places = bars.split('|').length - 2;
      const verses = this.chance(0.5) ? 1 + this.below(3) : 0;
      for (let verse = 1; verse <= verses; verse++) {
        const words = Array.from({ length: Math.max(1, places) }, () => this.some(SYLLABLES, 1, 4).join(' '));
        lines.push(`  words${verse === 1 ? '' : ` ${verse}`}  ${words.join(' | ')}`);
      }
    }
    return lines.join('\n');
  }

  /** A pattern or melody: a count and rows with a mark for each word of it. No string is asked to sound twice at once. */
  private grid(kind: 'pattern' | 'melody', name: string, meter: string): string {
    const counts = this.counts(meter);
    const cells = (density: number, mark: () => string): readonly string[] =>
      counts.map(() => (this.chance(density) ? mark() : '.'));
    const row = (head: string, marks: readonly string[]): string => `  ${head}  ${marks.join('  ')}`;
    const lines = [`${kind}  ${name}`, `  count  ${counts.join('  ')}`];
    if (kind === 'melody') {
      lines.push(
        row(
          'tune',
          cells(0.7, () => this.note()),
        ),
      );
      if (this.chance(0.6))
        lines.push(
          row(
            'fingers',
            cells(0.8, () => this.pick(['1', '2', '3', '4', '0'])),
          ),
        );
      if (this.chance(0.4))
        lines.push(
          row(
            'pick',
            cells(0.5, () => `${this.strings}p${this.chance(0.2) ? '^' : ''}`),
          ),
        );
    } else if (this.chance(0.6)) {
      const strums = cells(0.7, () => this.stroke());
      lines.push(row('strum', strums));
      const hits = strums.map((mark) =>
        mark === '.' && this.chance(0.3) ? this.pick(['palm', 'body', 'nails', 'thumb', 'body!']) : '.',
      );
      if (this.chance(0.4)) lines.push(row('hit', hits));
    } else {
      const two = this.chance(0.3);
      lines.push(
        row(
          'pick',
          cells(0.8, () => this.pluck(two ? this.strings - 1 : this.strings)),
        ),
      );
      if (this.chance(0.3))
        lines.push(
          row(
            'fingers',
            cells(0.6, () => this.pick(['1', '2', '3', '4'])),
          ),
        );
      if (two)
        lines.push(
          row(
            'pick 2',
            cells(0.4, () => `${this.strings}p`),
          ),
        );
    }
    if (this.chance(0.2))
      lines.push(
        row(
          'words',
          cells(0.7, () => this.pick(SYLLABLES).replace('-', '')),
        ),
      );
    if (this.chance(0.2))
      lines.push(
        row(
          'say',
          cells(0.4, () => this.pick(['down', 'up', 'wait-for-it', 'now'])),
        ),
      );
    return `${lines.join('\n')}\n`;
  }

  private counts(meter: string): readonly string[] {
    const [beats = 4, unit = 4] = meter.split('/').map(Number);
    if (unit === 8) {
      const whole = Array.from({ length: beats }, (_, index) => String(index + 1));
      if (beats % 3 !== 0 || this.chance(0.7)) return whole;
      return Array.from({ length: beats / 3 }, (_, index) => [String(index + 1), '&', 'a']).flat();
    }
    const words: string[] = [];
    for (let beat = 1; beat <= beats; beat++) {
      const kind = this.below(8);
      if (kind === 7 && beat < beats) words.push(`${beat}-${++beat}`, 'la', 'li');
      else if (kind === 6) words.push(String(beat), 'la', 'li');
      else if (kind === 5) words.push(String(beat), 'e', '&', 'a');
      else if (kind >= 2) words.push(String(beat), '&');
      else words.push(String(beat));
    }
    return words;
  }

  private pluck(strings: number): string {
    const string = 1 + this.below(strings);
    const finger = string > 3 ? 'p' : this.pick(['i', 'm', 'a', '']);
    if (this.chance(0.06)) return 'stop';
    if (this.chance(0.04)) return `stop${string}`;
    if (this.chance(0.15) && string > 2)
      return `${string}p+1${this.chance(0.5) ? 'm' : 'a'}${this.chance(0.3) ? '!' : ''}`;
    if (this.chance(0.15)) return `${string}${finger}:${this.below(15)}`;
    if (this.chance(0.1)) return this.note();
    return `${string}${finger}${this.chance(0.08) ? '^' : ''}${this.chance(0.1) ? '!' : ''}`;
  }

  private note(): string {
    const string = 1 + this.below(Math.min(3, this.strings));
    const fret = 1 + this.below(13);
    const after = this.pick([
      '',
      '',
      '',
      '',
      `h${fret + 2}`,
      `p${Math.max(0, fret - 2)}`,
      `s${fret + 3}`,
      `t${fret + 2}`,
      'b',
      'v',
      '!',
    ]);
    return this.chance(0.05) ? `${string}:12*` : `${string}:${fret}${after}`;
  }

  private stroke(): string {
    const partial = `${this.strings}${this.strings - 1}`;
    return this.pick([
      'D',
      'U',
      'D',
      'U',
      'D!',
      'U',
      'Dx',
      'Ux',
      '(U)',
      '(D)',
      'D~',
      `D${partial}`,
      'U21',
      'chunk',
      'roll',
      's',
      'stop',
    ]);
  }

  private below(limit: number): number {
    return Math.floor(this.next() * limit);
  }

  private chance(part: number): boolean {
    return this.next() < part;
  }

  private pick<T>(from: readonly T[]): T {
    const found = from[this.below(from.length)];
    if (found === undefined) throw new Error('nothing to choose from');
    return found;
  }

  private some<T>(from: readonly T[], least: number, most: number): readonly T[] {
    const count = least + this.below(most - least + 1);
    const left = [...from];
    return Array.from({ length: count }, () => left.splice(this.below(left.length), 1)).flat();
  }

  /** Source: mulberry32, a generator in the public domain. */
  private next(): number {
    this.state = (this.state + 0x6d2b79f5) >>> 0;
    let t = this.state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  }
}
