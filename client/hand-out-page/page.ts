import { PX_PER_MM } from '../preview/page/fragment.ts';
import { layoutFor } from './layout.ts';
import { Practice } from './practice.ts';
import { Lesson } from './read-lesson.ts';
import { goTo, placeOf, showBlocks } from './sheet.ts';
import { keepWishes, readWishes, type Wishes } from './wishes.ts';

// The interactive page of a lesson: it shows the sheets that were drawn when it was written, and plays. It fetches nothing.

const root = document.documentElement;
const sheet = byId('sheet', HTMLElement);
const blocks = byId('blocks', HTMLElement);
const editionChoice = document.getElementById('edition');
const printChoice = byId('print-size', HTMLSelectElement);
const coloursChoice = byId('colours', HTMLSelectElement);
const leftHandedToggle = byId('left-handed', HTMLButtonElement);
const darkDevice = window.matchMedia('(prefers-color-scheme: dark)');
const onPaper = window.matchMedia('print');

/** What a sheet of paper has room for: A4 without the margins of the style, which is less than Letter has. Unit: mm. */
const PAPER_ROOM_MM = 180;

const lesson = new Lesson(byId('lesson', HTMLElement).textContent ?? '');
let wishes = readWishes();
// A browser that loads a page again may put the choice back.
let edition = editionChoice instanceof HTMLSelectElement ? editionChoice.selectedIndex : 0;
/** What is shown now; empty before anything is. */
let shown = '';
const practice = new Practice(blocks, (exercise) => lesson.performance(edition, exercise));

// Without a script there would be nothing behind the controls.
byId('page-head', HTMLElement).hidden = false;
byId('how-to-play', HTMLElement).hidden = false;
showWishes();
show(roomMm());

new ResizeObserver(() => {
  if (!onPaper.matches) show(roomMm());
}).observe(sheet);

if (editionChoice instanceof HTMLSelectElement) {
  editionChoice.addEventListener('change', () => {
    edition = editionChoice.selectedIndex;
    show(roomMm());
  });
}

leftHandedToggle.addEventListener('click', () => wish({ leftHanded: !wishes.leftHanded }));
printChoice.addEventListener('change', () => wish({ print: Number(printChoice.value) }));
coloursChoice.addEventListener('change', () => {
  const { value } = coloursChoice;
  wish({ colours: value === 'light' || value === 'dark' ? value : '' });
});
darkDevice.addEventListener('change', showWishes);

byId('print', HTMLButtonElement).addEventListener('click', () => window.print());
// Paper has a width of its own. Some browsers tell of printing in the one way, some in the other.
window.addEventListener('beforeprint', () => show(PAPER_ROOM_MM));
window.addEventListener('afterprint', () => show(roomMm()));
onPaper.addEventListener('change', () => show(onPaper.matches ? PAPER_ROOM_MM : roomMm()));

function wish(change: Partial<Wishes>): void {
  wishes = { ...wishes, ...change };
  keepWishes(wishes);
  showWishes();
  show(roomMm());
}

function showWishes(): void {
  const { leftHanded, print, colours } = wishes;
  leftHandedToggle.setAttribute('aria-pressed', String(leftHanded));
  byId('mirrored', HTMLElement).hidden = !leftHanded;
  printChoice.value = String(print);
  coloursChoice.value = colours;
  root.dataset.colours = colours === '' ? (darkDevice.matches ? 'dark' : 'light') : colours;
  root.style.setProperty('--zoom', String(print));
}

function show(room: number): void {
  const { width, zoom } = layoutFor(room, wishes.print, lesson.widthsMm);
  const hand = wishes.leftHanded ? 'left' : 'right';
  const wanted = `${edition} ${hand} ${width} ${zoom.toFixed(3)}`;
  if (wanted === shown) return;
  const place = placeOf(blocks);
  shown = wanted;
  showBlocks(blocks, lesson.blocks(edition, hand, width), zoom);
  practice.sheetChanged();
  goTo(blocks, place);
}

/** Room for a line of music. Unit: mm at zoom 1. */
function roomMm(): number {
  return blocks.clientWidth / PX_PER_MM;
}

/** The page is written with these elements in it; one that is missing is a fault of ours. */
function byId<E extends HTMLElement>(id: string, type: abstract new () => E): E {
  const element = document.getElementById(id);
  if (element instanceof type) return element;
  throw new Error(`The page has no ${id}`);
}
