import { type ChordChange, chordAt, withChanges } from '../lesson/model/chord-track.ts';
import { resolveChord } from '../lesson/model/chords.ts';
import { changesOf, type Placement, sounds, startsOf } from '../lesson/model/placements.ts';
import type { Scope } from '../lesson/model/scope.ts';
import type { Ring } from '../lesson/syntax/statement.ts';
import { compare, minus, plus, type Rational, ZERO } from '../theory/rational.ts';
import type { BarFrame } from './bar-frames.ts';
import { withEndingTies } from './ending-ties.ts';
import { heldOf, lasts } from './held-sounds.ts';
import { soundsOf } from './placed-events.ts';
import { upperVoiceOf } from './rhythm-sides.ts';
import { playsAt, runOn } from './running-on.ts';
import type { PatternStart, ScoreBar, ScoreChord, ScoreCount, ScoreEvent, ScoreSyllable } from './timeline.ts';
import { yieldToTune } from './tune-strings.ts';

/**
 * The bars with what patterns play in them. `ring` is what the exercise says of ringing strings; no sound goes on over `breaks`, times
 * in order from the start of the pass.
 */
export function barsOfPass(
  scope: Scope,
  frames: readonly BarFrame[],
  placements: readonly Placement[],
  ring: Ring | undefined,
  breaks: readonly Rational[],
): readonly ScoreBar[] {
  const starts = startsOf(frames);
  const written: ChordChange[] = frames.flatMap((frame, index) =>
    frame.chords.map((chord) => ({ at: plus(starts[index] ?? ZERO, chord.at), chord: chord.chord })),
  );
  const pushes = placements.flatMap((placement) =>
    changesOf(placement, ({ mark }) => (mark.kind === 'chord' ? resolveChord(scope, mark.chord) : undefined)),
  );
  const changes = withChanges(written, pushes);
  const { instrument } = scope.edition();
  const placed = placements.map((placement) => soundsOf(placement, changes, instrument, ring));
  const struck = placed.flatMap((sound) => sound.events).sort((a, b) => compare(a.event.at, b.event.at));
  const events = runOn(yieldToTune(struck), placements, changes, breaks);
  const counts = byBar(countsOf(placements), starts, ({ text }, at): ScoreCount => ({ at, text }));
  const syllable = ({ text, verse }: ScoreSyllable, at: Rational): ScoreSyllable => ({ at, text, verse });
  const syllables = byBar(
    placed.flatMap((sound) => sound.syllables),
    starts,
    syllable,
  );
  const calls = byBar(
    placed.flatMap((sound) => sound.calls),
    starts,
    syllable,
  );
  const cut = cutAtBars(events, starts, frames);
  const pushedChords = pushes
    .filter(({ at, chord }) => chordBefore(written, pushes, at)?.text !== chord?.text)
    .map(
      ({ at, chord, mark }): ScoreChord => ({
        at,
        length: ZERO,
        ...(chord === undefined ? {} : { chord }),
        source: { entry: mark.entry, span: mark.word.span },
      }),
    );
  const pushed = byBar(pushedChords, starts, (chord, at): ScoreChord => ({ ...chord, at }));
  const patternStarts = byBar(startsOfPatterns(placements), starts, ({ name }, at): PatternStart => ({ at, name }));
  const upperVoice = upperVoiceOf(events);
  const bars = frames.map((frame, index): ScoreBar => {
    const anew = patternStarts[index] ?? [];
    return {
      ...frame,
      chords: withPushes(frame, pushed[index] ?? []),
      counts: counts[index] ?? [],
      events: cut[index] ?? [],
      syllables: allWords(frame.syllables, syllables[index] ?? []),
      calls: calls[index] ?? [],
      ...(anew.length === 0 ? {} : { patternStarts: anew }),
      ...(upperVoice === undefined ? {} : { upperVoice }),
    };
  });
  return withEndingTies(bars, (layer, bar) => playsAt(placements, changes, layer, starts[bar] ?? ZERO));
}

/** What begins in each bar, in the order given, with its time counted from there. What begins after the last bar belongs to it. */
function byBar<T extends { readonly at: Rational }>(
  items: readonly T[],
  starts: readonly Rational[],
  at: (item: T, time: Rational) => T,
): readonly (readonly T[])[] {
  const bars: T[][] = starts.map(() => []);
  let index = 0;
  for (const item of items) {
    // Several givers of words each begin again at the front.
    while (index > 0 && compare(starts[index] ?? ZERO, item.at) > 0) index--;
    while (index + 1 < starts.length && compare(starts[index + 1] ?? ZERO, item.at) <= 0) index++;
    bars[index]?.push(at(item, minus(item.at, starts[index] ?? ZERO)));
  }
  return bars;
}

/** The words of a bar. Those that the tune has too are sung where the tune has them. */
function allWords(ofBar: readonly ScoreSyllable[], ofTune: readonly ScoreSyllable[]): readonly ScoreSyllable[] {
  if (ofBar.length === 0 || ofTune.length === 0) return ofBar.length === 0 ? ofTune : ofBar;
  const said = (words: readonly ScoreSyllable[], verse: number): string =>
    words.flatMap((word) => (word.verse === verse ? [word.text] : [])).join(' ');
  const others = ofBar.filter(({ verse }) => said(ofBar, verse) !== said(ofTune, verse));
  return [...others, ...ofTune];
}

/** The chord held right before a time. */
function chordBefore(
  written: readonly ChordChange[],
  pushes: readonly ChordChange[],
  at: Rational,
): ChordChange['chord'] {
  const before = (change: ChordChange): boolean => compare(change.at, at) < 0;
  return chordAt(withChanges(written.filter(before), pushes.filter(before)), at);
}

/** The bar's chords and those that a pattern takes ahead of the beat; each lasts until the next. */
function withPushes({ chords, length }: BarFrame, pushed: readonly ScoreChord[]): readonly ScoreChord[] {
  if (pushed.length === 0) return chords;
  const kept = chords.filter((chord) => !pushed.some(({ at }) => compare(at, chord.at) === 0));
  const sorted = [...kept, ...pushed].sort((a, b) => compare(a.at, b.at));
  return sorted.map((chord, index) => ({ ...chord, length: minus(sorted[index + 1]?.at ?? length, chord.at) }));
}

function startsOfPatterns(placements: readonly Placement[]): readonly PatternStart[] {
  return placements
    .flatMap((placement): readonly PatternStart[] => {
      const name = placement.grid.statement.name?.text;
      return name !== undefined && sounds(placement, placement.start) ? [{ at: placement.start, name }] : [];
    })
    .sort((a, b) => compare(a.at, b.at));
}

/** Events bar by bar; one that sounds over a bar line ends there and goes on as held, but for what has no sound that lasts. */
function cutAtBars(
  events: readonly ScoreEvent[],
  starts: readonly Rational[],
  frames: readonly BarFrame[],
): readonly (readonly ScoreEvent[])[] {
  const bars: ScoreEvent[][] = frames.map(() => []);
  let index = 0;
  for (const event of events) {
    while (index + 1 < starts.length && compare(starts[index + 1] ?? ZERO, event.at) <= 0) index++;
    const end = plus(event.at, event.length);
    for (let bar = index; bar < frames.length; bar++) {
      const start = starts[bar] ?? ZERO;
      const barEnd = plus(start, frames[bar]?.length ?? ZERO);
      const from = bar === index ? event.at : start;
      if (compare(from, end) >= 0) break;
      const length = minus(compare(end, barEnd) < 0 ? end : barEnd, from);
      // In the first bar an event that ends there stands as it is.
      const isFirst = bar === 0 && compare(end, barEnd) <= 0;
      const goesOn =
        lasts(event) && compare(end, barEnd) > 0 && bar + 1 < frames.length ? { goesOn: true as const } : {};
      if (bar === index)
        bars[bar]?.push(
          isFirst && !('goesOn' in goesOn) ? event : { ...event, at: minus(from, start), length, ...goesOn },
        );
      else if (lasts(event)) bars[bar]?.push(heldOf(event, length, goesOn));
      else break;
    }
  }
  // What is held comes first in its bar, whatever began before it in the bar before.
  return bars.map((bar) => bar.sort((a, b) => compare(a.at, b.at)));
}

/** What is said aloud: the count of the first pattern that sounds at a time. */
function countsOf(placements: readonly Placement[]): readonly ScoreCount[] {
  const said = new Map<string, ScoreCount>();
  for (const placement of placements) {
    for (const column of placement.grid.counts) {
      const at = plus(placement.start, column.at);
      const key = `${at.numerator}/${at.denominator}`;
      if (column.said !== '' && sounds(placement, at) && !said.has(key)) said.set(key, { at, text: column.said });
    }
  }
  return [...said.values()].sort((a, b) => compare(a.at, b.at));
}
