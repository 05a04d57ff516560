import type { Beam, RhythmEntry, RhythmLine, Tuplet } from '../score/rhythm-line.ts';
import { group, type Item, line, type PathStep } from './drawing.ts';
import { bow } from './outlines.ts';
import { SIZES } from './sizes.ts';
import type { Piece, Row, Sign } from './tab-piece.ts';
import { type MusicSignName, type SizedSign, sizedSign } from './type/music-sign.ts';

// Rhythm beside the staff: stems hang from its last string, or rise from its first where a tune is written over an accompaniment.
// All stems of a side end at one height, so beams are level and the eye reads them as a ruler of the bar.

const R = SIZES.rhythm;

/** The row that a side's stems stand in. Its baseline is the edge turned to the staff. */
export function rhythmRow(side: RhythmLine['side']): Row {
  return side === 'above' ? 'rhythm-above' : 'rhythm-below';
}

function awayFromStaff(side: RhythmLine['side']): 1 | -1 {
  return side === 'above' ? -1 : 1;
}

/** How long the stem of a written value is: none for a whole note, half of it for a half note. Common practice of tablature, no source. */
function stemLength(value: RhythmEntry['value']): number {
  if (value === 1) return 0;
  return value === 2 ? R.shortStem : R.stem;
}

const flag = (name: MusicSignName): SizedSign => sizedSign(name, R.signSpace);

/** Flags by value, as the music face has them for stems that rise or hang. */
const FLAGS: Readonly<Record<RhythmLine['side'], Partial<Record<RhythmEntry['value'], SizedSign>>>> = {
  above: { 8: flag('flag8thUp'), 16: flag('flag16thUp'), 32: flag('flag32ndUp'), 64: flag('flag64thUp') },
  below: { 8: flag('flag8thDown'), 16: flag('flag16thDown'), 32: flag('flag32ndDown'), 64: flag('flag64thDown') },
};

/** Stem, flags and dots of a sounding entry. Flags are left out where a beam takes their place. */
export function stemPiece(
  side: RhythmLine['side'],
  entry: Pick<RhythmEntry, 'kind' | 'value' | 'dots'>,
  beamed: boolean,
): Piece {
  const away = awayFromStaff(side);
  const length = stemLength(entry.value);
  const items: Item[] = [];
  const signs: Sign[] = [];
  let right: number = R.stemThickness;
  if (length > 0) items.push(line(0, 0, 0, away * length, R.stemThickness));
  if (entry.kind === 'tied') signs.push('held');
  if (entry.value === 2) signs.push('half-note-stem');
  if (entry.value === 1) signs.push('whole-note');
  const flag = beamed ? undefined : FLAGS[side][entry.value];
  if (flag !== undefined) {
    items.push(group(-R.stemThickness / 2, away * length, [flag.item]));
    right = flag.right;
  }
  for (let dot = 0; dot < entry.dots; dot += 1) {
    const x = R.dotFrom + dot * R.dotStep;
    items.push({ kind: 'circle', x, y: away * R.dotLevel, radius: R.dotRadius, ink: 'strong' });
    right = Math.max(right, x + R.dotRadius);
  }
  return { row: rhythmRow(side), left: R.stemThickness, right, items, height: R.stem + R.beyond, signs };
}

/** Where each entry of a line stands along the music. Unit: mm. */
export type EntryPlace = (entry: number) => number;

/** Beams of one line of rhythm, from stem to stem. Counted from the row's baseline. */
export function beamItems(side: RhythmLine['side'], beams: readonly Beam[], at: EntryPlace): readonly Item[] {
  const away = awayFromStaff(side);
  const half = R.stemThickness / 2;
  return beams.flatMap((beam) => {
    const first = level(at(beam.first) - half, at(beam.last) + half, away * R.stem, away);
    const further = beam.segments
      .filter((segment) => segment.level > 1)
      .map(({ level: depth, first, last, stub }) => {
        const y = away * (R.stem - (depth - 1) * R.beamStep);
        if (stub === undefined) return level(at(first) - half, at(last) + half, y, away);
        return stub === 'left'
          ? level(at(first) - R.stub, at(first) + half, y, away)
          : level(at(first) - half, at(first) + R.stub, y, away);
      });
    return [first, ...further];
  });
}

/** A beam whose outer edge lies at `y`. */
function level(x1: number, x2: number, y: number, away: 1 | -1): Item {
  const top = away > 0 ? y - R.beam : y;
  return { kind: 'rectangle', x: x1, y: top, width: x2 - x1, height: R.beam, rounding: 0, ink: 'strong' };
}

/** Figures of tuplets beyond the beams, with a bracket where no single beam holds the group together. */
export function tupletItems(side: RhythmLine['side'], tuplets: readonly Tuplet[], at: EntryPlace): readonly Item[] {
  const away = awayFromStaff(side);
  return tuplets.flatMap((tuplet): readonly Item[] => {
    const from = at(tuplet.first) - 0.6;
    const to = at(tuplet.last) + 0.6;
    const middle = (from + to) / 2;
    const figure = tupletFigure(tuplet);
    const y = away * (R.stem + R.tupletLevel);
    const items: Item[] = [group(middle - figure.width / 2, y + figure.height / 2, figure.items)];
    if (!tuplet.bracket) return items;
    const open = figure.width / 2 + 0.7;
    const hook = y - away * 1;
    const bracket: PathItemSteps = [
      ['M', from, hook],
      ['L', from, y],
      ['L', Math.max(from, middle - open), y],
      ['M', Math.min(to, middle + open), y],
      ['L', to, y],
      ['L', to, hook],
    ];
    return [...items, { kind: 'path', steps: bracket, ink: 'strong', thickness: R.bracketThickness }];
  });
}

type PathItemSteps = readonly PathStep[];

/** Keeps the room that the figure of a tuplet needs beyond the stems. */
export function tupletRoom(side: RhythmLine['side']): Piece {
  const height = R.stem + R.beyondTuplet;
  return { row: rhythmRow(side), left: 0, right: 0, items: [], height, signs: ['tuplet'] };
}

/** A triplet is a plain 3; what is not the usual number in its space says both: 2:3. Common practice, no source. */
function tupletFigure({ count, inTimeOf }: Tuplet): {
  readonly items: readonly Item[];
  readonly width: number;
  readonly height: number;
} {
  const usual = 2 ** Math.floor(Math.log2(count));
  const text = inTimeOf === usual ? String(count) : `${count}:${inTimeOf}`;
  let width = 0;
  let height = 0;
  const items = [...text].map((letter) => {
    const sign = sizedSign(letter === ':' ? 'tupletColon' : (DIGITS[Number(letter)] ?? 'tuplet0'), R.tupletSpace);
    const item = group(width, 0, [sign.item]);
    width += sign.advance + R.tupletGap;
    height = Math.max(height, -sign.top);
    return item;
  });
  return { items, width: width - R.tupletGap, height };
}

const DIGITS = [
  'tuplet0',
  'tuplet1',
  'tuplet2',
  'tuplet3',
  'tuplet4',
  'tuplet5',
  'tuplet6',
  'tuplet7',
  'tuplet8',
  'tuplet9',
] as const;

/** A tie along the staff's edge: the sound goes on. Counted from the row's baseline. */
export function tieItem(side: RhythmLine['side'], from: number, to: number): Item {
  const away = awayFromStaff(side);
  const steps = bow(from, to, away * R.tieLevel, { rise: away * R.tieRise, thickness: R.tieThickness, inset: 1.6 });
  return { kind: 'path', steps, ink: 'strong' };
}

/** How far behind an entry's place a tie may begin: a dot or a flag comes first. Unit: mm. */
export function tieLeaves(side: RhythmLine['side'], entry: RhythmEntry, beamed: boolean): number {
  const flag = beamed ? undefined : FLAGS[side][entry.value];
  const behindFlag = flag === undefined ? 0 : flag.right + 0.2;
  return Math.max(behindFlag, entry.dots > 0 ? R.dotFrom + entry.dots * R.dotStep : R.tieGap);
}
export const TIE_ARRIVES_MM = -R.tieGap;
