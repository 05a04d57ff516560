import type { LessonDocument } from '../lesson/document.ts';
import { resolveChord } from '../lesson/model/chords.ts';
import { chordsIn } from '../lesson/model/chords-in.ts';
import type { ColumnTime, CountTimes } from '../lesson/model/count-times.ts';
import { meterOf, metersOfLines, timesOfLine } from '../lesson/model/grid.ts';
import { lessonOf } from '../lesson/model/lesson.ts';
import { stringOfNote } from '../lesson/model/plant.ts';
import type { ResolvedChord } from '../lesson/model/resolved-chord.ts';
import type { Scope } from '../lesson/model/scope.ts';
import type { Mark, NoteMark } from '../lesson/syntax/marks.ts';
import { readChordName } from '../lesson/syntax/read-names.ts';
import type { GridRow, GridStatement, Statement } from '../lesson/syntax/statement.ts';
import { neckAboveCapo } from '../neck/capo.ts';
import { midiAt } from '../neck/pitches.ts';
import { touches } from '../text/span.ts';
import { spellMidi } from '../theory/key.ts';
import { beatLength, COMMON_TIME } from '../theory/meter.ts';
import { printPitch } from '../theory/note.ts';
import { isWhole, minus, over, rational, remainder, toNumber, ZERO } from '../theory/rational.ts';
import type { Card } from './answers.ts';
import { code, plain } from './markdown.ts';

/** How many chords a mark is shown over when its fret is the shape's. */
const MOST_CHORDS = 4;

const FINGERS: Readonly<Record<string, string>> = {
  p: 'thumb (p)',
  i: 'index (i)',
  m: 'middle (m)',
  a: 'ring finger (a)',
};

/** The mark of a count grid at an offset counted from its entry's start: beat, string, finger, note. */
export function markAt(document: LessonDocument, scope: Scope, statement: Statement, at: number): Card | undefined {
  if (statement.kind === 'edition') {
    const inner = statement.grids.find((grid) => touches(grid.span, at));
    return inner === undefined ? undefined : markAt(document, scope, inner, at);
  }
  if (statement.kind !== 'pattern' && statement.kind !== 'melody') return undefined;
  const meter = meterOf(scope, statement);
  const meters = metersOfLines(statement.lines, meter);
  for (const [place, line] of statement.lines.entries()) {
    const begins = meters[place] ?? meter;
    for (const row of line.rows) {
      const column = row.cells.findIndex((cell) => touches(cell.word.span, at));
      const cell = row.cells[column];
      if (cell === undefined) continue;
      const times =
        timesOfLine({ ...(line.count === undefined ? {} : { count: line.count }), rows: [] }, begins) ??
        evenTimes(scope, statement);
      const time = times?.columns[column];
      const when = time === undefined || times === undefined ? '' : `${beatName(times, column, time)}: `;
      return {
        span: cell.word.span,
        markdown: `${code(cell.word.text)} ${when}${describe(document, scope, statement, row, cell.mark)}`,
      };
    }
    const count = line.count?.columns.findIndex((column) => touches(column.word.span, at)) ?? -1;
    const said = line.count?.columns[count];
    if (said !== undefined && line.count !== undefined) {
      const times = timesOfLine({ count: line.count, rows: [] }, begins);
      const time = times?.columns[count];
      if (times !== undefined && time !== undefined) {
        return {
          span: said.word.span,
          markdown: `${code(said.word.text)} ${beatName(times, count, time)}`,
        };
      }
    }
  }
  return undefined;
}

/** Times of a row that has no count of its own, from the grid as a whole. */
function evenTimes(scope: Scope, statement: GridStatement) {
  const grid = scope.timed(statement);
  if (grid === undefined) return undefined;
  return { columns: grid.counts, startsAt: grid.startsAt, firsts: [0], meters: [meterOf(scope, statement)] };
}

type LineTimes = Pick<CountTimes, 'columns' | 'startsAt' | 'firsts' | 'meters'>;

/** `Beat 2`, `Beat 2, half of it`: where in its bar a column lies. */
function beatName({ columns, startsAt, firsts, meters }: LineTimes, column: number, { at, said }: ColumnTime): string {
  const bar = firsts.findLastIndex((first) => first <= column);
  const meter = meters[Math.max(0, bar)] ?? COMMON_TIME;
  const beat = beatLength(meter);
  // Only the first bar may begin behind its first count.
  const from = bar <= 0 ? minus(ZERO, startsAt) : (columns[firsts[bar] ?? 0]?.at ?? ZERO);
  const inBar = remainder(minus(at, from), rational(meter.counts, meter.unit));
  const beats = over(inBar, beat);
  const whole = Math.floor(toNumber(beats));
  const name = `Beat ${whole + 1}`;
  if (isWhole(beats)) return name;
  const part = rational(beats.numerator - whole * beats.denominator, beats.denominator);
  return `${name} and ${part.numerator}/${part.denominator}${said === '' ? '' : `, said “${plain(said)}”`}`;
}

function describe(document: LessonDocument, scope: Scope, statement: GridStatement, row: GridRow, mark: Mark): string {
  switch (mark.kind) {
    case 'hold':
      return 'nothing new; the sound goes on.';
    case 'keep':
      return 'the mark of the pattern that this one is like.';
    case 'stop':
      return mark.strings.length === 0
        ? 'all strings stop sounding.'
        : `string ${mark.strings.join(', ')} stops sounding.`;
    case 'notes':
      return mark.notes.map((note) => describeNote(document, scope, statement, row, note)).join(' Together with it, ');
    case 'technique':
      return 'fret' in mark.technique
        ? `from the note before to fret ${mark.technique.fret}, ${mark.technique.kind}.`
        : `${mark.technique.kind} on the note before.`;
    case 'strum': {
      const what = [mark.slow ? 'slow' : '', mark.light ? 'light' : '', mark.damped ? 'damped' : '']
        .filter((word) => word !== '')
        .join(', ');
      const strings = mark.strings === undefined ? 'all strings' : `strings ${mark.strings.join(' to ')}`;
      return `${what === '' ? '' : `${what} `}${mark.direction}-stroke over ${strings}${mark.accent ? ', accented' : ''}.`;
    }
    case 'chunk':
      return 'a down-stroke that the strumming hand stops at once.';
    case 'roll':
      return 'a roll: the fingers strike one after another.';
    case 'shape-slide':
      return 'the whole shape slides.';
    case 'hit':
      return mark.place === 'thumb'
        ? `the thumb slaps string ${mark.string ?? scope.edition().instrument.openStrings.length}; the chord is quiet until the next stroke.`
        : `a hit with or on the ${mark.place}.`;
    case 'finger':
      return mark.finger === 'T' ? 'left thumb.' : `left-hand finger ${mark.finger}.`;
    case 'chord':
      return `the chord changes to ${plain(mark.chord.text)}.`;
    case 'syllable':
      return row.kind === 'say' ? 'called out here.' : 'sung here.';
    case 'faulty':
      return 'not understood.';
  }
}

function describeNote(
  document: LessonDocument,
  scope: Scope,
  statement: GridStatement,
  row: GridRow,
  note: NoteMark,
): string {
  const instrument = neckAboveCapo(scope.edition().instrument);
  const chords =
    row.chord !== undefined ? chordsNamed(scope, [row.chord.text]) : chordsPlayedWith(document, scope, statement);
  const finger = note.finger === undefined ? '' : `, ${FINGERS[note.finger]}`;
  const fixed = note.string !== undefined && note.fret !== undefined;
  const over = fixed || chords.length === 0 ? [undefined] : chords.slice(0, MOST_CHORDS);
  const places = over.map((chord) => {
    const string = stringOfNote(note, chord, statement.plant?.strings, instrument);
    if (string === undefined) return 'its string depends on the chord';
    const held = chord?.shape[chord.shape.length - string];
    const fret = note.fret ?? (held === 'muted' ? undefined : held);
    const midi = fret === undefined ? undefined : midiAt(instrument, instrument.openStrings.length - string, fret);
    const sound =
      fret === undefined
        ? chord === undefined
          ? ', at the shape’s fret'
          : ', which is muted'
        : midi === undefined
          ? ''
          : ` fret ${fret}: ${plain(printPitch(spellMidi(midi, scope.setting('key'))))}`;
    return `${chord === undefined || fixed ? '' : `over ${plain(chord.name)} `}string ${string}${sound}`;
  });
  return `${[...new Set(places)].join('; ')}${finger}.`;
}

/** The chords of the first exercise that uses the grid. */
function chordsPlayedWith(document: LessonDocument, scope: Scope, statement: GridStatement): readonly ResolvedChord[] {
  const name = statement.name?.text;
  for (const { statement: exercise } of lessonOf(document).definitions.exercises) {
    const lists = [...exercise.with, ...(exercise.each ? [exercise.each] : []), ...exercise.at];
    if (!lists.some((list) => list.members.some((member) => member.names.some((word) => word.text === name)))) continue;
    const played =
      (exercise.play ?? exercise.over)?.members.flatMap((member) => member.names.map((word) => word.text)) ?? [];
    const chords = played.flatMap((text) => {
      const progression = scope.progression(text);
      if (progression === undefined) return [text];
      return chordsIn(progression).map((chord) => chord.text);
    });
    return chordsNamed(scope, [...new Set(chords)]);
  }
  return [];
}

function chordsNamed(scope: Scope, texts: readonly string[]): readonly ResolvedChord[] {
  return texts.flatMap(
    (text) => resolveChord(scope, readChordName({ text, span: { start: 0, end: text.length } })) ?? [],
  );
}
