import type { EditionChoice, SheetUpdate } from '../../server/protocol/preview.ts';
import { readPaper } from '../../server/protocol/read.ts';
import type { SheetView } from '../../shared/engrave/block.ts';
import { type FromPage, readToPage, type ToPage } from './messages.ts';
import { listenForChoices } from './page/choices.ts';
import { listenForPicks } from './page/places.ts';
import { Playing } from './page/playing.ts';
import { readSavedState, type SavedState } from './page/saved-state.ts';
import { sheetWidthMm } from './page/sheet-width.ts';
import { Slots } from './page/slots.ts';
import type { PlayingFromPage } from './playing-messages.ts';

// The sheet's page: it draws the blocks that it is given, and reports how it wants to see them and what was picked.
// It reads no lesson text and holds no musical rule.

declare function acquireVsCodeApi(): {
  postMessage(message: FromPage | PlayingFromPage): void;
  getState(): unknown;
  setState(state: SavedState): void;
};

const editor = acquireVsCodeApi();
const root = document.documentElement;
const sheet = byId('sheet', HTMLElement);
const notice = byId('notice', HTMLElement);
const firstHint = byId('first-hint', HTMLElement);
const editionChoice = byId('edition', HTMLSelectElement);
const leftHandedToggle = byId('left-handed', HTMLButtonElement);
const mirroredHint = byId('mirrored', HTMLElement);
const paperChoice = byId('paper', HTMLSelectElement);
const printChoice = byId('print', HTMLSelectElement);
const tonesToggle = byId('tones', HTMLButtonElement);
const pinToggle = byId('pinned', HTMLButtonElement);

let saved = readSavedState(editor.getState(), root.dataset.uri ?? '');
let leftHandedSetting = root.dataset.leftHanded === 'true';
let widthMm = roomForLines();
/** The revision that the page shows; undefined before the first sheet, and after losing step. */
let revision: number | undefined;
/** The scroll to restore with the first sheet after a reload. */
let anchorToRestore = saved.anchor;
const slots = new Slots(sheet, saved.zoom);
const playing = new Playing({
  sheet,
  revision: () => revision,
  slotNumber: (slot) => slots.indexOf(slot),
  slotAt: (index) => slots.at(index),
  post: (message) => editor.postMessage(message),
  tell,
});

save({});
root.dataset.uri = saved.uri;
showLeftHanded();
showLayout();
showTones();
showPinned();
look();

window.addEventListener('message', (event) => {
  if (playing.receive(event.data)) return;
  const message = readToPage(event.data);
  switch (message?.kind) {
    case 'sheet':
      update(message.update);
      break;
    case 'cursor':
      if (message.revision === revision) markCursor(message);
      break;
    case 'left-handed-setting':
      leftHandedSetting = message.leftHanded;
      if (saved.leftHanded === undefined) lookDifferently();
      break;
    case 'lesson':
      turnTo(message.uri);
      break;
    case 'own-sheet':
      showOwnSheet();
      break;
    case 'notice':
      tell(message.sentence);
      break;
  }
});

listenForPicks(sheet, ({ slot, place }) => {
  if (revision !== undefined) editor.postMessage({ kind: 'follow', revision, slot: slots.indexOf(slot), place });
});

listenForChoices(sheet, ({ slot, choice }) => {
  if (revision !== undefined) editor.postMessage({ kind: 'write', revision, slot: slots.indexOf(slot), choice });
});

window.addEventListener('pointerdown', () => editor.postMessage({ kind: 'touched' }));

// The observer calls once a frame at most, so only the newest width of a dragged edge is asked for.
new ResizeObserver(() => {
  const wanted = roomForLines();
  if (wanted === widthMm) return;
  widthMm = wanted;
  // Pages keep their width, and are only shown smaller.
  if (saved.page === undefined) look();
}).observe(sheet);

leftHandedToggle.addEventListener('click', () => {
  save({ leftHanded: !leftHanded() });
  lookDifferently();
});

for (const choice of [paperChoice, printChoice]) {
  choice.addEventListener('change', () => {
    choosePage();
    showLayout();
    widthMm = roomForLines();
    look();
  });
}

tonesToggle.addEventListener('click', () => {
  save({ tones: !saved.tones });
  showTones();
  look();
});

pinToggle.addEventListener('click', () => {
  save({ pinned: !saved.pinned });
  showPinned();
});

editionChoice.addEventListener('change', () => {
  save({ edition: editionChoice.value });
  playing.close();
  look();
});

let scrollNoted = false;
window.addEventListener('scroll', () => {
  if (scrollNoted) return;
  scrollNoted = true;
  requestAnimationFrame(() => {
    scrollNoted = false;
    noteAnchor();
  });
});

function update(message: SheetUpdate): void {
  if (message.kind === 'full') {
    slots.showAll(message.blocks);
  } else if (message.from !== revision || !slots.patch(message.operations)) {
    // Something is missing between what is shown and what has come.
    revision = undefined;
    look();
    return;
  }
  revision = message.revision;
  notice.hidden = true;
  firstHint.hidden = slots.count > 0;
  if (message.editions !== undefined) showEditions(message.editions);
  restoreAnchor();
  playing.sheetChanged();
  const { version } = message;
  // Set in the frame that shows the change, so that a test or a benchmark can wait for it.
  requestAnimationFrame(() => {
    root.dataset.paintedVersion = String(version);
    root.dataset.paintedRevision = String(message.revision);
  });
}

/** A sentence about the panel itself, until the next sheet. */
function tell(sentence: string): void {
  notice.textContent = sentence;
  notice.hidden = false;
}

function markCursor({ slot, place, reveal }: Extract<ToPage, { kind: 'cursor' }>): void {
  const block = slot === undefined ? undefined : slots.at(slot);
  const marked = place === undefined ? block : (block?.querySelector(`[data-place="${place}"]`) ?? block);
  for (const before of sheet.querySelectorAll('.at-cursor')) {
    if (before === marked) continue;
    before.classList.remove('at-cursor');
    before.removeAttribute('aria-current');
  }
  if (marked === undefined) return;
  marked.classList.add('at-cursor');
  marked.setAttribute('aria-current', 'true');
  if (!reveal) return;
  // What was found stands below the question, and belongs to what is to be seen.
  const isQuestion = marked.classList.contains('question');
  if (isQuestion && !inUpperHalf(marked)) marked.scrollIntoView({ block: 'start' });
  else if (!inView(marked)) marked.scrollIntoView({ block: 'nearest' });
}

function inUpperHalf(element: Element): boolean {
  const { top } = element.getBoundingClientRect();
  return top >= 0 && top <= window.innerHeight / 2;
}

function inView(element: Element): boolean {
  const { top, bottom } = element.getBoundingClientRect();
  return top >= 0 && bottom <= window.innerHeight;
}

function look(): void {
  const edition = saved.edition;
  const { page } = saved;
  const view: SheetView = {
    widthMm,
    leftHanded: leftHanded(),
    ...(edition === undefined ? {} : { edition }),
    ...(page === undefined ? {} : { page }),
    ...(saved.tones ? { dots: 'roles' } : {}),
  };
  editor.postMessage({ kind: 'look', view, ...(revision === undefined ? {} : { holds: revision }) });
}

function lookDifferently(): void {
  showLeftHanded();
  look();
}

function leftHanded(): boolean {
  return saved.leftHanded ?? leftHandedSetting;
}

function showLeftHanded(): void {
  leftHandedToggle.setAttribute('aria-pressed', String(leftHanded()));
  mirroredHint.hidden = !leftHanded();
}

function choosePage(): void {
  const page = readPaper({ paper: paperChoice.value, print: printChoice.value });
  const { page: _, ...others } = saved;
  saved = page === undefined ? others : { ...others, page };
  save({});
}

function showLayout(): void {
  const { page } = saved;
  paperChoice.value = page?.paper ?? '';
  if (page !== undefined) printChoice.value = page.print;
  const label = printChoice.closest('label');
  if (label !== null) label.hidden = page === undefined;
  // The style lays paper on a desk, and prints it in its size.
  if (page === undefined) delete sheet.dataset.paper;
  else sheet.dataset.paper = page.paper;
}

function showTones(): void {
  tonesToggle.setAttribute('aria-pressed', String(saved.tones));
}

function showPinned(): void {
  pinToggle.setAttribute('aria-pressed', String(saved.pinned));
  editor.postMessage({ kind: 'pin', pinned: saved.pinned });
}

/** The sheet as it flows, of the lesson's own instrument. */
function showOwnSheet(): void {
  const { edition: _, page: __, ...kept } = saved;
  saved = kept;
  save({});
  playing.close();
  showLayout();
  const [own] = editionChoice.options;
  if (own !== undefined) editionChoice.value = own.value;
  widthMm = roomForLines();
  look();
}

/** The panel goes with the reader to another lesson: what was chosen for the one before does not hold for it. */
function turnTo(uri: string): void {
  const { edition: _, anchor: __, ...kept } = saved;
  saved = { ...kept, uri };
  save({});
  root.dataset.uri = uri;
  revision = undefined;
  playing.close();
  anchorToRestore = undefined;
  delete root.dataset.paintedVersion;
  window.scrollTo(0, 0);
  look();
}

function showEditions(editions: readonly EditionChoice[]): void {
  editionChoice.replaceChildren(
    ...editions.map(({ name, label }) => new Option(label, name, false, name === saved.edition)),
  );
  const label = editionChoice.closest('label');
  if (label !== null) label.hidden = editions.length < 2;
}

function save(change: Partial<SavedState>): void {
  saved = { ...saved, ...change };
  editor.setState(saved);
}

function noteAnchor(): void {
  for (let slot = 0; slot < slots.count; slot += 1) {
    const box = slots.at(slot)?.getBoundingClientRect();
    if (box === undefined || box.bottom <= 0) continue;
    save({ anchor: { slot, abovePx: Math.round(-box.top) } });
    return;
  }
}

function restoreAnchor(): void {
  const anchor = anchorToRestore;
  anchorToRestore = undefined;
  const slot = anchor === undefined ? undefined : slots.at(anchor.slot);
  if (anchor !== undefined && slot !== undefined) {
    window.scrollBy(0, slot.getBoundingClientRect().top + anchor.abovePx);
  }
}

function roomForLines(): number {
  const style = getComputedStyle(sheet);
  const room = sheet.clientWidth - Number.parseFloat(style.paddingLeft) - Number.parseFloat(style.paddingRight);
  return sheetWidthMm(room, saved.zoom);
}

/** The page is written with these elements in it; one that is missing is a fault of ours. */
function byId<E extends HTMLElement>(id: string, type: abstract new () => E): E {
  const element = document.getElementById(id);
  if (element instanceof type) return element;
  throw new Error(`The page has no ${id}`);
}
