import type { LessonDocument } from '../../shared/lesson/document.ts';
import { KEYWORDS } from '../../shared/lesson/syntax/keywords.ts';
import type { Mark, NoteMark, Technique } from '../../shared/lesson/syntax/marks.ts';
import type { Entry } from '../../shared/lesson/syntax/read-entry.ts';
import type {
  BarsLine,
  CountRow,
  ExerciseStatement,
  GridRow,
  GridStatement,
  ProgressionStatement,
  Prose,
  Ring,
  Statement,
} from '../../shared/lesson/syntax/statement.ts';
import type { ListMember, Tempo } from '../../shared/lesson/syntax/words.ts';

/** Everything the language can say, one short label each: what the samples and the reference must show between them. */
export const ALL_CONSTRUCTS: readonly string[] = [
  ...Object.entries(KEYWORDS).flatMap(([block, keywords]) => keywords.map(({ word }) => `${block} > ${word}`)),
  ...labels('line', 'comment, prose, prose in a block'),
  ...labels('mention', 'chord, label, shape, name'),
  ...labels('also', 'same shapes, same key, called'),
  ...labels('for', 'tuned, capo'),
  ...labels('tempo', 'steady, from to, by, every, unit'),
  ...labels('feel', 'straight, swing, swing in a ratio, swing sixteenths'),
  ...labels('hand', 'named, millimetres'),
  ...labels('chord', 'label, fingers, thumb, muted, frets run together, frets with blanks, as'),
  ...labels('bar sign', '|, ||, |:, :|, :|:'),
  ...labels('bar', 'times, ending, joined ending, meter, chord, beat, same, silence, shared, pickup, label'),
  ...labels('sung', 'parted, held, second verse'),
  ...labels('count', 'split, range, pickup, bar sign, ending, times, other meter, second line, none'),
  ...labels(
    'row',
    'pick, strum, hit, tune, fingers, chord, words, say, second voice, over a chord, pick over a chord, again',
  ),
  ...labels('mark', 'hold, keep, stop, stop strings, finger, thumb, chord, syllable'),
  ...labels('note', 'string, finger, both, root, other bass, fret, together, accent, rest stroke'),
  ...labels('technique', 'hammer-on, pull-off, slide, trill, bend, vibrato, harmonic, in time'),
  ...labels('strum', 'down, up, slow, strings, damped, light, accent, chunk, roll, shape-slide'),
  ...labels('hit', 'thumb, thumb on a string, palm, nails, body, accent'),
  ...labels('ring', 'all, none, strings'),
  ...labels('list', 'times, together, several'),
  ...labels('exercise', 'second pass, restart chord, restart bar, at bar, at ending'),
];

/** Labels of everything that a lesson uses. */
export function constructsIn(document: LessonDocument): ReadonlySet<string> {
  const used = new Set<string>();
  for (const entry of document.entries) collectEntry(used, entry);
  return used;
}

function labels(group: string, names: string): readonly string[] {
  return names.split(', ').map((name) => `${group}: ${name}`);
}

function collectEntry(used: Set<string>, { text, lines, statement }: Entry): void {
  const add = (when: unknown, label: string): void => {
    if (when) used.add(label);
  };
  add(
    lines.some((line) => line.kind === 'comment'),
    'line: comment',
  );
  if ('keyword' in statement) {
    const block = statement.keyword.text as keyof typeof KEYWORDS;
    used.add(`lesson > ${block}`);
    if (block in KEYWORDS && block !== 'lesson') collectKeywords(used, block, text, lines);
  }
  collectStatement(used, add, statement);
}

/** The first words of a block's lines that are keywords there. */
function collectKeywords(used: Set<string>, block: keyof typeof KEYWORDS, text: string, lines: Entry['lines']): void {
  let inner: keyof typeof KEYWORDS = block;
  for (const line of lines.slice(1)) {
    const first = line.tokens.find((token) => token.kind === 'word');
    if (line.kind !== 'statement' || first === undefined) continue;
    const word = text.slice(first.start, first.end);
    if (KEYWORDS[block].some((keyword) => keyword.word === word)) used.add(`${block} > ${word}`);
    if (block === 'edition' && (word === 'pattern' || word === 'melody')) inner = word;
    else if (inner !== block && KEYWORDS[inner].some((keyword) => keyword.word === word))
      used.add(`${inner} > ${word}`);
  }
}

type Add = (when: unknown, label: string) => void;

function collectStatement(used: Set<string>, add: Add, statement: Statement): void {
  switch (statement.kind) {
    case 'for':
      add(/\btuned\b/.test(statement.value?.text ?? ''), 'for: tuned');
      add((statement.instrument?.capoFret ?? 0) > 0, 'for: capo');
      break;
    case 'also':
      used.add(`also: same ${statement.keeps}`);
      add(statement.called, 'also: called');
      break;
    case 'tempo':
      collectTempo(add, statement.tempo);
      break;
    case 'feel': {
      const { feel } = statement;
      add(feel?.kind === 'straight', 'feel: straight');
      add(feel?.kind === 'swing' && feel.long === 2, 'feel: swing');
      add(feel?.kind === 'swing' && feel.long !== 2, 'feel: swing in a ratio');
      add(feel?.kind === 'swing' && feel.unit === 16, 'feel: swing sixteenths');
      break;
    }
    case 'hand':
      if (statement.hand !== undefined)
        used.add(typeof statement.hand === 'string' ? 'hand: named' : 'hand: millimetres');
      break;
    case 'chord':
      add(statement.chord?.label, 'chord: label');
      add(statement.fingers, 'chord: fingers');
      add(statement.fingers?.includes('T'), 'chord: thumb');
      add(statement.shape?.includes('muted'), 'chord: muted');
      add(/^[\dx]+$/.test(statement.frets?.text ?? ''), 'chord: frets run together');
      add(/\d \d/.test(statement.frets?.text ?? ''), 'chord: frets with blanks');
      add(statement.as, 'chord: as');
      break;
    case 'show':
      collectList(add, statement.names);
      break;
    case 'progression':
      collectProgression(used, add, statement);
      break;
    case 'pattern':
    case 'melody':
      collectGrid(used, add, statement);
      break;
    case 'exercise':
      collectExercise(used, add, statement);
      break;
    case 'family':
      collectRing(used, statement.ring?.ring);
      collectProse(add, statement.prose);
      break;
    case 'edition':
      for (const chord of statement.chords) collectStatement(used, add, chord);
      for (const grid of statement.grids) collectGrid(used, add, grid);
      collectProse(add, statement.prose);
      break;
    case 'prose':
      used.add('line: prose');
      collectProse(add, statement.paragraphs, false);
      break;
    default:
  }
}

function collectProse(add: Add, prose: readonly Prose[], inBlock = true): void {
  add(inBlock && prose.length > 0, 'line: prose in a block');
  for (const { text } of prose.flatMap((paragraph) => paragraph.mentions)) {
    add(/^[\dx]+-/.test(text), 'mention: shape');
    add(/^[A-G]/.test(text), 'mention: chord');
    add(/^[A-G][^.]*\.[a-z]/.test(text), 'mention: label');
    add(/^[a-z]/.test(text) && !text.startsWith('x-'), 'mention: name');
  }
}

function collectTempo(add: Add, tempo: Tempo | undefined): void {
  add(tempo?.from === tempo?.to, 'tempo: steady');
  add(tempo?.from !== tempo?.to, 'tempo: from to');
  add(tempo?.by, 'tempo: by');
  add(tempo?.everyPasses, 'tempo: every');
  add(tempo?.unit, 'tempo: unit');
}

function collectRing(used: Set<string>, ring: Ring | undefined): void {
  if (ring !== undefined) used.add(`ring: ${ring.kind}`);
}

function collectList(add: Add, members: readonly ListMember[]): void {
  add(members.length > 1, 'list: several');
  add(
    members.some(({ times }) => times > 1),
    'list: times',
  );
  add(
    members.some(({ names }) => names.length > 1),
    'list: together',
  );
}

function collectProgression(used: Set<string>, add: Add, statement: ProgressionStatement): void {
  add(statement.pickupCount, 'bar: pickup');
  for (const line of statement.lines) collectBars(used, add, line);
  collectProse(add, statement.prose);
}

function collectBars(used: Set<string>, add: Add, line: BarsLine): void {
  for (const bar of line.bars) {
    for (const sign of [bar.opens, bar.closes]) if (sign !== undefined) used.add(`bar sign: ${sign.text}`);
    add(bar.times, 'bar: times');
    add(bar.ending, 'bar: ending');
    add((bar.ending?.numbers.length ?? 0) > 1, 'bar: joined ending');
    add(bar.meter, 'bar: meter');
    add(bar.items.length > 1 && bar.items.every(({ kind }) => kind === 'chord'), 'bar: shared');
    for (const item of bar.items) {
      used.add(`bar: ${item.kind}`);
      add(item.kind === 'chord' && item.chord.label !== undefined, 'bar: label');
    }
  }
  for (const { verse, bars } of line.words) {
    const syllables = bars.flat().map(({ text }) => text);
    add(verse > 1, 'sung: second verse');
    add(
      syllables.some((text) => text.endsWith('-')),
      'sung: parted',
    );
    add(syllables.includes('_'), 'sung: held');
  }
}

function collectGrid(used: Set<string>, add: Add, statement: GridStatement): void {
  const counts = statement.lines.flatMap(({ count }) => (count === undefined ? [] : [count]));
  for (const count of new Set(counts)) collectCount(add, count);
  add(new Set(counts).size > 1, 'count: second line');
  add(statement.lines.length > new Set(counts).size && counts.length > 0, 'row: again');
  add(
    statement.lines.some(({ count, rows }) => count === undefined && rows.length > 0),
    'count: none',
  );
  for (const row of statement.lines.flatMap(({ rows }) => rows)) collectRow(used, add, row);
  collectRing(used, statement.ring?.ring);
  collectProse(add, statement.prose);
}

function collectCount(add: Add, row: CountRow): void {
  add(
    row.columns.some(({ counts }) => counts === undefined),
    'count: split',
  );
  add(
    row.columns.some(({ counts }) => counts !== undefined && counts[1] > counts[0]),
    'count: range',
  );
  add((row.columns[0]?.counts?.[0] ?? 1) > 1, 'count: pickup');
  add(row.signs.length > 0, 'count: bar sign');
  add(
    row.signs.some(({ ending }) => ending !== undefined),
    'count: ending',
  );
  add(
    row.signs.some(({ times }) => times !== undefined),
    'count: times',
  );
  add(row.meters.length > 0, 'count: other meter');
}

function collectRow(used: Set<string>, add: Add, row: GridRow): void {
  used.add(`row: ${row.kind}`);
  add(row.voice > 1, 'row: second voice');
  add(row.kind === 'tune' && row.chord !== undefined, 'row: over a chord');
  add(row.kind === 'pick' && row.chord !== undefined, 'row: pick over a chord');
  for (const { mark } of row.cells) collectMark(used, add, mark);
}

function collectMark(used: Set<string>, add: Add, mark: Mark): void {
  switch (mark.kind) {
    case 'hold':
    case 'keep':
    case 'chord':
    case 'syllable':
      used.add(`mark: ${mark.kind}`);
      break;
    case 'stop':
      used.add(mark.strings.length > 0 ? 'mark: stop strings' : 'mark: stop');
      break;
    case 'finger':
      used.add(mark.finger === 'T' ? 'mark: thumb' : 'mark: finger');
      break;
    case 'notes':
      add(mark.notes.length > 1, 'note: together');
      for (const note of mark.notes) collectNote(used, add, note);
      break;
    case 'technique':
      used.add('technique: in time');
      collectTechnique(used, mark.technique);
      break;
    case 'strum':
      used.add(`strum: ${mark.direction}`);
      add(mark.slow, 'strum: slow');
      add(mark.strings, 'strum: strings');
      add(mark.damped, 'strum: damped');
      add(mark.light, 'strum: light');
      add(mark.accent, 'strum: accent');
      break;
    case 'chunk':
    case 'roll':
    case 'shape-slide':
      used.add(`strum: ${mark.kind}`);
      break;
    case 'hit':
      used.add(mark.string === undefined ? `hit: ${mark.place}` : `hit: ${mark.place} on a string`);
      add(mark.accent, 'hit: accent');
      break;
    default:
  }
}

function collectNote(used: Set<string>, add: Add, note: NoteMark): void {
  add(note.string !== undefined && note.finger === undefined && note.fret === undefined, 'note: string');
  add(note.string === undefined && note.finger !== undefined && note.bass === undefined, 'note: finger');
  add(note.string !== undefined && note.finger !== undefined, 'note: both');
  add(note.bass === 'root', 'note: root');
  add(note.bass === 'alternate', 'note: other bass');
  add(note.fret !== undefined, 'note: fret');
  add(note.accent, 'note: accent');
  add(note.restStroke, 'note: rest stroke');
  for (const technique of note.techniques) collectTechnique(used, technique);
}

function collectTechnique(used: Set<string>, technique: Technique): void {
  used.add(`technique: ${technique.kind}`);
}

function collectExercise(used: Set<string>, add: Add, statement: ExerciseStatement): void {
  add(statement.with.length > 1, 'exercise: second pass');
  if (statement.restart !== undefined) used.add(`exercise: restart ${statement.restart.at}`);
  for (const at of statement.at) {
    add(at.bars.length > 0, 'exercise: at bar');
    add(at.endings.length > 0, 'exercise: at ending');
  }
  for (const list of [statement.play, statement.over, statement.each, ...statement.with])
    collectList(add, list?.members ?? []);
  if (statement.tempo !== undefined) collectTempo(add, statement.tempo.tempo);
  collectRing(used, statement.ring?.ring);
  collectProse(add, statement.prose);
}
