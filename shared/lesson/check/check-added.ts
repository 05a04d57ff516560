import { type AddedNote, type KeptShape, keepingOnly, keptBy } from '../../hand/added-notes.ts';
import type { Fingering } from '../../hand/fingering.ts';
import { waysToHold } from '../../hand/kept-fingerings.ts';
import { compare } from '../../theory/rational.ts';
import { resolveChord } from '../model/chords.ts';
import { fingeringFor } from '../model/fingerings.ts';
import { appliesTo } from '../model/placements.ts';
import { stringOfNote } from '../model/plant.ts';
import type { ResolvedChord } from '../model/resolved-chord.ts';
import type { Scope } from '../model/scope.ts';
import type { TimedGrid, TimedMark, TimedRow } from '../model/timed-grid.ts';
import type { Entry } from '../syntax/read-entry.ts';
import { readChordName } from '../syntax/read-names.ts';
import { type AddedFault, type AddedQuestion, faultsOfStep, startsOf } from './added-faults.ts';
import { type AddedStep, addedSteps } from './added-steps.ts';
import { printFingers } from './check-fingers.ts';
import type { Report } from './finding.ts';

/**
 * Rows that a chord is named for: the shape is held while they are played, so that every fret beside it has to be reached. What is
 * wrong is told at its mark; marks that another pattern gives are told there.
 */
export function checkNamedRows(report: Report, scope: Scope, grid: TimedGrid, entry: Entry): void {
  for (const row of grid.rows) {
    if (row.chord === undefined || !row.marks.some((mark) => mark.entry === entry)) continue;
    const chord = resolveChord(scope, readChordName({ text: row.chord, span: { start: 0, end: row.chord.length } }));
    if (chord === undefined) continue;
    const steps = stepsOnNeck(
      scope,
      addedSteps(grid, row, () => chord, scope.edition().instrument),
    );
    const others = grid.rows.filter((other) => other !== row && appliesTo(other, chord, grid));
    const beside = others.map((other) => addedSteps(grid, other, () => chord, scope.edition().instrument));
    const ringing = (step: AddedStep) => soundsMeanwhile(scope, grid, [row, ...others], chord, step);
    const faults = faultsOnChord(scope, chord, steps, (kept, step) =>
      faultsOfStep(
        questionFor(chord, kept, step, beside, () => ringing(step)),
        step,
      ),
    );
    reportOnce(
      report,
      faults.filter(({ mark }) => mark.entry === entry),
    );
  }
}

/** A question about a shape, all of which is to be kept. */
function questionFor(
  chord: ResolvedChord,
  kept: KeptShape,
  step: AddedStep,
  beside: readonly (readonly AddedStep[])[],
  ringing: () => ReadonlySet<number>,
): AddedQuestion {
  return {
    name: chord.text,
    kept,
    beside: beside.flatMap((steps) => notesAt(kept, steps, step)),
    mustSound: (stringIndex) => ringing().has(stringIndex),
  };
}

/** What another row holds down as a step begins, on strings that the step does not take. */
function notesAt(kept: KeptShape, steps: readonly AddedStep[], step: AddedStep): readonly AddedNote[] {
  const own = new Set(step.notes.map(({ string }) => kept.shape.length - string));
  return steps
    .filter(({ at, end }) => compare(at, step.at) <= 0 && compare(step.at, end) < 0)
    .flatMap((other) => startsOf(kept, other))
    .filter(({ stringIndex }) => !own.has(stringIndex));
}

/** Frets that the neck does not have are told as such, and strings too. */
export function stepsOnNeck(scope: Scope, steps: readonly AddedStep[]): readonly AddedStep[] {
  const { openStrings, frets, capoFret } = scope.edition().instrument;
  return steps.filter(({ notes }) =>
    notes.every((note) => note.string <= openStrings.length && note.frets.every((fret) => fret <= frets - capoFret)),
  );
}

/**
 * What is wrong with the chord held as the lesson holds it. Where other fingers for the same shape would do, only a hint is left,
 * which names them. Nothing where the shape itself is out of reach, which is told of its line.
 */
export function faultsOnChord(
  scope: Scope,
  chord: ResolvedChord,
  steps: readonly AddedStep[],
  faultsOf: (kept: KeptShape, step: AddedStep) => readonly AddedFault[],
): readonly AddedFault[] {
  const { instrument } = scope.edition();
  const hand = scope.setting('hand');
  const held = fingeringFor(scope, chord);
  if (held === undefined || held.verdict === 'out-of-reach') return [];
  const keptWith = (way: Fingering) => keptBy(instrument, hand, chord.shape, way);
  const isFree = (kept: KeptShape) => steps.every((step) => faultsOf(kept, step).length === 0);
  const asHeld = keptWith(held);
  const faults = steps.flatMap((step) => faultsOf(asHeld, step));
  const [first] = faults.filter(({ severity }) => severity !== 'hint');
  if (first === undefined) return faults;
  const better = waysToHold(instrument, chord.shape, hand).find(
    (way) => way !== held && way.verdict !== 'out-of-reach' && isFree(keptWith(way)),
  );
  if (better === undefined) return faults;
  const tell = () => `${first.tell()} With fingers ${printFingers(better)} for ${chord.text} it can be played.`;
  return [{ ...first, severity: 'hint', code: 'tune.other-fingers', tell, fixes: () => [], about: chord.text }];
}

/** Strings, as places in chart order, that the step must not silence: those that `ring` names, and those struck while it lasts. */
function soundsMeanwhile(
  scope: Scope,
  grid: TimedGrid,
  rows: readonly TimedRow[],
  chord: ResolvedChord,
  step: AddedStep,
): ReadonlySet<number> {
  const strings = chord.shape.length;
  const named = grid.ring?.kind === 'strings' ? grid.ring.strings : [];
  const found = new Set(named.map((string) => strings - string));
  const plant = grid.plant?.strings;
  for (const row of rows) {
    for (const mark of row.marks) {
      if (mark === step.mark || compare(mark.at, step.at) < 0 || compare(mark.at, step.end) >= 0) continue;
      for (const at of struckByShape(mark, chord, plant, scope)) found.add(at);
    }
  }
  return found;
}

/** The strings that a mark sounds at the shape's own frets, as places in chart order. */
export function struckByShape(
  { mark }: TimedMark,
  chord: ResolvedChord,
  plant: Parameters<typeof stringOfNote>[2],
  scope: Scope,
): readonly number[] {
  const strings = chord.shape.length;
  const all = () => chord.shape.map((_, at) => at);
  switch (mark.kind) {
    case 'notes':
      return mark.notes.flatMap((note) => {
        const string =
          note.fret === undefined ? stringOfNote(note, chord, plant, scope.edition().instrument) : undefined;
        return string === undefined ? [] : [strings - string];
      });
    case 'strum': {
      if (mark.damped) return [];
      const [first, last] = mark.strings ?? [1, strings];
      return all().filter((at) => strings - at >= Math.min(first, last) && strings - at <= Math.max(first, last));
    }
    case 'roll':
      return all();
    default:
      return [];
  }
}

/** A shape of which only the strings that are needed stay. */
export function keepingStrings(kept: KeptShape, needed: ReadonlySet<number>): KeptShape {
  return keepingOnly(kept, (at) => needed.has(at));
}

/** The same thing is said once in a row, at the first mark that it is true of. */
function reportOnce(report: Report, faults: readonly AddedFault[]): void {
  const told = new Set<string>();
  for (const { severity, code, mark, tell, fixes, about } of faults) {
    const message = tell();
    if (told.has(message)) continue;
    told.add(message);
    report(severity, code, mark.word.span, message, fixes(), { about: [about ?? message] });
  }
}
