import { Remembered } from '../text/remembered.ts';
import { barLength } from '../theory/meter.ts';
import { compare, leastCommonMultiple, minus, plus, type Rational, rational, times, ZERO } from '../theory/rational.ts';
import { barTree, type Stretch } from './bar-tree.ts';
import { type BeamNote, beamsOf } from './beams.ts';
import { type LineSound, soundsOfLine } from './line-sounds.ts';
import type { Beam, RhythmEntry, RhythmLine, Tuplet } from './rhythm-line.ts';
import type { ScoreBar } from './timeline.ts';
import { type TupletSpan, tupletSpansOf } from './tuplet-spans.ts';
import { inTimeOf, piecesInTuplet } from './tuplet-values.ts';
import { notesFor, restsFor, type WrittenPiece } from './written-values.ts';

/** How the bar is written as rhythm: one line or two, or the rest of an empty bar. Silence is left out where the other line sounds. */
export function rhythmOf(bar: ScoreBar): readonly RhythmLine[] {
  const lines = (['above', 'below'] as const).flatMap((side): readonly RhythmLine[] => {
    const sounds = soundsOfLine(bar, side);
    return sounds.some(({ kind }) => kind !== 'rest') ? [keptLine(bar, side, sounds)] : [];
  });
  if (lines.length > 0) return lines;
  if (compare(bar.length, barLength(bar.meter)) !== 0) return [keptLine(bar, 'below', soundsOfLine(bar, 'below'))];
  const rest = {
    at: ZERO,
    length: bar.length,
    kind: 'rest',
    value: 1,
    dots: 0,
    tiedOn: false,
    wholeBar: true,
  } as const;
  return [{ side: 'below', entries: [rest], beams: [], tuplets: [] }];
}

// Most bars of a lesson share a few rhythms, whatever is fretted in them, and values never change: each is worked out once.
const kept = new Remembered<string, RhythmLine>(4000);

function keptLine(bar: ScoreBar, side: RhythmLine['side'], sounds: readonly LineSound[]): RhythmLine {
  const { meter, number, length, counts } = bar;
  let name = `${side} ${meter.counts}/${meter.unit} ${number === undefined} ${length.numerator}/${length.denominator}`;
  for (const { at, length: sounding, kind, goesOn, slurred } of sounds)
    name += ` ${kind}${at.numerator}/${at.denominator}+${sounding.numerator}/${sounding.denominator}${goesOn}${slurred}`;
  for (const { at, text } of counts) name += ` ${text}@${at.numerator}/${at.denominator}`;
  return kept.get(name, () => lineOf(bar, side, sounds));
}

/** Shortest value that is written without a tuplet: a 64th, which may have a dot. */
const TICKS_OF_WHOLE = 128;

function lineOf(bar: ScoreBar, side: RhythmLine['side'], sounds: readonly LineSound[]): RhythmLine {
  const full = barLength(bar.meter);
  // A pickup is the end of a bar.
  const offset = bar.number === undefined && compare(bar.length, full) < 0 ? minus(full, bar.length) : ZERO;
  const said = saidSplits(bar);
  const times = [offset, bar.length, ...sounds.map(({ at }) => at), ...bar.counts.map(({ at }) => at)];
  const parts = said.map(({ part }) => part);
  const wholeTicks = [...times, ...parts].reduce(
    (ticks, { denominator }) => leastCommonMultiple(ticks, denominator),
    TICKS_OF_WHOLE,
  );
  const ticks = (time: Rational): number => (time.numerator * wholeTicks) / time.denominator;
  const from = ticks(offset);
  const barEnd = from + ticks(bar.length);
  const tree = barTree(bar.meter, barEnd, wholeTicks);
  const splits = said.map(({ at, part, count }) => {
    const start = from + ticks(at);
    return { start, end: start + count * ticks(part), parts: count };
  });
  const grid = wholeTicks / 64;
  const spans = tupletSpansOf(
    tree,
    [...sounds.map(({ at }) => from + ticks(at)), barEnd],
    splits.filter(({ start, end }) => start % grid === 0 && end % grid === 0 && end <= barEnd),
    bar.counts.map(({ at }) => from + ticks(at)),
    grid,
  );

  const entries: RhythmEntry[] = [];
  const notes: BeamNote[] = [];
  for (const { at, length, kind, goesOn, slurred } of sounds) {
    const start = from + ticks(at);
    const end = start + ticks(length);
    const pieces = writtenPieces(tree, spans, start, end, kind === 'rest', wholeTicks);
    for (const piece of pieces) {
      const isFirst = piece.start === start;
      notes.push({ ...piece, isRest: kind === 'rest' });
      entries.push({
        at: rational(piece.start - from, wholeTicks),
        length: rational(piece.end - piece.start, wholeTicks),
        kind: kind === 'attack' && !isFirst ? 'tied' : kind,
        value: piece.value,
        dots: piece.dots,
        tiedOn: kind !== 'rest' && (piece.end < end || goesOn),
        ...(slurred && isFirst ? { slurredFrom: true as const } : {}),
      });
    }
  }
  const beams = beamsOf(notes, tree, spans, wholeTicks);
  return { side, entries, beams, tuplets: spans.map((span) => tupletOf(span, notes, beams, wholeTicks)) };
}

/** Pieces between the tuplets by the meter, inside them in their parts. */
function writtenPieces(
  tree: Stretch,
  spans: readonly TupletSpan[],
  start: number,
  end: number,
  isRest: boolean,
  wholeTicks: number,
): readonly WrittenPiece[] {
  const pieces: WrittenPiece[] = [];
  let at = start;
  while (at < end) {
    const here = at;
    const span = spans.find((candidate) => candidate.end > here);
    const isInside = span !== undefined && span.start <= here;
    const until = Math.min(end, isInside ? span.end : (span?.start ?? end));
    if (isInside) pieces.push(...piecesInTuplet(span, here, until, isRest, wholeTicks));
    else pieces.push(...(isRest ? restsFor : notesFor)(tree, here, until, wholeTicks));
    at = until;
  }
  return pieces;
}

function tupletOf(span: TupletSpan, notes: readonly BeamNote[], beams: readonly Beam[], wholeTicks: number): Tuplet {
  const first = notes.findIndex(({ start }) => start >= span.start);
  const last = notes.findLastIndex(({ end }) => end <= span.end);
  const bracket = !beams.some((beam) => beam.first === first && beam.last === last);
  return { first, last, count: span.count, inTimeOf: inTimeOf(span, wholeTicks), bracket };
}

/** How the count says that its numbers are split, with the length of a part. */
function saidSplits(
  bar: ScoreBar,
): readonly { readonly at: Rational; readonly part: Rational; readonly count: number }[] {
  const { counts } = bar;
  const numbered = counts.flatMap(({ text }, index) => (/^\d/.test(text) ? [index] : []));
  return numbered.flatMap((index, place) => {
    const next = numbered[place + 1];
    const columns = counts.slice(index, next).map(({ at }) => at);
    const [at, second] = columns;
    if (at === undefined || second === undefined) return [];
    const part = minus(second, at);
    const isEven = columns.every((column, step) => compare(column, plus(at, times(part, rational(step)))) === 0);
    const end = plus(at, times(part, rational(columns.length)));
    const isWhole = next === undefined || compare(end, counts[next]?.at ?? end) === 0;
    return isEven && isWhole ? [{ at, part, count: columns.length }] : [];
  });
}
