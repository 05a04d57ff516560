import { describeHand } from '../../hand/hand.ts';
import { CAUTION_ON_STRETCH, judgeReach } from '../../hand/reach.ts';
import { neckAboveCapo } from '../../neck/capo.ts';
import type { Instrument } from '../../neck/instrument.ts';
import { type Shape, stringNumber } from '../../neck/shape.ts';
import type { Scope } from '../model/scope.ts';
import type { ChordStatement } from '../syntax/statement.ts';
import { checkChordName, freeLabel } from './check-chord-name.ts';
import { type Report, write } from './finding.ts';

/** A `chord` line against its instrument: number of strings, frets on the neck, name, reach, fingers, a name used twice. */
export function checkChord(report: Report, scope: Scope, statement: ChordStatement): void {
  const { chord, shape, frets } = statement;
  if (chord === undefined) return;
  if (scope.chord(chord.text) !== statement && scope.edition().block?.statement.chords.includes(statement) !== true) {
    const label = freeLabel(scope, chord.text);
    report(
      'warning',
      'chord.twice',
      chord.span,
      `${chord.text} has a shape already; the first one is taken. Give this one a label, as in ${label}, to keep both.`,
      write(chord.span, label, `Call it ${label}`),
    );
  }
  if (shape === undefined || frets === undefined) return;
  const { instrument } = scope.edition();
  const strings = instrument.openStrings.length;
  if (shape.length < strings) {
    report('hint', 'shape.too-few-frets', frets.span, `${shape.length} of ${strings} frets.`);
    return;
  }
  if (shape.length > strings) {
    report(
      'error',
      'shape.too-many-frets',
      frets.span,
      `${frets.text} has ${shape.length} frets; ${article(instrument.kind)} has ${strings} strings.`,
    );
    return;
  }
  if (!fretsOnNeck(report, instrument, statement, shape)) return;
  const symbol = (statement.as ?? chord).symbol;
  if (symbol !== undefined) checkChordName(report, scope, neckAboveCapo(instrument), shape, symbol, statement);
  checkReach(report, scope, instrument, shape, statement);
  checkFingers(report, shape, statement);
}

function fretsOnNeck(report: Report, instrument: Instrument, statement: ChordStatement, shape: Shape): boolean {
  const last = instrument.frets - instrument.capoFret;
  let onNeck = true;
  shape.forEach((fret, index) => {
    if (fret === 'muted' || fret <= last) return;
    onNeck = false;
    const capo = instrument.capoFret > 0 ? ` above the capo at fret ${instrument.capoFret}` : '';
    report(
      'error',
      'shape.fret-beyond-neck',
      statement.fretSpans[index] ?? statement.span,
      `Fret ${fret} on string ${stringNumber(index, shape.length)} is beyond the neck: ${article(instrument.kind)} has ${last} frets${capo}.`,
    );
  });
  return onNeck;
}

function checkReach(
  report: Report,
  scope: Scope,
  instrument: Instrument,
  shape: Shape,
  statement: ChordStatement,
): void {
  const hand = scope.setting('hand');
  const judged = judgeReach(instrument, shape, hand);
  if (judged === undefined || judged.verdict === 'comfortable') return;
  const { lowFret, highFret, spanFrets, reachMm, limit, verdict } = judged;
  const whose = describeHand(hand);
  const figures = `from fret ${lowFret} to fret ${highFret} is ${spanFrets} frets, ${Math.round(reachMm)} mm on a ${Math.round(instrument.scaleLengthMm)} mm scale`;
  report(
    'warning',
    verdict === 'stretched' ? 'reach.stretched' : 'reach.too-far',
    (statement.frets ?? statement).span,
    verdict === 'stretched'
      ? `A stretch: ${figures}; ${whose} reaches ${Math.round(limit.comfortableMm)} mm at ease and ${Math.round(limit.greatestMm)} mm at most. ${CAUTION_ON_STRETCH}`
      : `Too far for most: ${figures}; ${whose} reaches ${Math.round(limit.greatestMm)} mm at most. ${CAUTION_ON_STRETCH}`,
  );
}

/** The fingers that a lesson gives, against what fingers can do: one a fret, none on an open string, no barre over a lower fret. */
function checkFingers(report: Report, shape: Shape, { fingers, fingersWord }: ChordStatement): void {
  if (fingers === undefined || fingersWord === undefined) return;
  const span = fingersWord.span;
  if (fingers.length !== shape.length) {
    report(
      'error',
      'fingers.count',
      span,
      `${fingers.length} fingers for ${shape.length} strings; write 0 for an open or muted string.`,
    );
    return;
  }
  const places = new Map<number | 'T', { frets: Set<number>; strings: number[] }>();
  for (const [index, finger] of fingers.entries()) {
    const fret = shape[index];
    const string = stringNumber(index, shape.length);
    const stopped = typeof fret === 'number' && fret > 0;
    if (stopped && finger === 0) {
      report(
        'error',
        'fingers.missing',
        span,
        `String ${string} is stopped at fret ${fret}, but no finger is given for it.`,
      );
      return;
    }
    if (!stopped && finger !== 0) {
      report(
        'error',
        'fingers.on-open',
        span,
        `String ${string} is ${fret === 'muted' ? 'muted' : 'open'}, so no finger is on it; write 0.`,
      );
      return;
    }
    if (!stopped) continue;
    const place = places.get(finger) ?? { frets: new Set<number>(), strings: [] };
    place.frets.add(fret);
    place.strings.push(index);
    places.set(finger, place);
  }
  for (const [finger, { frets, strings }] of places) {
    const [fret] = frets;
    if (frets.size > 1) {
      report('error', 'fingers.two-frets', span, `Finger ${finger} cannot stop two frets at once.`);
      return;
    }
    const between = shape.slice(Math.min(...strings), Math.max(...strings) + 1);
    if (fret !== undefined && between.some((other) => typeof other === 'number' && other < fret)) {
      report(
        'error',
        'fingers.barre',
        span,
        `Finger ${finger} laid flat at fret ${fret} would stop a string that sounds lower or open.`,
      );
      return;
    }
  }
  const order = [...places].filter(([finger]) => finger !== 'T').sort(([a], [b]) => Number(a) - Number(b));
  for (const [index, [finger, place]] of order.entries()) {
    const next = order[index + 1];
    const [fret] = place.frets;
    const [nextFret] = next?.[1].frets ?? [];
    if (next !== undefined && fret !== undefined && nextFret !== undefined && nextFret < fret) {
      report(
        'warning',
        'fingers.crossed',
        span,
        `Finger ${next[0]} at fret ${nextFret} would cross behind finger ${finger} at fret ${fret}.`,
      );
      return;
    }
  }
}

export function article(noun: string): string {
  return `${/^[aeiou](?!kulele)/.test(noun) ? 'an' : 'a'} ${noun}`;
}
