import { describeHand } from '../../hand/hand.ts';
import { CAUTION_ON_STRETCH, judgeReach } from '../../hand/reach.ts';
import { neckAboveCapo } from '../../neck/capo.ts';
import type { Instrument } from '../../neck/instrument.ts';
import { soundingPitches } from '../../neck/pitches.ts';
import { printShape, type Shape, stringNumber } from '../../neck/shape.ts';
import type { Fix } from '../../text/problem.ts';
import type { Span } from '../../text/span.ts';
import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import { printNote } from '../../theory/note.ts';
import { printRole, type Role } from '../../theory/role.ts';
import { judgeFit } from '../../voicing/fit.ts';
import { type ChordName as NamedShape, nameShape } from '../../voicing/naming.ts';
import type { Scope } from '../model/scope.ts';
import type { ChordStatement } from '../syntax/statement.ts';
import { type Report, write } from './finding.ts';

/** A `chord` line against its instrument: number of strings, frets on the neck, name, reach, fingers, a name used twice. */
export function checkChord(report: Report, scope: Scope, statement: ChordStatement): void {
  const { chord, shape, frets } = statement;
  if (chord === undefined) return;
  if (scope.chord(chord.text) !== statement && scope.edition().block?.statement.chords.includes(statement) !== true) {
    const label = labelFor(scope, chord.text);
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
  if (symbol !== undefined) checkName(report, scope, neckAboveCapo(instrument), shape, symbol, statement);
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

function checkName(
  report: Report,
  scope: Scope,
  instrument: Instrument,
  shape: Shape,
  symbol: ChordSymbol,
  statement: ChordStatement,
): void {
  const named = statement.as ?? statement.chord;
  if (named === undefined || shape.every((fret) => fret === 'muted')) return;
  const fit = judgeFit(instrument, shape, symbol);
  if (fit.verdict === 'fits') return;
  const key = scope.setting('key');
  const span = { start: named.span.start, end: named.span.start + named.name.length };
  if (fit.verdict === 'fits-incomplete') {
    report(
      'hint',
      'chord.incomplete',
      span,
      `${printShape(shape)} is ${named.name} ${without(fit.missing)}. That is usual where the ear or another player adds it.`,
    );
    return;
  }
  if (fit.verdict === 'fits-with-added') {
    const added = [...new Set(fit.foreign.map((tone) => printNote(tone.note)))].join(' and ');
    const [fuller] = nameShape(instrument, shape, key === undefined ? {} : { key });
    report(
      'notice',
      'chord.added-tone',
      span,
      `${printShape(shape)} is ${named.name} with ${added} added${fuller === undefined ? '' : `; in full ${describeName(fuller)}`}.`,
      fuller === undefined ? [] : [renaming(span, fuller.text)],
    );
    return;
  }
  const [best] = nameShape(instrument, shape, key === undefined ? {} : { key });
  const notes = soundingPitches(instrument, shape, key).flatMap((pitch) =>
    pitch === undefined ? [] : [printNote(pitch)],
  );
  const sounds = `${printShape(shape)} sounds ${notes.join(' ')}`;
  if (best === undefined) {
    report('warning', 'chord.name', span, `${sounds}; that is not ${named.name}.`);
    return;
  }
  report('warning', 'chord.name', span, `${sounds}: ${describeName(best)}, you wrote ${named.name}.`, [
    renaming(span, best.text),
  ]);
}

function renaming(span: Span, name: string): Fix {
  return { title: `Name it ${name} wherever it is used`, edits: [{ span, text: name }], rename: name, preferred: true };
}

/** `F(add9) without its fifth` */
function describeName(name: NamedShape): string {
  return name.omits.length === 0 ? name.text : `${name.text} ${without(name.omits)}`;
}

function without(roles: readonly Role[]): string {
  const words = roles.map(roleInWords);
  const last = words.pop();
  return `without its ${words.length > 0 ? `${words.join(', ')} and ` : ''}${last ?? 'other tones'}`;
}

const DEGREES: Readonly<Record<number, string>> = {
  1: 'root',
  2: 'second',
  3: 'third',
  4: 'fourth',
  5: 'fifth',
  6: 'sixth',
  7: 'seventh',
  9: 'ninth',
  11: 'eleventh',
  13: 'thirteenth',
};

function roleInWords(role: Role): string {
  return DEGREES[role.degree] ?? printRole(role);
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

function labelFor(scope: Scope, text: string): string {
  const known = new Set(scope.names('chord').split('\n'));
  const base = text.split('.')[0] ?? text;
  for (let number = 2; ; number++) if (!known.has(`${base}.${number}`)) return `${base}.${number}`;
}

export function article(noun: string): string {
  return `${/^[aeiou](?!kulele)/.test(noun) ? 'an' : 'a'} ${noun}`;
}
