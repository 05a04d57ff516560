import type { GroupItem, Item } from '../../engrave/drawing.ts';
import { faceWidth } from '../../engrave/text-width.ts';
import {
  boxWithin,
  extentOf,
  type FlatItem,
  type FlatText,
  type Frame,
  flatItems,
  frameWithin,
  WHOLE_PAPER,
} from '../flat-items.ts';
import type { PrintedElement, PrintedRun, PrintedTag } from './printed-document.ts';

/** Reads the pages of a document one after another: text that goes on over the leaf stays one paragraph. */
export interface RunReader {
  readonly elements: readonly PrintedElement[];
  /** The runs of the next page. */
  readPage(items: readonly Item[]): readonly PrintedRun[];
}

/** How what stands in a group is read. */
type Reading =
  /** Running text: its lines say themselves where paragraphs begin. */
  | { readonly kind: 'flow' }
  /** All text belongs to one element. */
  | { readonly kind: 'inside'; readonly element: number }
  /** An item of a list: words before its text are its sign. */
  | { readonly kind: 'list-item'; readonly element: number }
  /** A drawing made of several: what belongs to none of them is a figure of its own. */
  | { readonly kind: 'drawing'; readonly around: number; readonly loose: () => number }
  | { readonly kind: 'figure'; readonly element: number };

const FLOW: Reading = { kind: 'flow' };

export function createRunReader(): RunReader {
  const elements: PrintedElement[] = [];
  const headings: number[] = [];
  let runs: (PrintedRun & { readonly items: FlatItem[] })[] = [];
  /** What running text goes on in, and the list that the next item belongs to. */
  let open: number | undefined;
  let list: number | undefined;

  const add = (element: PrintedElement): number => elements.push(element) - 1;
  const paint = (of: Pick<PrintedRun, 'element' | 'artifact' | 'spelled'>, items: readonly FlatItem[]): void => {
    if (items.length === 0) return;
    const last = runs.at(-1);
    const alike = last?.element === of.element && last?.artifact === of.artifact;
    if (last !== undefined && alike && last.spelled === undefined && of.spelled === undefined)
      last.items.push(...items);
    else runs.push({ ...of, items: [...items] });
  };

  const headingTag = (level: number): PrintedTag => {
    while (headings.length > 0 && (headings.at(-1) ?? 0) >= level) headings.pop();
    headings.push(level);
    // Readers expect no level to be left out, even where a lesson has exercises and no parts.
    return (['H1', 'H2', 'H3', 'H4'] as const)[Math.min(headings.length, 4) - 1] ?? 'H4';
  };

  const read = (item: Item, frame: Frame, reading: Reading): void => {
    if (item.kind === 'group') readGroup(item, frame, reading);
    else paint(ownerOf(item.kind === 'text', reading), flatItems(item, frame));
  };

  const ownerOf = (isText: boolean, reading: Reading): Pick<PrintedRun, 'element' | 'artifact'> => {
    if (reading.kind === 'drawing') return { element: reading.loose() };
    if (reading.kind === 'figure') return { element: reading.element };
    if (!isText) return { artifact: 'Layout' };
    if (reading.kind === 'inside') return { element: reading.element };
    if (reading.kind === 'list-item' && open === undefined) {
      return { element: add({ tag: 'Lbl', within: reading.element }) };
    }
    open ??= add({ tag: 'P' });
    return { element: open };
  };

  const readAll = (group: GroupItem, frame: Frame, reading: Reading): void => {
    const within = frameWithin(frame, group);
    for (const inner of group.items) read(inner, within, reading);
  };

  const readGroup = (group: GroupItem, frame: Frame, reading: Reading): void => {
    if (group.decorates === true) {
      paint({ artifact: 'Layout' }, flatItems(group, frame));
    } else if (group.spelled !== undefined) {
      readSpelled(group, frame, reading, group.spelled);
    } else if (reading.kind === 'flow') {
      readInFlow(group, frame);
    } else if (reading.kind === 'list-item' && group.begins === 'paragraph') {
      open = add({ tag: 'LBody', within: reading.element, ...languageOf(group) });
      readAll(group, frame, { kind: 'inside', element: open });
    } else if (reading.kind === 'drawing' && group.mark !== undefined && !isSilent(group)) {
      readFigure(group, frame, reading.around);
    } else if (reading.kind === 'inside' && group.address !== undefined) {
      readLink(group, frame, reading.element, group.address);
    } else {
      readAll(group, frame, reading);
    }
  };

  const readInFlow = (group: GroupItem, frame: Frame): void => {
    const { mark, begins } = group;
    if (mark?.reads?.kind === 'heading') {
      closeText();
      const element = add({ tag: headingTag(mark.reads.level), ...languageOf(mark.reads) });
      readAll(group, frame, { kind: 'inside', element });
    } else if (mark?.reads?.kind === 'group') {
      closeText();
      readDrawing(group, frame, mark.alternative);
    } else if (begins === 'list-item') {
      open = undefined;
      list ??= add({ tag: 'L' });
      readAll(group, frame, { kind: 'list-item', element: add({ tag: 'LI', within: list }) });
    } else if (begins === 'paragraph') {
      closeText();
      open = add({ tag: 'P', ...languageOf(group) });
      readAll(group, frame, { kind: 'inside', element: open });
    } else {
      const goesOn = open !== undefined && !beginsSomething(group);
      readAll(group, frame, goesOn && open !== undefined ? { kind: 'inside', element: open } : FLOW);
    }
  };

  const closeText = (): void => {
    open = undefined;
    list = undefined;
  };

  const readDrawing = (group: GroupItem, frame: Frame, alternative: string): void => {
    const around = add({ tag: 'Div', title: alternative });
    let loose: number | undefined;
    const box = extentOf(flatItems(group, frame));
    // What has nothing drawn in it, as a bar that only keeps its chord, is said with the lines that it stands on.
    const said = [alternative, ...silentIn(group.items)].join('. ').replaceAll('..', '.');
    readAll(group, frame, {
      kind: 'drawing',
      around,
      loose: () => {
        loose ??= add({ tag: 'Figure', within: around, alternative: said, ...(box === undefined ? {} : { box }) });
        return loose;
      },
    });
  };

  const readFigure = (group: GroupItem, frame: Frame, within: number): void => {
    const area = group.mark?.area;
    const box = area === undefined ? extentOf(flatItems(group, frame)) : boxWithin(frameWithin(frame, group), area);
    const alternative = group.mark?.alternative ?? '';
    const element = add({ tag: 'Figure', within, alternative, ...(box === undefined ? {} : { box }) });
    readAll(group, frame, { kind: 'figure', element });
  };

  const readLink = (group: GroupItem, frame: Frame, within: number, address: string): void => {
    const box = extentOf(flatItems(group, frame));
    const element = add({ tag: 'Link', within, address, ...(box === undefined ? {} : { box }) });
    readAll(group, frame, { kind: 'inside', element });
  };

  const readSpelled = (group: GroupItem, frame: Frame, reading: Reading, spelled: string): void => {
    const items = flatItems(group, frame);
    // Letters alone spell themselves.
    const says = items.every((item) => item.kind === 'text') ? {} : { spelled };
    paint({ ...ownerOf(true, reading), ...says }, items);
  };

  return {
    elements,
    readPage(items) {
      runs = [];
      for (const item of items) {
        // Heads and feet are bare text; all that belongs to the lesson stands in groups.
        if (item.kind === 'group') read(item, WHOLE_PAPER, FLOW);
        else paint({ artifact: 'Pagination' }, flatItems(item, WHOLE_PAPER));
      }
      return withBlanks(runs, elements);
    },
  };
}

/** True for a place of a drawing with nothing to be seen in it. */
function isSilent({ items }: GroupItem): boolean {
  return items.every((item) => item.kind === 'group' && isSilent(item));
}

/** The sentences of such places. */
function silentIn(items: readonly Item[]): readonly string[] {
  return items.flatMap((item) => {
    if (item.kind !== 'group') return [];
    if (item.mark !== undefined && isSilent(item)) return [item.mark.alternative];
    return silentIn(item.items);
  });
}

/** True where a paragraph, an item, a heading or a drawing begins within: then it is more than the next line of a text. */
function beginsSomething(group: GroupItem): boolean {
  return (
    group.begins !== undefined ||
    group.mark?.reads !== undefined ||
    group.items.some((item) => item.kind === 'group' && beginsSomething(item))
  );
}

/** A stretch of white that parts two words. Unit: em. */
const LEAST_BLANK_EM = 0.12;

/**
 * Where only white parts two texts of a paragraph, or the end of a line, a blank stands at the end of the first, for who reads them
 * without their places.
 */
function withBlanks(runs: readonly PrintedRun[], elements: readonly PrintedElement[]): readonly PrintedRun[] {
  let next: { readonly text: FlatText; readonly block: number | undefined } | undefined;
  const parted = (item: FlatText, block: number | undefined): boolean => {
    if (next === undefined || next.block !== block || /\s$/.test(item.text) || /^\s/.test(next.text.text)) return false;
    const end = item.x + faceWidth(item.text, item.face, item.size);
    return next.text.y > item.y + item.size / 2 || Math.abs(next.text.x - end) > LEAST_BLANK_EM * item.size;
  };
  return runs
    .toReversed()
    .map((run): PrintedRun => {
      const { element, spelled } = run;
      const owner = element === undefined ? undefined : elements[element];
      const block = owner?.tag === 'Link' ? owner.within : element;
      const items = run.items.toReversed().map((item): FlatItem => {
        if (item.kind !== 'text') return item;
        const blank = element !== undefined && spelled === undefined && parted(item, block);
        next = { text: item, block };
        return blank ? { ...item, text: `${item.text} ` } : item;
      });
      return { ...run, items: items.toReversed() };
    })
    .toReversed();
}

function languageOf({ language }: { readonly language?: string }): { readonly language?: string } {
  return language === undefined ? {} : { language };
}
