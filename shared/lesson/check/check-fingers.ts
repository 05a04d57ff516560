import type { FingerFaultCode, Fingering } from '../../hand/fingering.ts';
import { givenFingers, waysToHold } from '../../hand/kept-fingerings.ts';
import type { Shape } from '../../neck/shape.ts';
import type { Severity } from '../../text/problem.ts';
import type { Scope } from '../model/scope.ts';
import type { ChordStatement } from '../syntax/statement.ts';
import { type Report, write } from './finding.ts';

/** The fingers that a `chord` line gives, against what fingers and this hand can do on the scope's edition; one fix gives better ones. */
export function checkFingers(report: Report, scope: Scope, shape: Shape, statement: ChordStatement): void {
  const { fingers, fingersWord } = statement;
  if (fingers === undefined || fingersWord === undefined) return;
  const { instrument } = scope.edition();
  const hand = scope.setting('hand');
  const { faults } = givenFingers(instrument, shape, fingers, hand);
  const [best] = waysToHold(instrument, shape, hand);
  const fixes =
    best === undefined ? [] : write(fingersWord.span, printFingers(best), `Use fingers ${printFingers(best)}`);
  for (const { code, message } of faults) {
    // Where other fingers do not reach either, it is the shape that is too wide, which is told of its frets.
    if (code === 'fingers.out-of-reach' && best?.verdict === 'out-of-reach') continue;
    // Too few fingers are most likely still being typed.
    const severity = fingers.length < shape.length ? 'hint' : severityOf(code);
    report(severity, code, fingersWord.span, message, fixes);
  }
}

/** `0-3-2-1`, as a `chord` line gives fingers. */
export function printFingers({ fingers }: Fingering): string {
  return fingers.map((finger) => finger ?? 0).join('-');
}

/** What contradicts the frets is wrong; what hands do not do, some hand may do. */
function severityOf(code: FingerFaultCode): Severity {
  return code === 'fingers.crossed' || code === 'fingers.out-of-reach' || code === 'fingers.too-wide'
    ? 'warning'
    : 'error';
}
