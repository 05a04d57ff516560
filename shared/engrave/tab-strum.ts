import type { ScoreBar, ScoreEvent } from '../score/timeline.ts';
import { compare } from '../theory/rational.ts';
import { SIZES } from './sizes.ts';
import type { Piece, Sign, Staff } from './tab-piece.ts';
import { dampedHeads, strokeArrow } from './tab-signs.ts';
import { figureAt } from './tab-technique.ts';
import { textPiece } from './tab-text.ts';
import { textWidth } from './text-width.ts';

/** The frets stand beside the first stroke of each chord; after that the arrow alone is easier to follow. */
export function isFirstOfChord(bar: ScoreBar, strum: ScoreEvent): boolean {
  const chord = bar.chords.filter((candidate) => compare(candidate.at, strum.at) <= 0).at(-1);
  const from = chord?.at ?? { numerator: 0, denominator: 1 };
  return !bar.events.some(
    (event) =>
      event.kind === 'strum' && !event.damped && compare(event.at, from) >= 0 && compare(event.at, strum.at) < 0,
  );
}

/** From the arrow's middle to that of the frets or crosses beside it. */
const BESIDE_MM = 2.7;

/** A stroke over the strings with its letter, and the frets beside it or crosses where it is damped. Strings that the tune has are left to it. */
export function strumPieces(
  event: Extract<ScoreEvent, { kind: 'strum' }>,
  showsFrets: boolean,
  staff: Staff,
  sung: ReadonlySet<number>,
): readonly Piece[] {
  const numbers = event.notes.map((note) => note.string);
  const range =
    numbers.length === 0 ? ([1, staff.stringCount] as const) : ([Math.min(...numbers), Math.max(...numbers)] as const);
  const arrow = strokeArrow(staff, { ...event, strings: range });
  const stroke: Sign = event.direction === 'down' ? 'down-stroke' : 'up-stroke';
  const signs: Sign[] = [stroke];
  if (event.slow) signs.push('slow-stroke');
  if (event.light) signs.push('light-stroke');
  if (range[1] - range[0] + 1 < staff.stringCount) signs.push('partial-stroke');
  const letter = event.direction === 'down' ? 'D' : 'U';
  const hand = textPiece('finger', event.light ? `(${letter})` : letter, SIZES.count * 0.9, 'word');
  const half = 1.15;
  if (event.damped) {
    const strings = numbers.length > 0 ? numbers : Array.from({ length: staff.stringCount }, (_, index) => index + 1);
    const heads = dampedHeads(staff, strings, -BESIDE_MM + 0.5);
    signs.push('damped-stroke');
    return [
      {
        row: 'staff',
        left: BESIDE_MM + 0.6,
        right: half,
        items: [...heads.items, ...arrow],
        openings: heads.openings,
        signs,
      },
      hand,
    ];
  }
  if (!showsFrets) return [{ row: 'staff', left: half, right: half, items: arrow, signs }, hand];
  const shown = event.notes.filter(({ string }) => !sung.has(string));
  const widest = Math.max(0, ...shown.map((note) => textWidth(String(note.fret), 'number', SIZES.fretNumber)));
  const x = -half - 0.55 - widest / 2;
  const frets = shown.map((note) => figureAt(String(note.fret), x, staff.y(note.string), SIZES.fretNumber, false));
  const openings = shown.map(({ string, fret }) => {
    const open = textWidth(String(fret), 'number', SIZES.fretNumber) / 2 + SIZES.openString;
    return { string, left: x - open, right: x + open };
  });
  return [
    {
      row: 'staff',
      left: -x + widest / 2 + SIZES.openString,
      right: half,
      items: [...frets, ...arrow],
      openings,
      signs,
    },
    hand,
  ];
}
