import { printPoints } from '../hand/tell-difficulty.ts';
import { resolveChord } from '../lesson/model/chords.ts';
import { difficultyFor } from '../lesson/model/fingerings.ts';
import { ringOfExercise } from '../lesson/model/moved-ring.ts';
import type { Scope } from '../lesson/model/scope.ts';
import { meterAtStart } from '../lesson/model/written-bars.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import { readChordName } from '../lesson/syntax/read-names.ts';
import type { ExerciseStatement } from '../lesson/syntax/statement.ts';
import { type ListMember, namesIn, type Word } from '../lesson/syntax/words.ts';
import type { Source } from '../score/timeline.ts';
import { printMeter } from '../theory/meter.ts';
import { chordNameInText } from './chord-name.ts';
import { type Draft, draft, wholeOf, writtenIn } from './sheet-draft.ts';
import { printTempo } from './sheet-tempo.ts';

/** The title of an exercise, its aim, and the facts of it: what is played with what, how fast, how often, how hard. */
export function headingOf(scope: Scope, entry: Entry, statement: ExerciseStatement): Draft {
  const source = wholeOf(entry);
  const title = statement.title?.text ?? 'Exercise';
  const meter = statement.meter?.meter ?? scope.setting('meter');
  const facts: string[] = [];
  const play = namesIn(statement.play?.members ?? statement.over?.members).map((word) => nameHere(scope, word));
  const patterns = (statement.with[0] ?? statement.each)?.members.map(printMember) ?? [];
  if (play.length > 0)
    facts.push(
      `${play.join(', ')}${patterns.length > 0 && statement.with.length < 2 ? `, with ${patterns.join(', ')}` : ''}`,
    );
  if (statement.meter !== undefined) facts.push(printMeter(meter));
  if (statement.tempo !== undefined) facts.push(printTempo(statement.tempo.tempo, meterAtStart(scope, statement)));
  if (statement.repeat !== undefined)
    facts.push(statement.repeat.times === 1 ? 'once' : `${statement.repeat.times} times`);
  if (statement.minutes !== undefined)
    facts.push(statement.minutes.minutes === 1 ? '1 minute' : `${statement.minutes.minutes} minutes`);
  const difficulty = difficultyFor(scope, statement);
  if (difficulty !== undefined) facts.push(`difficulty ${printPoints(difficulty.total)}`);
  const ring = ringOfExercise(scope, statement);
  if (ring?.kind === 'strings') facts.push(ringing(ring.strings));
  if (ring?.kind === 'all') facts.push('all strings ring on');
  if (statement.restart !== undefined) facts.push(`patterns begin anew at each ${statement.restart.at}`);
  if (statement.video !== undefined) facts.push(`video at ${statement.video.text}`);
  const aim = statement.aim === undefined ? {} : { aim: statement.aim.text };
  return draft(
    'exercise',
    { kind: 'exercise', ...writtenIn(scope.setting('language')), title: { text: title, place: 0 }, ...aim, facts },
    source,
    [source, ...usedBy(scope, statement)],
  );
}

/** What an exercise is played over, as this edition calls it: the same frets have other names on another instrument. */
function nameHere(scope: Scope, word: Word): string {
  if (scope.progression(word.text) !== undefined) return word.text;
  const written = readChordName(word);
  const chord = resolveChord(scope, written);
  if (chord === undefined) return word.text;
  const name = chordNameInText(chord.name);
  return written.label === undefined ? name : `${name} (${written.label})`;
}

function ringing(strings: readonly number[]): string {
  return strings.length === 1 ? `string ${strings[0]} rings on` : `strings ${strings.join(' and ')} ring on`;
}

/** What the exercise draws from, so that a cursor in a pattern or under the bars of a progression finds where it is played. */
function usedBy(scope: Scope, statement: ExerciseStatement): readonly Source[] {
  const lists = [...statement.with, ...(statement.each === undefined ? [] : [statement.each]), ...statement.at];
  const grids = lists
    .flatMap((list) => namesIn(list.members))
    .map((word) => scope.grid('pattern', word.text) ?? scope.grid('melody', word.text));
  const progressions = namesIn(statement.play?.members).map((word) => scope.progression(word.text));
  return [...new Set([...grids, ...progressions])].flatMap((used) => {
    const entry = used === undefined ? undefined : scope.entryOf(used);
    return used === undefined || entry === undefined ? [] : [{ entry, span: used.span }];
  });
}

function printMember(member: ListMember): string {
  const names = member.names.map((word) => word.text).join(' + ');
  return member.times > 1 ? `${names} ×${member.times}` : names;
}
