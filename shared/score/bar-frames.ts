import { endingsOf } from '../lesson/model/bar-endings.ts';
import { type PlannedBar, planBars } from '../lesson/model/bar-plan.ts';
import { resolveChord } from '../lesson/model/chords.ts';
import type { Scope } from '../lesson/model/scope.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import type { ProgressionStatement } from '../lesson/syntax/statement.ts';
import type { ChordName } from '../lesson/syntax/words.ts';
import { barLength, type Meter, printMeter } from '../theory/meter.ts';
import { type Rational, rational, times, ZERO } from '../theory/rational.ts';
import type { ScoreBar, ScoreChord, ScoreSyllable, Source } from './timeline.ts';

/** A bar before patterns are played in it: all of a score's bar but what the right hand and the voice do. */
export type BarFrame = Omit<ScoreBar, 'counts' | 'events' | 'calls'>;

/** The written bars of progressions, one after another, numbered through. `entryOf` a progression must be known to the scope. */
export function framesOfProgressions(
  scope: Scope,
  progressions: readonly ProgressionStatement[],
  meter: Meter,
): readonly BarFrame[] {
  const frames: BarFrame[] = [];
  let number = 1;
  for (const progression of progressions) {
    const entry = scope.entryOf(progression);
    if (entry === undefined) continue;
    const planned = planBars(progression, meter);
    const endings = endingsOf(planned);
    planned.forEach((bar, index) => {
      const before = frames.at(-1);
      const frame = frameOf(scope, progression, entry, bar, before);
      const ending = endings[index];
      frames.push({
        ...frame,
        ...(bar.number === undefined ? {} : { number: number++ }),
        ...(ending === undefined ? {} : { ending }),
      });
    });
  }
  return frames;
}

function frameOf(
  scope: Scope,
  progression: ProgressionStatement,
  entry: Entry,
  planned: PlannedBar,
  before: BarFrame | undefined,
): BarFrame {
  const { bar, meter, length } = planned;
  const same = bar.items.length === 1 && bar.items[0]?.kind === 'same';
  const opens = bar.opens?.text;
  const closes = bar.closes?.text;
  return {
    meter,
    showsMeter: before === undefined || printMeter(before.meter) !== printMeter(meter),
    length,
    opens: opens?.endsWith(':') === true ? '|:' : undefined,
    closes: closes?.startsWith(':') === true ? ':|' : closes === '||' ? '||' : '|',
    ...(bar.times === undefined ? {} : { times: bar.times }),
    same,
    chords: same ? (before?.chords ?? []) : chordsOf(scope, entry, planned),
    syllables: syllablesOf(progression, planned),
    source: { entry, span: barSpan(planned) },
  };
}

/** The bar's own words, without the blanks around them. */
function barSpan({ bar }: PlannedBar): Source['span'] {
  const first = bar.ending?.span ?? bar.meter?.span ?? bar.items[0]?.span ?? bar.span;
  const last = bar.items.at(-1)?.span ?? first;
  return { start: Math.min(first.start, last.start), end: last.end };
}

function chordsOf(scope: Scope, entry: Entry, { items }: PlannedBar): readonly ScoreChord[] {
  return items.flatMap(({ item, at, length }): ScoreChord[] => {
    if (item.kind === 'silence') return [{ at, length, source: { entry, span: item.span } }];
    if (item.kind !== 'chord') return []; // The chord before goes on.
    const chord = resolveChord(scope, item.chord);
    return chord === undefined ? [] : [{ at, length, chord, source: { entry, span: item.span } }];
  });
}

/** Syllables share their bar evenly; `_` holds the one before. */
function syllablesOf(progression: ProgressionStatement, planned: PlannedBar): readonly ScoreSyllable[] {
  const rows = progression.lines[planned.line]?.words ?? [];
  return rows.flatMap((row) => {
    const words = row.bars[planned.indexInLine] ?? [];
    return words.flatMap((word, index): ScoreSyllable[] =>
      word.text === '_'
        ? []
        : [{ at: times(planned.length, rational(index, words.length)), text: word.text, verse: row.verse }],
    );
  });
}

/** Bars for one chord of an `over` list: as many as the longest pattern needs. */
export function framesOfChord(
  scope: Scope,
  chord: ChordName,
  source: Source,
  length: Rational,
  meter: Meter,
  first: number,
  showsMeter: boolean,
): readonly BarFrame[] {
  const full = barLength(meter);
  const count = Math.max(1, Math.ceil((length.numerator * full.denominator) / (length.denominator * full.numerator)));
  const resolved = resolveChord(scope, chord);
  return Array.from({ length: count }, (_, index) => ({
    number: first + index,
    meter,
    showsMeter: showsMeter && index === 0,
    length: full,
    opens: undefined,
    closes: index === count - 1 ? '||' : '|',
    same: false,
    chords:
      index === 0 && resolved !== undefined
        ? [{ at: ZERO, length: times(full, rational(count)), chord: resolved, source }]
        : [],
    syllables: [],
    source,
  }));
}
