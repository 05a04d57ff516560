import type { Block, BlockKind } from '../../engrave/block.ts';
import { sheetOf } from '../../engrave/sheet.ts';
import { type LessonDocument, spanInFile } from '../../lesson/document.ts';
import { type Edition, type Lesson, lessonOf } from '../../lesson/model/lesson.ts';
import { performanceOf } from '../../score/performance-of.ts';
import { packed } from '../../score/performance-packed.ts';
import { exportedExercise } from '../exported-exercise.ts';
import { Pieces } from './packed-markup.ts';
import type { PageBlock, PageEdition, PageHand, PageLesson } from './page-lesson.ts';

/** What is the teacher's own: what the lesson asks to be found. */
const TEACHERS_OWN: ReadonlySet<BlockKind> = new Set(['question', 'candidate', 'note']);

/** Draws every sheet of these editions: for both hands and all widths. */
export function pageLesson(
  document: LessonDocument,
  editions: readonly Edition[],
  widthsMm: readonly number[],
): PageLesson {
  const lesson = lessonOf(document);
  const exercises = exercisePlaces(document, lesson);
  const pieces = new Pieces();
  const blocks: PageBlock[] = [];
  const numbers = new Map<string, number>();
  const numberOf = (block: Block): number => {
    const markup = withoutPlaces(block, exercises);
    const key = `${block.kind} ${markup}`;
    const known = numbers.get(key);
    if (known !== undefined) return known;
    numbers.set(key, blocks.length);
    return blocks.push({ kind: block.kind, packed: pieces.pack(markup) }) - 1;
  };
  const drawn = editions.map((edition): PageEdition => {
    const { editions: choices } = sheetOf(document, { widthMm: widthsMm[0] ?? 0, leftHanded: false });
    const sheetsFor = (hand: PageHand): readonly (readonly number[])[] =>
      widthsMm.map((widthMm) => {
        const { blocks: all } = sheetOf(document, { widthMm, leftHanded: hand === 'left', edition: edition.name });
        return all.filter(({ kind }) => !TEACHERS_OWN.has(kind)).map(numberOf);
      });
    return {
      name: edition.name,
      label: choices.find(({ name }) => name === edition.name)?.label ?? edition.name,
      sheets: { right: sheetsFor('right'), left: sheetsFor('left') },
      performances: performancesOf(document, lesson, edition),
    };
  });
  return { pieces: pieces.list(), blocks, widthsMm, editions: drawn };
}

function performancesOf(document: LessonDocument, lesson: Lesson, edition: Edition): PageEdition['performances'] {
  return lesson.definitions.exercises.map((definition) => {
    const exercise = exportedExercise(document, edition.name, definition);
    if (exercise === undefined) return null;
    const { score, instrument, feel, tempo } = exercise;
    const performance = performanceOf(score, { instrument, feel, ...(tempo === undefined ? {} : { tempo }) });
    return performance.sounds.length === 0 ? null : packed({ ...performance, title: exercise.title });
  });
}

/** Numbers of the exercises, from 0, by where they stand in the file. */
function exercisePlaces(document: LessonDocument, lesson: Lesson): ReadonlyMap<string, number> {
  return new Map(
    lesson.definitions.exercises.flatMap(({ entry, statement }, number) => {
      const span = spanInFile(document, entry, statement.span);
      return span === undefined ? [] : [[`${span.start} ${span.end}`, number] as const];
    }),
  );
}

const PLACE = / data-place="(\d+)" tabindex="0"/;

/** The page has no lesson text that places could lead to: only titles of exercises keep one, which is the number of the exercise. */
function withoutPlaces(block: Block, exercises: ReadonlyMap<string, number>): string {
  // Text has no `<` or `>` of its own, so these are tags and nothing else.
  return block.markup.replace(/<[^<>]*>/g, (tag) =>
    tag.replace(PLACE, (_, place: string) => {
      const span = block.places[Number(place)];
      const exercise = span && exercises.get(`${span.start} ${span.end}`);
      return exercise !== undefined && tag.startsWith('<h3 ') ? ` data-place="${exercise}"` : '';
    }),
  );
}
