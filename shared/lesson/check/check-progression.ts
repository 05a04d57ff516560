import { printShape } from '../../neck/shape.ts';
import { counted } from '../../text/counted.ts';
import type { Fix } from '../../text/problem.ts';
import { barLength, beatLength, printMeter } from '../../theory/meter.ts';
import { minus, over, toNumber } from '../../theory/rational.ts';
import { type PlannedBar, pickupLength, planBars } from '../model/bar-plan.ts';
import { resolveChord } from '../model/chords.ts';
import { chordsIn } from '../model/chords-in.ts';
import type { Scope } from '../model/scope.ts';
import { tellBeats } from '../model/tell-beats.ts';
import type { ProgressionStatement } from '../syntax/statement.ts';
import type { ChordName } from '../syntax/words.ts';
import { checkSum } from './check-bar-sum.ts';
import { ABOUT_ITS_PLACE, type Details, type Report, reportUnknownName, unfinishedIf, write } from './finding.ts';

/** A progression: its chords have shapes, its bars add up, its repeats and words fit. */
export function checkProgression(report: Report, scope: Scope, statement: ProgressionStatement): void {
  if (statement.name !== undefined && scope.progression(statement.name.text) !== statement) {
    report(
      'error',
      'name.twice',
      statement.name.span,
      `There is a progression ${statement.name.text} already; that one is played. Give this one another name.`,
      [],
      unfinishedIf(statement.span.end === statement.name.span.end),
    );
  }
  const bars = planBars(statement, scope.setting('meter'));
  const assumed = new Set<string>();
  for (const { bar } of bars) {
    for (const item of bar.items) {
      if (item.kind === 'chord') checkChordUse(report, scope, item.chord, assumed, 0);
    }
  }
  const pickup = pickupLength(statement, scope.setting('meter'));
  bars.forEach((bar, index) => {
    const isOpen = index === bars.length - 1 && bar.bar.closes === undefined;
    const full = bar.number === undefined && pickup !== undefined ? pickup : barLength(bar.meter);
    checkSum(report, bar, full, unfinishedIf(isOpen));
    if (bar.bar.items.some((item) => item.kind === 'same') && (index === 0 || bar.bar.items.length > 1)) {
      report(
        'error',
        'bar.same',
        bar.bar.span,
        index === 0
          ? '% plays the bar before again; there is none before the first.'
          : '% fills its bar alone: it plays the whole bar before again.',
      );
    }
  });
  if (bars.length === 0 && statement.lines.length === 0) {
    report('hint', 'progression.empty', statement.span, 'Write the chords in bars below: | Em | C | G | D |.');
  }
  checkPickup(report, scope, statement, bars);
  checkRepeats(report, bars, statement.lines.at(-1)?.span.end === statement.span.end);
  for (const line of statement.lines) {
    for (const row of line.words) {
      if (row.bars.length > line.bars.length) {
        report(
          'warning',
          'words.too-many-bars',
          row.span,
          `The words have ${counted(row.bars.length, 'bar')}, the line above has ${line.bars.length}.`,
        );
      }
    }
  }
}

/** What of a progression depends on the instrument: whether its chords have shapes. */
export function checkProgressionOnInstrument(report: Report, scope: Scope, statement: ProgressionStatement): void {
  const told = new Set<string>();
  for (const chord of chordsIn(statement)) checkChordUse(report, scope, chord, told, 0);
}

/**
 * A chord where it is used: its label exists, and its shape is given or can be assumed.
 * `insertAt` is where, in this entry, a line that gives the shape may be written.
 */
export function checkChordUse(
  report: Report,
  scope: Scope,
  chord: ChordName,
  told: Set<string>,
  insertAt: number,
): void {
  if (told.has(chord.text)) return;
  const statement = scope.chord(chord.text);
  if (statement === undefined && chord.label !== undefined) {
    told.add(chord.text);
    reportUnknownName(report, scope, { text: chord.text, span: chord.span }, ['chord'], 'chord');
    return;
  }
  if (chord.symbol === undefined && statement === undefined) return;
  const resolved = resolveChord(scope, chord);
  if (resolved === undefined) {
    if (statement?.shape !== undefined) return; // Told where the shape is written.
    told.add(chord.text);
    report(
      'warning',
      'chord.no-shape',
      chord.span,
      `No shape of ${chord.text} is known on ${scope.edition().instrument.name}; write a chord line for it.`,
      [],
      ABOUT_ITS_PLACE,
    );
    return;
  }
  if (resolved.assumed && statement === undefined) {
    told.add(chord.text);
    const line = `chord  ${chord.text}  ${printShape(resolved.shape)}\n`;
    report(
      'hint',
      'chord.assumed',
      chord.span,
      `${chord.text} has no chord line; the usual shape ${printShape(resolved.shape)} is taken.`,
      [
        {
          title: `Write “chord ${chord.text} ${printShape(resolved.shape)}” into the lesson`,
          edits: [{ span: { start: insertAt, end: insertAt }, text: line }],
          writesShape: true,
        },
      ],
      ABOUT_ITS_PLACE,
    );
  } else if (
    statement?.chord?.label !== undefined &&
    chord.label === undefined &&
    statement.chord.text !== chord.text
  ) {
    told.add(chord.text);
    report(
      'hint',
      'chord.first-label',
      chord.span,
      `${chord.text} has labelled shapes only; ${statement.chord.text} is taken.`,
      write(chord.span, statement.chord.text),
    );
  }
}

/** `isOpen` where nothing is written below the bars: a repeat may still be closed. */
function checkRepeats(report: Report, bars: readonly PlannedBar[], isOpen: boolean): void {
  let open: PlannedBar | undefined;
  let before: PlannedBar | undefined;
  for (const planned of bars) {
    const { opens, closes, times } = planned.bar;
    // A repeat inside another one is not written in music: the first was meant to end where the second begins.
    if (opens?.text === '|:' && open !== undefined && before !== undefined) tellOpenRepeat(report, open, before);
    if (opens?.text === '|:' || opens?.text === ':|:') open = planned;
    if (closes?.text.startsWith(':')) open = undefined;
    if (times !== undefined && times < 2) {
      report('warning', 'repeat.times', planned.bar.span, `x${times} repeats nothing; a repeat plays at least twice.`);
    }
    before = planned;
  }
  if (open !== undefined) tellOpenRepeat(report, open, bars.at(-1), unfinishedIf(isOpen));
}

/** `last` is the bar from which the repeat would go back. */
function tellOpenRepeat(report: Report, open: PlannedBar, last: PlannedBar | undefined, details?: Details): void {
  const { opens } = open.bar;
  if (opens === undefined) return;
  const message = 'This repeat is not closed yet; write :| behind the bar from which it goes back to |:.';
  report('warning', 'repeat.open', opens.span, message, last === undefined ? [] : closing(last), details);
}

/** The repeat goes back from this bar. Where the next one opens with the same bar line, that closes the one and opens the other. */
function closing({ bar: { closes, items, span } }: PlannedBar): readonly Fix[] {
  const end = items.at(-1)?.span.end ?? span.end;
  const sign = closes?.text === '|:' ? ':|:' : ':|';
  const edit = closes === undefined ? { span: { start: end, end }, text: ' :|' } : { span: closes.span, text: sign };
  return [{ title: `Close it behind its last bar: ${sign}`, edits: [edit], preferred: true }];
}

/** The count on which the music starts is one of the bar, and what a pickup takes is left out at the end. Common practice, no source. */
function checkPickup(report: Report, scope: Scope, statement: ProgressionStatement, bars: readonly PlannedBar[]): void {
  const { pickupCount } = statement;
  if (pickupCount === undefined) return;
  const meter = scope.setting('meter');
  const { count, span } = pickupCount;
  const pickup = pickupLength(statement, meter);
  if (pickup === undefined) {
    const message =
      count === 1
        ? 'On count 1 a bar begins, so nothing comes before the first full bar; leave the line out.'
        : `A bar of ${printMeter(meter)} is counted 1 to ${meter.counts}; no music starts on ${count}.`;
    report(count === 1 ? 'hint' : 'error', 'count.no-pickup', span, message);
    return;
  }
  const last = bars.at(-1);
  if (last === undefined || bars.length < 2 || last.sum !== 'fits') return;
  // A repeat that goes back to a full bar needs its last bar whole.
  const goesBack = last.bar.closes?.text.startsWith(':') === true;
  if (goesBack && bars.some(({ bar }, index) => index > 0 && bar.opens?.text.endsWith(':') === true)) return;
  const beats = toNumber(over(minus(barLength(last.meter), pickup), beatLength(last.meter)));
  const [only, more] = last.bar.items;
  const isPlain = only?.kind === 'chord' && more === undefined && Number.isInteger(beats) && beats > 0;
  const shorter = isPlain ? [only.chord.text, ...Array<string>(beats - 1).fill('/')].join(' ') : undefined;
  const message = `The last bar is full. What the pickup has, ${tellBeats(pickup, meter)}, is usually left out at the end${shorter === undefined ? '' : `: ${shorter}`}.`;
  const place = {
    start: only?.span.start ?? last.bar.span.start,
    end: last.bar.items.at(-1)?.span.end ?? last.bar.span.end,
  };
  // A lone chord of one beat would be read as the whole bar.
  report('hint', 'pickup.full-end', place, message, shorter === undefined || beats < 2 ? [] : write(place, shorter));
}
