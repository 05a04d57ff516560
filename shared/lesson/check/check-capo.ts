import { describeHand } from '../../hand/hand.ts';
import { CAUTION_IN_SHORT } from '../../hand/reach.ts';
import { capoAt } from '../model/capo-at.ts';
import type { Scope } from '../model/scope.ts';
import type { ChordStatement, GridStatement, InstrumentStatement } from '../syntax/statement.ts';
import type { Report } from './finding.ts';
import { heldBy } from './held-on-editions.ts';

/** Higher than this a capo changes the sound more than the hand is worth. Unit: frets. Common practice, no source. */
const HIGHEST_OFFERED = 5;

/**
 * Where a chord of the lesson is a stretch or too far, and a capo would bring every chord to ease, because frets up the neck are
 * narrower: the line of the instrument offers it. The shapes stay, and the whole lesson sounds higher; so nothing is offered where
 * further editions would then sound in another key.
 */
export function checkCapo(report: Report, scope: Scope, statement: InstrumentStatement): void {
  const { value, instrument } = statement;
  if (value === undefined || instrument === undefined || scope.editions().length > 1) return;
  // Said twice, only the first counts.
  if (scope.edition().instrument !== instrument) return;
  const chords = chordLines(scope);
  if (chords.length === 0 || isAtEase(scope, chords, instrument.capoFret)) return;
  const highest = instrument.frets - highestFret(scope, chords);
  for (let fret = instrument.capoFret + 1; fret <= Math.min(HIGHEST_OFFERED, highest); fret += 1) {
    if (!isAtEase(scope, chords, fret)) continue;
    const higher = fret - instrument.capoFret;
    const hand = describeHand(scope.setting('hand'));
    report(
      'hint',
      'capo.would-ease',
      value.span,
      `With a capo at fret ${fret} every chord of this lesson is at ease for ${hand}, by estimate. The shapes stay; everything sounds ${higher} half ${higher === 1 ? 'step' : 'steps'} higher. ${CAUTION_IN_SHORT}`,
      [{ title: `Put a capo at fret ${fret}`, edits: [{ span: value.span, text: withCapo(value.text, fret) }] }],
    );
    return;
  }
}

function withCapo(text: string, fret: number): string {
  return /\bcapo\s+\d+/i.test(text) ? text.replace(/\bcapo\s+\d+/i, `capo ${fret}`) : `${text}, capo ${fret}`;
}

function isAtEase(scope: Scope, chords: readonly ChordStatement[], capoFret: number): boolean {
  const { instrument } = scope.edition();
  const hand = scope.setting('hand');
  const neck = capoFret === instrument.capoFret ? instrument : capoAt(instrument, capoFret);
  return chords.every(
    ({ shape, fingers }) => shape === undefined || heldBy(neck, hand, shape, fingers).verdict === 'comfortable',
  );
}

/** The chord lines whose frets suit the instrument. */
function chordLines(scope: Scope): readonly ChordStatement[] {
  const strings = scope.edition().instrument.openStrings.length;
  return scope
    .names('chord')
    .split('\n')
    .flatMap((text) => {
      const line = scope.chord(text);
      return line?.shape?.length === strings ? [line] : [];
    });
}

/** The highest fret that a chord or a tune asks for, from the nut or the capo: the capo must leave as many. */
function highestFret(scope: Scope, chords: readonly ChordStatement[]): number {
  const held = chords.flatMap(({ shape }) => (shape ?? []).map((fret) => (fret === 'muted' ? 0 : fret)));
  const played = (['pattern', 'melody'] as const).flatMap((kind) =>
    scope
      .names(kind)
      .split('\n')
      .flatMap((name) => {
        const grid = scope.grid(kind, name);
        return grid === undefined ? [] : fretsIn(grid);
      }),
  );
  return Math.max(0, ...held, ...played);
}

function fretsIn({ lines }: GridStatement): readonly number[] {
  const marks = lines.flatMap(({ rows }) => rows.flatMap(({ cells }) => cells.map(({ mark }) => mark)));
  return marks.flatMap((mark) => {
    if (mark.kind === 'technique') return 'fret' in mark.technique ? [mark.technique.fret] : [];
    if (mark.kind !== 'notes') return [];
    return mark.notes.flatMap(({ fret, techniques }) => [
      fret ?? 0,
      ...techniques.map((technique) => ('fret' in technique ? technique.fret : 0)),
    ]);
  });
}
