import type { Fix } from '../../text/problem.ts';
import type { Span } from '../../text/span.ts';
import { beatLength, beatsPerBar, printMeter } from '../../theory/meter.ts';
import { minus, over, type Rational, toNumber, ZERO } from '../../theory/rational.ts';
import type { PlannedBar } from '../model/bar-plan.ts';
import { tellBeats } from '../model/tell-beats.ts';
import type { Details, Report } from './finding.ts';

/**
 * Whether the marks of a bar come to its length: `full`, which is shorter than the meter's for a pickup. Unit: whole notes. `details` go
 * with what more marks would mend.
 */
export function checkSum(report: Report, planned: PlannedBar, full: Rational, details: Details): void {
  const { bar, sum, meter, written } = planned;
  if (sum === 'fits' || sum === 'pickup-short' || bar.items.length === 0) return;
  const name = planned.number === undefined ? 'The pickup' : `Bar ${planned.number}`;
  const span = { start: bar.items[0]?.span.start ?? bar.span.start, end: bar.items.at(-1)?.span.end ?? bar.span.end };
  if (sum === 'uneven') {
    report(
      'warning',
      'bar.uneven',
      span,
      `${name}: ${bar.items.length} chords do not share ${beatsPerBar(meter)} beats evenly. Write / for every further beat a chord lasts.`,
      spellings(planned, span),
      details,
    );
    return;
  }
  const beats = (length: Rational) => toNumber(over(length, beatLength(meter)));
  const missing = minus(full, written);
  const isLong = missing.numerator < 0;
  const difference = tellBeats(isLong ? minus(ZERO, missing) : missing, meter);
  const where = planned.number === undefined ? 'from the count it begins on' : `in ${printMeter(meter)}`;
  const told = `${name} has ${tellBeats(written, meter)}; ${where} it has ${beats(full)}. It is ${difference} too`;
  if (!isLong) {
    const why =
      sum === 'repeat-short'
        ? ' This repeat goes back to a full bar, not to the pickup: it is full, too, or has endings, of which only the last leaves room for the pickup.'
        : '';
    report('error', 'bar.too-short', span, `${told} short.${why}`, lengthening(planned, beats(missing)), details);
    return;
  }
  const room = Math.floor(beats(full));
  // What is marked is the surplus.
  const surplus = { start: bar.items[room]?.span.start ?? span.start, end: span.end };
  report('error', 'bar.too-long', surplus, `${told} long.`, shortening(planned, room, difference));
}

/** Surplus beats are taken off where no chord would be lost with them. */
function shortening({ bar: { items } }: PlannedBar, room: number, difference: string): readonly Fix[] {
  const kept = items[room - 1];
  const last = items.at(-1);
  if (kept === undefined || last === undefined || items.slice(room).some(({ kind }) => kind !== 'beat')) return [];
  const span = { start: kept.span.end, end: last.span.end };
  return [{ title: `Take off ${difference}`, edits: [{ span, text: '' }], preferred: true }];
}

/** The last chord may go on to the end of its bar. */
function lengthening({ bar: { items } }: PlannedBar, beats: number): readonly Fix[] {
  const last = items.at(-1);
  const lasting = items.findLast(({ kind }) => kind !== 'beat');
  if (last === undefined || lasting === undefined || !Number.isInteger(beats)) return [];
  const what = lasting.kind === 'chord' ? lasting.chord.text : 'the silence';
  const { end } = last.span;
  const edits = [{ span: { start: end, end }, text: ' /'.repeat(beats) }];
  return [{ title: `Let ${what} last to the end of the bar`, edits }];
}

/** Ways to write an uneven bar in whole beats: the longer chord first, then last. */
function spellings({ bar, meter }: PlannedBar, span: Span): readonly Fix[] {
  const beats = beatsPerBar(meter);
  const words = bar.items.map((item) =>
    item.kind === 'chord' ? item.chord.text : item.kind === 'silence' ? 'NC' : '%',
  );
  if (words.length > beats || bar.items.some((item) => item.kind === 'same')) return [];
  const spare = beats - words.length;
  const longAt = (long: number): string =>
    words.map((word, index) => [word, ...Array<string>(index === long ? spare : 0).fill('/')].join(' ')).join(' ');
  return [...new Set([longAt(0), longAt(words.length - 1)])].map((text) => ({
    title: `Write ${text}`,
    edits: [{ span, text }],
  }));
}
