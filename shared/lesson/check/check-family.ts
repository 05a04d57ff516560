import { neckAboveCapo } from '../../neck/capo.ts';
import { printShape } from '../../neck/shape.ts';
import { counted } from '../../text/counted.ts';
import { type ChordSymbol, sameChord } from '../../theory/chord-symbol.ts';
import { NOTHING_ALLOWED, readAllowance } from '../../voicing/family/allowance.ts';
import { tellOtherChord } from '../../voicing/family/other-chord.ts';
import { faultOfPin, tellPinFault } from '../../voicing/family/pinned.ts';
import { chordsIn } from '../model/chords-in.ts';
import { keptShape } from '../model/family-request.ts';
import type { Scope } from '../model/scope.ts';
import type { FamilyStatement } from '../syntax/statement.ts';
import { fretsBeyondNeck, lastFret, rangeBeyondNeck, tellTooFew } from './beyond-neck.ts';
import { checkRingStrings } from './check-ring.ts';
import { ABOUT_ITS_PLACE, type Report, reportUnknownName, unfinishedIf, write } from './finding.ts';

/** A family's progression exists, and what it asks for suits the instrument. */
export function checkFamily(report: Report, scope: Scope, statement: FamilyStatement): void {
  if (statement.from !== undefined && scope.progression(statement.from.text) === undefined) {
    reportUnknownName(report, scope, statement.from, ['progression'], 'progression');
  }
  checkFamilyOnInstrument(report, scope, statement);
  checkKept(report, scope, statement);
}

/** Each chord that is kept is played and kept once, in a shape that is this chord; else that is told, and it is kept all the same. */
function checkKept(report: Report, scope: Scope, { from, keep, allow }: FamilyStatement): void {
  const progression = from && scope.progression(from.text);
  const played = progression && chordsIn(progression).flatMap(({ symbol }) => symbol ?? []);
  const words = readAllowance(allow.map(({ text }) => text));
  const key = scope.setting('key');
  const seen: ChordSymbol[] = [];
  for (const { chord, shape, span } of keep) {
    const { symbol, text } = chord;
    if (symbol === undefined) continue;
    if (seen.some((one) => sameChord(one, symbol))) {
      report('warning', 'keep.twice', span, `${text} is kept already; its first shape counts.`);
      continue;
    }
    seen.push(symbol);
    if (from !== undefined && played?.some((one) => sameChord(one, symbol)) === false) {
      report('warning', 'keep.not-played', chord.span, `There is no ${text} in ${from.text}.`);
    }
    if (shape === undefined) continue;
    const held = neckAboveCapo(scope.edition().instrument);
    const allowed = words.ok ? words.value : NOTHING_ALLOWED;
    const other = tellOtherChord(held, { chord: symbol, shape }, allowed, key === undefined ? {} : { key });
    if (other !== undefined) report('warning', 'keep.other-chord', span, other);
  }
}

/** What of a family depends on the instrument: the strings that ring, the frets to stay between, and what is kept. */
export function checkFamilyOnInstrument(report: Report, scope: Scope, statement: FamilyStatement): void {
  checkRingStrings(report, scope, statement.ring);
  checkRange(report, scope, statement);
  for (const keep of statement.keep) checkKeep(report, scope, statement, keep);
}

function checkRange(report: Report, scope: Scope, { within }: FamilyStatement): void {
  if (within === undefined) return;
  const { instrument } = scope.edition();
  const beyond = rangeBeyondNeck(instrument, [within.low, within.high]);
  if (beyond === undefined) return;
  const { kind, message } = beyond;
  const fix = kind === 'part' ? write(within.span, `within ${within.low} to ${lastFret(instrument)}`) : [];
  const severity = kind === 'part' ? 'warning' : 'error';
  report(severity, 'within.beyond-neck', within.span, message, fix, ABOUT_ITS_PLACE);
}

function checkKeep(
  report: Report,
  scope: Scope,
  { ring, within }: FamilyStatement,
  keep: FamilyStatement['keep'][number],
): void {
  const { chord, shape: written, span } = keep;
  const { keeps, instrument } = scope.edition();
  if (written === undefined) return;
  const strings = instrument.openStrings.length;
  if (keeps !== 'key' && written.length !== strings) {
    if (written.length < strings) {
      report('error', 'shape.too-few-frets', span, tellTooFew(written.length, strings), [], unfinishedIf(true));
    } else {
      report('error', 'shape.too-many-frets', span, `${counted(written.length, 'fret')} for ${strings} strings.`);
    }
    return;
  }
  // What does not suit the lesson's own strings is told of the lesson.
  if (keeps === 'key' && written.length !== scope.ownInstrument().openStrings.length) return;
  const shape = keptShape(scope, keep);
  if (shape === undefined) {
    const message = `No shape of ${chord.text} is known on ${instrument.name}, so ${printShape(written)} cannot be kept there.`;
    report('warning', 'chord.no-shape', chord.span, message, [], ABOUT_ITS_PLACE);
    return;
  }
  const [beyond] = fretsBeyondNeck(instrument, shape);
  if (beyond !== undefined) {
    report('error', 'shape.fret-beyond-neck', span, beyond.message, [], ABOUT_ITS_PLACE);
    return;
  }
  const limits = {
    // A string that is not there is told of `ring`.
    ring: ring?.ring.kind === 'strings' ? ring.ring.strings.filter((string) => string <= strings) : [],
    within: within === undefined ? undefined : ([within.low, within.high] as const),
  };
  const fault = faultOfPin(shape, neckAboveCapo(instrument), limits);
  if (fault === undefined || fault.kind === 'strings') return;
  const isMoved = printShape(shape) !== printShape(written);
  const kept = isMoved
    ? `${chord.text}, kept as ${printShape(written)} in the lesson, is ${printShape(shape)} there`
    : `${chord.text} is kept as ${printShape(shape)}`;
  const message = `${kept}, ${tellPinFault(fault)}: no family can have it.`;
  report('warning', 'keep.breaks', span, message, [], { about: [fault.kind] });
}
