import type { DiagramRequest } from '../../../shared/engrave/chord-diagram.ts';
import type { Drawing } from '../../../shared/engrave/drawing.ts';
import { shownChord } from '../../../shared/engrave/sheet-diagrams.ts';
import { systemsOf } from '../../../shared/engrave/tab-system.ts';
import { openDocument } from '../../../shared/lesson/document.ts';
import { resolveChord } from '../../../shared/lesson/model/chords.ts';
import { lessonOf } from '../../../shared/lesson/model/lesson.ts';
import { scopeOf } from '../../../shared/lesson/model/scope-of-lesson.ts';
import { exerciseScore, progressionScore } from '../../../shared/score/exercise-score.ts';
import { printNote } from '../../../shared/theory/note.ts';

export interface LessonDrawings {
  /** All lines of music, in order. */
  readonly systems: readonly Drawing[];
  readonly diagrams: readonly DiagramRequest[];
  /** Errors found in its text, as told. */
  readonly faults: readonly string[];
}

/** What the sheet draws of a lesson's music and chords, as display lists. */
export function drawingsOf(text: string, widthMm: number): LessonDrawings {
  const document = openDocument(text);
  const faults = document.entries.flatMap(({ problems }) => problems.filter(({ severity }) => severity === 'error'));
  const lesson = lessonOf(document);
  const [edition] = lesson.editions;
  const scope = scopeOf(lesson, edition);
  const stringNames = edition.instrument.openStrings.map((pitch) => printNote(pitch, 'signs'));
  const systems: Drawing[] = [];
  const diagrams: DiagramRequest[] = [];
  for (const entry of document.entries) {
    const { statement } = entry;
    // A progression is printed by itself where no exercise plays it.
    const isPlayed = document.entries.some(
      (other) => other.statement.kind === 'exercise' && other.statement.play !== undefined,
    );
    if (statement.kind === 'exercise' || (statement.kind === 'progression' && !isPlayed)) {
      const score =
        statement.kind === 'exercise' ? exerciseScore(scope, entry, statement) : progressionScore(scope, statement);
      for (const pass of score.passes)
        systems.push(...systemsOf(score, pass, { widthMm, stringNames }).map(({ drawing }) => drawing));
    }
    if (statement.kind !== 'chord' || statement.chord === undefined) continue;
    const chord = resolveChord(scope, statement.chord);
    if (chord === undefined) continue;
    const source = { entry, span: statement.span };
    diagrams.push(shownChord(scope, { widthMm, leftHanded: false }, chord, source, statement.chord.label).request);
  }
  return { systems, diagrams, faults: faults.map(({ message }) => message) };
}
