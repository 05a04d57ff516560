import type { SheetView } from '../../engrave/block.ts';
import type { GroupItem, Item } from '../../engrave/drawing.ts';
import type { SheetContent } from '../../engrave/sheet-content.ts';
import { drawLesson, emptyDrawingMemory } from '../../engrave/sheet-lesson.ts';
import type { LessonDocument } from '../../lesson/document.ts';
import { type Edition, lessonOf } from '../../lesson/model/lesson.ts';
import { type FrameName, VIDEO_FRAMES } from './frames.ts';
import { type PicturePlace, pictureNames } from './picture-names.ts';

/** A chord diagram or a line of music by itself, to be shown over a video. */
export interface LessonPicture {
  readonly kind: 'diagram' | 'line';
  /** Name of its file, without the ending; no two of a lesson are alike, and they sort in the order of the lesson. */
  readonly name: string;
  /** What it shows, in sentences for who cannot see it. */
  readonly alternative: string;
  readonly frame: FrameName;
  /** What is drawn. Unit: mm. */
  readonly items: readonly Item[];
}

export interface PictureChoice {
  readonly frame: FrameName;
  readonly leftHanded?: boolean;
  readonly dots?: 'fingers' | 'roles';
}

/** All pictures of one edition of a lesson, in its order: each diagram, and each line of its exercises as the frame has room for it. */
export function picturesOf(
  document: LessonDocument,
  edition: Edition,
  { frame, leftHanded = false, dots }: PictureChoice,
): readonly LessonPicture[] {
  const view: SheetView = {
    widthMm: VIDEO_FRAMES[frame].musicMm,
    leftHanded,
    // As for paper: a sheet on the screen keeps only the markup of its lines.
    page: { paper: 'a4', print: 'normal' },
    ...(dots === undefined ? {} : { dots }),
  };
  const lesson = lessonOf(document);
  const { drafts } = drawLesson(document, { lesson, edition }, view, emptyDrawingMemory());
  const pictures: Omit<LessonPicture, 'name'>[] = [];
  const places: PicturePlace[] = [];
  const shelf = createShelf();
  for (const { draft } of drafts) {
    // What is wrong now is not shown to students as it was before.
    if (draft.stale !== undefined) continue;
    const { content } = draft;
    shelf.meet(content);
    for (const shown of shownIn(content)) {
      pictures.push({ ...shown, frame });
      places.push(shelf.placeOf(shown));
    }
  }
  const names = pictureNames(places);
  return pictures.map((picture, index) => ({ ...picture, name: names[index] ?? '' }));
}

type Shown = Pick<LessonPicture, 'kind' | 'alternative' | 'items'>;

function shownIn(content: SheetContent): readonly Shown[] {
  if (content.kind === 'diagrams') {
    return content.drawing.items.flatMap((item): readonly Shown[] =>
      item.kind === 'group' && item.mark !== undefined
        ? [{ kind: 'diagram', alternative: item.mark.alternative, items: item.items }]
        : [],
    );
  }
  if (content.kind !== 'system') return [];
  const { items, alternative } = content.drawing;
  const bars = items.filter(isBar).map(({ mark }) => mark?.alternative ?? '');
  return [{ kind: 'line', alternative: [`${alternative}.`, ...bars].join(' '), items }];
}

/** Bars say what is played in them; the names of chords over them are said there too. */
function isBar(item: Item): item is GroupItem {
  return (
    item.kind === 'group' &&
    item.mark !== undefined &&
    item.mark.reads === undefined &&
    item.mark.played?.kind !== 'name'
  );
}

/** Counts sections and the pictures in each. A section is an exercise, a pattern shown by itself, or diagrams that stand together. */
function createShelf(): {
  meet(content: SheetContent): void;
  placeOf(picture: Shown): PicturePlace;
} {
  let section = 0;
  let picture = 0;
  let line = 0;
  let pass = '';
  let title = '';
  let before: SheetContent['kind'] | undefined;
  const begin = (words: string): void => {
    section += 1;
    picture = 0;
    line = 0;
    pass = '';
    title = words;
  };
  return {
    meet(content) {
      if (content.kind === 'exercise') begin(content.title.text);
      else if (content.kind === 'heading' && content.level === 4) begin(content.text.text);
      else if (content.kind === 'diagrams' && before !== 'diagrams') begin('');
      else if (content.kind === 'pass') {
        pass = ` ${content.text.text}`;
        line = 0;
      }
      before = content.kind;
    },
    placeOf({ kind, alternative }) {
      if (kind === 'diagram') return { section, picture: ++picture, words: alternative.split(':')[0] ?? '' };
      // Music without a heading still is a section of its own.
      if (section === 0) begin('');
      line += 1;
      return { section, picture: ++picture, words: `${title}${pass} line ${line}` };
    },
  };
}
