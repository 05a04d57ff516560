import { CAUTION_ON_STRETCH } from '../hand/reach.ts';
import type { LessonDocument } from '../lesson/document.ts';
import type { Edition, Lesson } from '../lesson/model/lesson.ts';
import { printPitch } from '../theory/note.ts';
import type { Block, PaperChoice, SheetView } from './block.ts';
import { blockId } from './block-id.ts';
import { musicWidth, NO_PAGES, type Page, type PageMemory, pagesOf } from './page/lesson-pages.ts';
import type { PageFrame } from './page/page-frame.ts';
import { LEAST_ON_ONE_PAGE_PT, MM_PER_POINT, PAGE_SIZES } from './page/page-sizes.ts';
import type { Placer } from './sheet-draft.ts';
import {
  type DrawingMemory,
  type DrawnLesson,
  drawLesson,
  emptyDrawingMemory,
  type LessonDraft,
} from './sheet-lesson.ts';
import { markupOf } from './sheet-markup.ts';

/** What the next pages start from. */
export interface PagesMemory {
  readonly pages: PageMemory;
  /** Blocks by the page that they show. */
  readonly blocks: WeakMap<Page, Block>;
}

/** A view that asks for pages. */
type PagedView = SheetView & { readonly page: PaperChoice };

interface Setting {
  readonly lesson: Lesson;
  readonly edition: Edition;
}

/** A lesson as a printed document. */
export interface LessonPages {
  readonly title?: string;
  readonly pages: readonly Page[];
  /** Why the pages are not what was asked for, in a sentence. */
  readonly refused?: string;
}

/** The pages of a lesson as they are printed, the same that a preview of the same view shows. */
export function printedPages(document: LessonDocument, setting: Setting, view: PagedView): LessonPages {
  const { pages, refused } = setPages(document, setting, view, { drawing: emptyDrawingMemory(), pages: NO_PAGES });
  const { title } = setting.lesson.settings;
  return { pages, ...(title === undefined ? {} : { title }), ...(refused === undefined ? {} : { refused }) };
}

/** The pages as blocks, one each, and what the next ones start from. */
export function drawPages(
  document: LessonDocument,
  setting: Setting,
  view: PagedView,
  memory: { readonly drawing: DrawingMemory; readonly placer: Placer; readonly pages: PagesMemory | undefined },
): { readonly blocks: readonly Block[]; readonly drawing: DrawingMemory; readonly memory: PagesMemory } {
  const before = memory.pages ?? { pages: NO_PAGES, blocks: new WeakMap<Page, Block>() };
  const set = setPages(document, setting, view, { drawing: memory.drawing, pages: before.pages });
  const blocks = set.pages.map((page) => {
    const known = before.blocks.get(page);
    const block = pageBlock(document, page, set.drawn.drafts, memory.placer, known);
    before.blocks.set(page, block);
    return block;
  });
  const note = set.refused === undefined ? [] : [noteBlock(set.refused)];
  return { blocks: [...note, ...blocks], drawing: set.drawn.memory, memory: { ...before, pages: set.memory } };
}

function noteBlock(text: string): Block {
  const markup = markupOf({ kind: 'note', text });
  return { id: blockId(markup, undefined), kind: 'note', markup, source: { start: 0, end: 0 }, places: [] };
}

function pageBlock(
  document: LessonDocument,
  page: Page,
  drafts: readonly LessonDraft[],
  placer: Placer,
  known: Block | undefined,
): Block {
  const shown = page.drafts.flatMap((number) => drafts[number] ?? []);
  const spans = shown.map(({ draft, item }) => placer.spans(document, draft, item));
  const places = spans.flatMap((span) => span.places);
  const start = Math.min(...spans.map(({ source }) => source.start));
  const end = Math.max(...spans.map(({ source }) => source.end));
  const stale = shown.find(({ draft }) => draft.stale !== undefined)?.draft.stale;
  if (
    known !== undefined &&
    known.stale === stale &&
    known.source.start === start &&
    known.source.end === end &&
    known.places.length === places.length &&
    known.places.every((place, index) => place.start === places[index]?.start && place.end === places[index]?.end)
  ) {
    return known;
  }
  const markup = known?.markup ?? markupOf({ kind: 'page', drawing: page.drawing });
  const id = known !== undefined && known.stale === stale ? known.id : blockId(markup, stale);
  const block: Block = { id, kind: 'page', markup, source: { start, end }, places };
  return stale === undefined ? block : { ...block, stale };
}

interface SetPages {
  readonly pages: readonly Page[];
  readonly memory: PageMemory;
  readonly drawn: DrawnLesson;
  readonly refused?: string;
}

function setPages(
  document: LessonDocument,
  setting: Setting,
  view: PagedView,
  memory: { readonly drawing: DrawingMemory; readonly pages: PageMemory },
): SetPages {
  const attempt = (page: PaperChoice, scale: number): SetPages => {
    const bare = frameOf(setting, view, false);
    const widthMm = musicWidth(page, bare, scale);
    const drawn = drawLesson(document, setting, { ...view, page, widthMm }, memory.drawing);
    const cautioned = drawn.drafts.some(({ draft }) => draft.content.kind === 'caution');
    const frame = cautioned ? frameOf(setting, view, true) : bare;
    return { drawn, ...pagesOf(drawn.drafts, { choice: page, frame, scale }, memory.pages) };
  };
  if (view.page.print !== 'one-page') return attempt(view.page, 1);
  return onOnePage(view.page, attempt);
}

/** Steps in which a lesson is made smaller to fit on one page. Unit: none. */
const SCALE_STEP = 0.02;

/** The largest scale at which everything fits on one page; at the usual size, and with the reason, where none does. */
function onOnePage(choice: PaperChoice, attempt: (choice: PaperChoice, scale: number) => SetPages): SetPages {
  const usual = attempt(choice, 1);
  if (usual.pages.length <= 1) return usual;
  const least = (LEAST_ON_ONE_PAGE_PT * MM_PER_POINT) / PAGE_SIZES.body;
  let best = attempt(choice, least);
  if (best.pages.length > 1) {
    const paper = choice.paper === 'a4' ? 'A4' : 'Letter';
    const size = `${LEAST_ON_ONE_PAGE_PT} pt`;
    const refused = `This lesson does not fit on one ${paper} page: its text would have to be smaller than ${size}, too small for a music stand. It has ${usual.pages.length} pages at the usual size.`;
    return { ...usual, refused };
  }
  let fits = 0;
  let fails = Math.ceil((1 - least) / SCALE_STEP);
  while (fails - fits > 1) {
    const middle = (fits + fails) >> 1;
    const tried = attempt(choice, least + middle * SCALE_STEP);
    if (tried.pages.length <= 1) {
      fits = middle;
      best = tried;
    } else {
      fails = middle;
    }
  }
  return best;
}

/** What is said at the head and the foot of every page. */
function frameOf({ lesson, edition }: Setting, view: PagedView, cautioned: boolean): PageFrame {
  const { settings, document } = lesson;
  const { instrument } = edition;
  const strings = instrument.openStrings.map((pitch) => printPitch(pitch, 'signs')).join(' ');
  const tuning = instrument.name.startsWith('tuned') ? '' : ` · ${strings}`;
  const mirrored = view.leftHanded ? ' · diagrams left-handed, tab not' : '';
  const mended = document.entries.flatMap(({ statement }) =>
    statement.kind === 'corrected' && statement.value !== undefined ? [`corrected: ${statement.value.text}`] : [],
  );
  const version = [...(settings.dated === undefined ? [] : [settings.dated]), ...mended].join(' · ');
  return {
    ...(settings.title === undefined ? {} : { title: settings.title }),
    edition: `${instrument.name}${tuning}${mirrored}`,
    ...(version === '' ? {} : { version }),
    ...(cautioned ? { caution: CAUTION_ON_STRETCH } : {}),
  };
}
