import { chordsIn } from '../lesson/model/chords-in.ts';
import { ringOfExercise } from '../lesson/model/moved-ring.ts';
import { fillBars, longest, type PlacedBar, type Placement, placedFrom, turnsOf } from '../lesson/model/placements.ts';
import type { Scope } from '../lesson/model/scope.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import { isNoChord, readChordName } from '../lesson/syntax/read-names.ts';
import type { ExerciseStatement, Members, ProgressionStatement } from '../lesson/syntax/statement.ts';
import type { ChordName, ListMember } from '../lesson/syntax/words.ts';
import { barLength, type Meter } from '../theory/meter.ts';
import { plus, type Rational, ZERO } from '../theory/rational.ts';
import { type BarFrame, framesOfChord, framesOfProgressions } from './bar-frames.ts';
import { barsOfPass } from './pass-bars.ts';
import { orderedBars } from './played-bars.ts';
import type { ExerciseScore, Pass } from './timeline.ts';

/** What an exercise plays on the scope's edition, in written order. What it names and the lesson lacks is left out. */
export function exerciseScore(scope: Scope, entry: Entry, statement: ExerciseStatement): ExerciseScore {
  const meter = statement.meter?.meter ?? scope.setting('meter');
  const passes =
    statement.play !== undefined
      ? playedPasses(scope, statement, statement.play, meter)
      : chordPasses(scope, entry, statement, meter);
  return {
    title: statement.title?.text ?? '',
    ...(statement.aim === undefined ? {} : { aim: statement.aim.text }),
    ...(statement.tempo === undefined ? {} : { tempo: statement.tempo.tempo }),
    ...(statement.repeat === undefined ? {} : { repeat: statement.repeat.times }),
    ...(statement.minutes === undefined ? {} : { minutes: statement.minutes.minutes }),
    ...(statement.video === undefined ? {} : { video: statement.video.text }),
    passes,
    stringCount: scope.edition().instrument.openStrings.length,
    hasTune: passes.some((pass) =>
      pass.bars.some((bar) => bar.events.some((event) => event.kind === 'notes' && event.layer === 'tune')),
    ),
  };
}

/** The bars of a progression by itself: chords and words, nothing for the right hand. */
export function progressionScore(scope: Scope, statement: ProgressionStatement): ExerciseScore {
  const frames = framesOfProgressions(scope, [statement], scope.setting('meter'));
  return {
    title: statement.name?.text ?? '',
    passes: [{ bars: frames.map((frame) => ({ ...frame, counts: [], events: [], calls: [] })), with: [] }],
    stringCount: scope.edition().instrument.openStrings.length,
    hasTune: false,
  };
}

function playedPasses(scope: Scope, statement: ExerciseStatement, play: Members, meter: Meter): readonly Pass[] {
  const progressions = play.members.flatMap((member) =>
    member.names.flatMap((word) => {
      const progression = scope.progression(word.text);
      return progression === undefined ? [] : Array.from({ length: member.times }, () => progression);
    }),
  );
  const frames = framesOfProgressions(scope, progressions, meter);
  const ordered = orderedBars(frames);
  const bars = frames.map(({ number, length, chords }, index): PlacedBar => {
    const counted = number === undefined ? {} : { number };
    return { ...(ordered[index] ?? { opens: false, closes: false }), ...counted, length, chords };
  });
  const lists = statement.with.length === 0 ? [undefined] : statement.with;
  return lists.map((members, index): Pass => {
    const placements = members === undefined ? [] : fillBars(scope, statement, bars, members.members);
    return {
      ...(lists.length > 1 ? { number: index + 1 } : {}),
      bars: barsOfPass(scope, frames, placements, ringOfExercise(scope, statement), []),
      with: members?.members.map(printMember) ?? [],
    };
  });
}

/** `over … each`: every chord gets the whole list, in bars of its own. */
function chordPasses(scope: Scope, entry: Entry, statement: ExerciseStatement, meter: Meter): readonly Pass[] {
  const chords = (statement.over?.members ?? []).flatMap((member) => chordsOfMember(scope, entry, member));
  if (chords.length === 0) return [];
  const turns = turnsOf(scope, statement.each?.members ?? []);
  const frames: BarFrame[] = [];
  const placements: Placement[] = [];
  // What rings at the end of a chord does not go on into the bars of the next.
  const breaks: Rational[] = [];
  let start: Rational = ZERO;
  for (const { chord, source } of chords) {
    breaks.push(start);
    for (const grids of turns.length > 0 ? turns : [[]]) {
      const length = longest(grids) ?? barLength(meter);
      const added = framesOfChord(scope, chord, source, length, meter, frames.length + 1, frames.length === 0);
      frames.push(...added);
      const end = plus(
        start,
        added.reduce((sum: Rational, frame) => plus(sum, frame.length), ZERO),
      );
      placements.push(...grids.map((grid) => placedFrom(grid, start, end)));
      start = end;
    }
  }
  return [
    {
      bars: barsOfPass(scope, frames, placements, ringOfExercise(scope, statement), breaks),
      with: statement.each?.members.map(printMember) ?? [],
    },
  ];
}

function chordsOfMember(
  scope: Scope,
  entry: Entry,
  member: ListMember,
): readonly { chord: ChordName; source: BarFrame['source'] }[] {
  const once = member.names.flatMap((word) => {
    const progression = scope.progression(word.text);
    if (progression === undefined)
      return isNoChord(word.text) ? [] : [{ chord: readChordName(word), source: { entry, span: word.span } }];
    const source = scope.entryOf(progression) ?? entry;
    return chordsIn(progression).map((chord) => ({ chord, source: { entry: source, span: chord.span } }));
  });
  return Array.from({ length: member.times }, () => once).flat();
}

function printMember(member: ListMember): string {
  const names = member.names.map((word) => word.text).join(' + ');
  return member.times > 1 ? `${names} x${member.times}` : names;
}
