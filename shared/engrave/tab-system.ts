import { withRepeatTies } from '../score/repeat-ties.ts';
import type { ExerciseScore, Pass, ScoreBar, Source } from '../score/timeline.ts';
import { describeBar } from './bar-text.ts';
import { lastStretch, mostToFill } from './best-breaks.ts';
import { spokenChordName } from './chord-name.ts';
import { type Drawing, group, type Item, line, type PathStep } from './drawing.ts';
import { firstMeetings, toldStarts } from './first-told.ts';
import { createKeptPieces, type KeptPieces } from './kept-pieces.ts';
import { evenBreaks } from './line-breaks.ts';
import { SIZES, STRETCH } from './sizes.ts';
import { splitWideBars } from './split-bar.ts';
import { readyBar } from './tab-bar.ts';
import { type Line, type LinesRequest, lineOf, namesWidth } from './tab-line.ts';
import { type Piece, type Row, type Sign, type Staff, staffOf } from './tab-piece.ts';
import { wholeBarRest } from './tab-rest.ts';
import { planRows } from './tab-rows.ts';
import { slursInBar } from './tab-slurs.ts';
import { placeSlots, type Slot, stretchFor } from './tab-spacing.ts';
import { type PlacedBar, spansInBar, tiesOverBars } from './tab-spans.ts';
import { type Pace, pacePiece } from './tab-tempo.ts';
import { hyphensOf } from './tab-words.ts';

/** One line of bars, drawn. */
export interface System {
  readonly drawing: Drawing;
  /** What the marked groups of the drawing stand for, by their index. */
  readonly places: readonly Source[];
  readonly signs: readonly Sign[];
}

/** What a pass of an exercise is laid out for. */
export interface SystemsRequest extends LinesRequest {
  /** False where its patterns were counted aloud before, further up on the sheet. */
  readonly counts?: boolean;
  /** Said over the first bar. */
  readonly pace?: Pace;
  /** Diagrams are mirrored. */
  readonly leftHanded?: boolean;
  /** What was drawn before; a memory of its own where none is given. */
  readonly pieces?: KeptPieces;
}

/** Lays out one time through an exercise as lines of bars that fill the width. */
export function systemsOf(score: ExerciseScore, pass: Pass, request: SystemsRequest): readonly System[] {
  const staff = staffOf(score.stringCount);
  const rhythm = pass.bars.some((bar) => bar.events.length > 0);
  const look = {
    staff,
    mixed: isMixed(pass),
    rhythm,
    counts: request.counts ?? true,
    leftHanded: request.leftHanded ?? false,
    kept: request.pieces ?? createKeptPieces(),
  };
  const met = firstMeetings(pass.bars);
  const starts = toldStarts(pass.bars);
  const ends = score.passes.at(-1) === pass ? pass.bars.length - 1 : undefined;
  const whole = withRepeatTies(pass.bars).map((bar, index) =>
    readyBar(index === ends ? ended(bar) : bar, { ...look, starts: starts[index] ?? [] }, met[index] ?? NONE, index),
  );
  const ready = splitWideBars(whole, request, staff);
  const breaks = evenBreaks(ready, request, staff);
  const systems: System[] = [];
  let stretchBefore: number | undefined;
  const spokenStrings = request.stringNames?.map(spokenChordName);
  breaks.forEach((first, index) => {
    const names = first === 0 ? request.stringNames : undefined;
    const count = (breaks[index + 1] ?? ready.length) - first;
    const line = lineOf(ready, first, count, staff);
    const pace = first === 0 && request.pace !== undefined ? pacePiece(request.pace) : undefined;
    const isLast = first + count === ready.length;
    const cap = isLast ? mostToFill(stretchBefore) : STRETCH.most;
    const filling = stretchFor(line.slots, request.widthMm - namesWidth(names), cap);
    const stretch = isLast ? lastStretch(filling, stretchBefore) : filling;
    systems.push(
      drawSystem(line, stretch, staff, {
        width: request.widthMm,
        ...(names === undefined ? {} : { names }),
        ...(pace === undefined ? {} : { pace }),
        spokenStrings,
        pass: pass.number ?? 1,
      }),
    );
    stretchBefore = stretch;
  });
  return systems;
}

/** The last bar of an exercise: it ends with a final bar line, whatever was typed, as music does. Common practice of engraving, no source. */
function ended(bar: ScoreBar): ScoreBar {
  return bar.closes === '|' ? { ...bar, closes: '||' } : bar;
}

const NONE: ReadonlySet<string> = new Set();

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

function drawSystem(
  { slots, bars }: Line,
  stretch: number,
  staff: Staff,
  page: {
    readonly width: number;
    readonly names?: readonly string[];
    readonly pace?: Piece;
    readonly spokenStrings: readonly string[] | undefined;
    readonly pass: number;
  },
): System {
  const { xs, width } = placeSlots(slots, stretch);
  const pieces = [...slots.flatMap((slot) => slot.pieces), ...(page.pace === undefined ? [] : [page.pace])];
  const endings = bars.some(({ ready }) => ready.bar.ending !== undefined);
  const rows = planRows(pieces, endings ? ['ending'] : [], staff);
  const left = namesWidth(page.names);
  const at = (index: number): number => left + (xs[index] ?? 0);
  const right = left + width;
  const widest = Math.max(right, left + (page.pace?.right ?? 0));
  const places: Source[] = [];
  const items: Item[] = [stringLines(slots, xs, left, right, rows.staffTop, staff)];
  if (page.names !== undefined) items.push(...stringNames(page.names, rows.staffTop, staff));
  if (page.pace !== undefined) items.push(placed(page.pace, left, rows.y));

  // Bar lines, and what stands before the first bar, belong to no bar.
  const firstStart = bars[0]?.start ?? 0;
  const boundaries = new Set(bars.map((bar) => bar.end));
  slots.forEach((slot, index) => {
    if (index > firstStart && !boundaries.has(index)) return;
    for (const piece of slot.pieces) items.push(placed(piece, at(index), rows.y));
  });
  const placedBars = bars.map(
    (bar): PlacedBar => ({
      ready: bar.ready,
      at: (slot) => at(bar.firstColumn + slot),
      left: at(bar.start),
      right: at(bar.end),
    }),
  );
  bars.forEach((bar, index) => {
    const content: Item[] = [];
    for (let index = bar.start + 1; index < bar.end; index++) {
      const x = at(index);
      for (const piece of slots[index]?.pieces ?? []) {
        if (piece.row !== 'name' && piece.row !== 'diagram') content.push(placed(piece, x, rows.y));
      }
    }
    const spans = placedBars[index];
    if (spans !== undefined) {
      content.push(...spansInBar(spans, rows.y), ...slursInBar(spans, rows.staffTop, staff));
      content.push(...centredRest(spans, rows.staffTop, staff));
    }
    const area = { x: at(bar.start), y: 0, width: at(bar.end) - at(bar.start), height: rows.height };
    const { bar: written, cut, moments } = bar.ready;
    const played = {
      kind: 'bar',
      pass: page.pass,
      bar: bar.ready.written,
      moments: moments.map((moment) => ({ at: moment.at, x: at(bar.firstColumn + moment.slot) })),
    } as const;
    const alternative = describeBar(written, { spokenStrings: page.spokenStrings, cut });
    items.push(group(0, 0, content, { place: places.length, alternative, area, played }));
    places.push(bar.ready.source);
  });
  items.push(...tiesOverBars(placedBars, rows.y), ...hyphensOf(slots, at, rows.y));
  // Names come after the bars, so that a click on a name is one on the chord.
  for (const bar of bars) {
    for (const name of bar.ready.names) {
      const area = { x: -name.left, y: -SIZES.chordName, width: name.left + name.right, height: SIZES.chordName * 1.2 };
      const { chord } = name.chord;
      const alternative = chord === undefined ? 'No chord' : `Chord ${spokenChordName(chord.name)}`;
      const held = name.diagram === undefined || chord === undefined ? {} : { held: chord.text };
      const played = { kind: 'name', pass: page.pass, bar: bar.ready.written, at: name.chord.at, ...held } as const;
      const drawn =
        name.diagram === undefined
          ? name.items
          : [...name.items, group(0, rows.y('diagram') - rows.y('name'), name.diagram)];
      items.push(
        group(at(bar.firstColumn + name.slot), rows.y('name'), drawn, {
          place: places.length,
          alternative,
          area,
          played,
        }),
      );
      places.push(name.chord.source);
    }
    items.push(...endingBracket(bar.ready.bar, at(bar.start), at(bar.end), rows.y('ending')));
  }
  const scale = widest > page.width ? Math.max(SIZES.leastScale, page.width / widest) : 1;
  const drawing: Drawing = {
    width: widest,
    height: rows.height,
    items,
    alternative: describeLine(bars.map(({ ready }) => ready.bar)),
    scale,
  };
  return { drawing, places, signs: pieces.flatMap((piece) => piece.signs ?? []) };
}

function centredRest({ ready, left, right }: PlacedBar, staffTop: number, staff: Staff): readonly Item[] {
  const empty = ready.rhythm.some(({ line }) => line.entries.some((entry) => entry.wholeBar === true));
  return empty ? [group((left + right) / 2, staffTop, wholeBarRest(staff))] : [];
}

function placed({ row, items, kept }: Piece, x: number, y: (row: Row) => number): Item {
  return kept === true ? { kind: 'group', x, y: y(row), items, shared: true } : group(x, y(row), items);
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
