import type { ExerciseScore, Pass, ScoreBar, Source } from '../score/timeline.ts';
import { describeBar } from './bar-text.ts';
import { spokenChordName } from './chord-name.ts';
import { type Drawing, group, type Item, line, type PathStep } from './drawing.ts';
import { SIZES, STRETCH } from './sizes.ts';
import { type ReadyBar, readyBar } from './tab-bar.ts';
import { barLinePiece } from './tab-bar-line.ts';
import { type Piece, type Row, type Sign, type Staff, staffOf } from './tab-piece.ts';
import { planRows } from './tab-rows.ts';
import { placeSlots, type Slot, stretchFor } from './tab-spacing.ts';
import { textWidth } from './text-width.ts';

/** One line of bars, drawn. */
export interface System {
  readonly drawing: Drawing;
  /** What the marked groups of the drawing stand for, by their index. */
  readonly places: readonly Source[];
  readonly signs: readonly Sign[];
}

export interface SystemsRequest {
  readonly widthMm: number;
  /** Names of the open strings in chart order, printed before the first line. */
  readonly stringNames?: readonly string[];
  /** Most bars in one line. */
  readonly mostBars?: number;
}

/** Lays out one time through an exercise as lines of bars that fill the width. */
export function systemsOf(score: ExerciseScore, pass: Pass, request: SystemsRequest): readonly System[] {
  const staff = staffOf(score.stringCount);
  const look = { staff, mixed: isMixed(pass) };
  const ready = pass.bars.map((bar) => readyBar(bar, look));
  const breaks = evenBreaks(ready, request, staff);
  const systems: System[] = [];
  let stretchBefore: number | undefined;
  breaks.forEach((first, index) => {
    const names = first === 0 ? request.stringNames : undefined;
    const count = (breaks[index + 1] ?? ready.length) - first;
    const line = lineOf(ready, first, count, staff);
    const isLast = first + count === ready.length;
    const cap = isLast ? lastStretch(stretchBefore) : STRETCH.most;
    const stretch = stretchFor(line.slots, request.widthMm - namesWidth(names), cap);
    systems.push(
      drawSystem(line, stretch, staff, { width: request.widthMm, ...(names === undefined ? {} : { names }) }),
    );
    stretchBefore = stretch;
  });
  return systems;
}

/** The last line is not stretched thin: not more than a set measure, and hardly more than the line before it. */
function lastStretch(before: number | undefined): number {
  return Math.min(STRETCH.lastLine, Math.max(1, (before ?? 1) * STRETCH.lastAgainstBefore));
}

/** Indexes of the bars that begin a line: as few lines as bars in comfort allow, and the bars shared out among them. */
function evenBreaks(ready: readonly ReadyBar[], request: SystemsRequest, staff: Staff): readonly number[] {
  const most = request.mostBars ?? Number.POSITIVE_INFINITY;
  const fewest = lineBreaks(ready, request, staff, most);
  if (fewest.length < 2) return fewest;
  const shared = lineBreaks(ready, request, staff, Math.min(most, Math.ceil(ready.length / fewest.length)));
  return shared.length === fewest.length ? shared : fewest;
}

function lineBreaks(
  ready: readonly ReadyBar[],
  request: SystemsRequest,
  staff: Staff,
  most: number,
): readonly number[] {
  const breaks: number[] = [];
  for (let first = 0; first < ready.length; ) {
    breaks.push(first);
    const width = request.widthMm - namesWidth(first === 0 ? request.stringNames : undefined);
    let count = 1;
    while (
      count < Math.min(most, ready.length - first) &&
      placeSlots(lineOf(ready, first, count + 1, staff).slots, STRETCH.comfortable).width <= width
    )
      count++;
    first += count;
  }
  return breaks;
}

/** Tune notes are told apart only where there is something to tell them apart from. */
function isMixed(pass: Pass): boolean {
  let tune = false;
  let accompaniment = false;
  for (const bar of pass.bars) {
    for (const event of bar.events) {
      if ('layer' in event && event.layer === 'tune') tune ||= event.kind === 'notes';
      else if (event.kind !== 'stop' && event.kind !== 'held') accompaniment = true;
    }
  }
  return tune && accompaniment;
}

/** A line of bars as one row of slots, with the indexes of the slots where each bar begins and ends. */
interface Line {
  readonly slots: readonly Slot[];
  readonly bars: readonly {
    readonly ready: ReadyBar;
    readonly start: number;
    readonly end: number;
    readonly firstColumn: number;
  }[];
}

function lineOf(ready: readonly ReadyBar[], first: number, count: number, staff: Staff): Line {
  const slots: Slot[] = [];
  const bars: { ready: ReadyBar; start: number; end: number; firstColumn: number }[] = [];
  const opening = ready[first];
  if (opening !== undefined) {
    // A line begins with a plain stroke, or with the repeat that begins there.
    const opens = opening.bar.opens === ':|:' ? '|:' : opening.bar.opens === ':|' ? undefined : opening.bar.opens;
    const before = ready[first - 1]?.bar.closes;
    const begins = before === ':|:' || before === '|:' ? '|:' : opens;
    slots.push({
      rigid: 0,
      spring: 0,
      pieces: [
        barLinePiece(staff, { last: false, ...(begins === '|:' ? { opens: begins } : {}) }),
        ...numberPiece(opening.bar),
      ],
    });
  }
  for (let index = first; index < first + count; index++) {
    const bar = ready[index];
    if (bar === undefined) continue;
    const start = slots.length - 1;
    slots.push(...bar.slots);
    const next = index + 1 < first + count ? ready[index + 1] : undefined;
    const closes =
      next === undefined && bar.bar.closes === ':|:'
        ? ':|'
        : next === undefined && bar.bar.closes === '|:'
          ? '|'
          : bar.bar.closes;
    const opens = next?.bar.opens;
    const boundary = { closes, last: index === ready.length - 1, ...(opens === undefined ? {} : { opens }) };
    slots.push({
      rigid: 0,
      spring: bar.closingSpring,
      pieces: [barLinePiece(staff, boundary), ...timesPiece(bar.bar)],
    });
    bars.push({ ready: bar, start, end: slots.length - 1, firstColumn: start + 1 });
  }
  return { slots, bars };
}

function numberPiece(bar: ScoreBar): readonly Piece[] {
  if (bar.number === undefined || bar.number === 1) return [];
  const text = String(bar.number);
  const size = SIZES.small;
  return [
    {
      row: 'name',
      left: 0,
      right: Math.max(0, textWidth(text, 'number', size) - SIZES.clearance.name / 2),
      items: [{ kind: 'text', x: 0, y: 0, text, size, anchor: 'start', role: 'number', ink: 'soft' }],
    },
  ];
}

/** How often in all, over the repeat sign. */
function timesPiece(bar: ScoreBar): readonly Piece[] {
  if (bar.times === undefined) return [];
  const text = `×${bar.times}`;
  const size = SIZES.count;
  const width = textWidth(text, 'number', size);
  return [
    {
      row: 'name',
      left: width,
      right: 0,
      items: [{ kind: 'text', x: 0, y: 0, text, size, anchor: 'end', role: 'number', ink: 'strong' }],
    },
  ];
}

function namesWidth(names: readonly string[] | undefined): number {
  return names === undefined ? 0 : Math.max(...names.map((name) => textWidth(name, 'count', SIZES.count))) + 1.2;
}

function drawSystem(
  { slots, bars }: Line,
  stretch: number,
  staff: Staff,
  page: { readonly width: number; readonly names?: readonly string[] },
): System {
  const { xs, width } = placeSlots(slots, stretch);
  const pieces = slots.flatMap((slot) => slot.pieces);
  const endings = bars.some(({ ready }) => ready.bar.ending !== undefined);
  const rows = planRows(pieces, endings ? ['ending'] : [], staff);
  const left = namesWidth(page.names);
  const at = (index: number): number => left + (xs[index] ?? 0);
  const right = left + width;
  const places: Source[] = [];
  const items: Item[] = [stringLines(slots, xs, left, right, rows.staffTop, staff)];
  if (page.names !== undefined) items.push(...stringNames(page.names, rows.staffTop, staff));

  const boundaries = new Set([0, ...bars.map((bar) => bar.end)]);
  slots.forEach((slot, index) => {
    if (boundaries.has(index)) items.push(...placePieces(slot.pieces, at(index), rows.y));
  });
  for (const bar of bars) {
    const content: Item[] = [];
    for (let index = bar.start + 1; index < bar.end; index++) {
      const slot = slots[index];
      if (slot !== undefined)
        content.push(
          ...placePieces(
            slot.pieces.filter((piece) => piece.row !== 'name'),
            at(index),
            rows.y,
          ),
        );
    }
    const area = { x: at(bar.start), y: 0, width: at(bar.end) - at(bar.start), height: rows.height };
    items.push(group(0, 0, content, { place: places.length, alternative: describeBar(bar.ready.bar), area }));
    places.push(bar.ready.source);
  }
  // Names come after the bars, so that a click on a name is one on the chord.
  for (const bar of bars) {
    for (const name of bar.ready.names) {
      const area = { x: -name.left, y: -SIZES.chordName, width: name.left + name.right, height: SIZES.chordName * 1.2 };
      const { chord } = name.chord;
      const alternative = chord === undefined ? 'No chord' : `Chord ${spokenChordName(chord.name)}`;
      items.push(
        group(at(bar.firstColumn + name.slot), rows.y('name'), name.items, { place: places.length, alternative, area }),
      );
      places.push(name.chord.source);
    }
    items.push(...endingBracket(bar.ready.bar, at(bar.start), at(bar.end), rows.y('ending')));
  }
  const scale = right > page.width ? Math.max(SIZES.leastScale, page.width / right) : 1;
  const drawing: Drawing = {
    width: right,
    height: rows.height,
    items,
    alternative: describeLine(bars.map(({ ready }) => ready.bar)),
    scale,
  };
  return { drawing, places, signs: pieces.flatMap((piece) => piece.signs ?? []) };
}

function placePieces(pieces: readonly Piece[], x: number, y: (row: Row) => number): readonly Item[] {
  return pieces.map((piece) => group(x, y(piece.row), piece.items));
}

/** All string lines as one path, left open where something stands on them. */
function stringLines(
  slots: readonly Slot[],
  xs: readonly number[],
  left: number,
  right: number,
  top: number,
  staff: Staff,
): Item {
  const gaps: { readonly from: number; readonly to: number }[][] = Array.from({ length: staff.stringCount }, () => []);
  slots.forEach((slot, index) => {
    const middle = left + (xs[index] ?? 0);
    for (const piece of slot.pieces) {
      for (const opening of piece.openings ?? []) {
        gaps[opening.string - 1]?.push({ from: middle + opening.left, to: middle + opening.right });
      }
    }
  });
  const steps = gaps.flatMap((ofString, index): readonly PathStep[] => {
    const y = top + staff.y(index + 1);
    const drawn: PathStep[] = [];
    let x = left;
    for (const { from, to } of ofString.sort((a, b) => a.from - b.from)) {
      if (from > x) drawn.push(['M', x, y], ['L', from, y]);
      x = Math.max(x, to);
    }
    if (right > x) drawn.push(['M', x, y], ['L', right, y]);
    return drawn;
  });
  return { kind: 'path', steps, ink: 'soft', thickness: SIZES.stringThickness };
}

function stringNames(names: readonly string[], top: number, staff: Staff): readonly Item[] {
  return names.map((text, index): Item => {
    const y = top + staff.y(names.length - index) + SIZES.count * 0.34;
    return { kind: 'text', x: 0, y, text, size: SIZES.count, anchor: 'start', role: 'count', ink: 'soft' };
  });
}

/** A bracket over the bars of an ending: closed at the left where it begins, at the right where the music turns back. */
function endingBracket({ ending }: ScoreBar, left: number, right: number, baseline: number): readonly Item[] {
  if (ending === undefined) return [];
  const top = baseline - 2.7;
  const foot = baseline + 0.7;
  const from = ending.begins ? left + 0.5 : left;
  const to = ending.ends ? right - 0.5 : right;
  const items: Item[] = [line(from, top, to, top, SIZES.barLineThickness)];
  if (ending.begins) {
    items.push(line(from, top - SIZES.barLineThickness / 2, from, foot, SIZES.barLineThickness));
    const text = `${ending.numbers.join('. ')}.`;
    items.push({
      kind: 'text',
      x: from + 0.9,
      y: baseline,
      text,
      size: SIZES.small,
      anchor: 'start',
      role: 'number',
      ink: 'strong',
    });
  }
  if (ending.ends) items.push(line(to, top - SIZES.barLineThickness / 2, to, foot, SIZES.barLineThickness));
  return items;
}

function describeLine(bars: readonly ScoreBar[]): string {
  const numbers = bars.flatMap((bar) => (bar.number === undefined ? [] : [bar.number]));
  const [first] = numbers;
  const last = numbers.at(-1);
  if (first === undefined) return 'Pickup';
  return first === last ? `Bar ${first}` : `Bars ${first} to ${last}`;
}
