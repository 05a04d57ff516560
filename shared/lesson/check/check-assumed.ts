import { printShape } from '../../neck/shape.ts';
import { resolveChord } from '../model/chords.ts';
import { chordsIn } from '../model/chords-in.ts';
import type { ResolvedChord } from '../model/resolved-chord.ts';
import type { Scope } from '../model/scope.ts';
import { readChordName } from '../syntax/read-names.ts';
import type { AlsoStatement, ProgressionStatement } from '../syntax/statement.ts';
import type { ChordName } from '../syntax/words.ts';
import { checkCapoApart } from './check-capo-apart.ts';
import { checkStrings } from './check-edition.ts';
import { checkMovedBass } from './check-moved-bass.ts';
import { checkOtherCapo } from './check-other-capo.ts';
import { codeOf, onEdition } from './check-reach.ts';
import { ABOUT_ITS_PLACE, type Report, unfinishedIf } from './finding.ts';
import { compareVerdicts, type HeldOnEdition, heldOn } from './held-on-editions.ts';
import { offersFor } from './reach-fixes.ts';
import { tellHeld } from './tell-held.ts';

/** Chords of a progression that no line gives a shape: where the usual one is a stretch or too far, a line with another is offered. */
export function checkAssumedShapes(report: Report, scope: Scope, statement: ProgressionStatement): void {
  const told = new Set<string>();
  for (const name of chordsIn(statement)) {
    if (told.has(name.text) || scope.chord(name.text) !== undefined) continue;
    told.add(name.text);
    for (const { chord, held } of hardToHold(scope, name)) {
      const code = codeOf(held.verdict);
      if (code === undefined) continue;
      const lines = offersFor(held, chord.symbol).map(({ shape }) => `chord  ${chord.text}  ${printShape(shape)}\n`);
      const fixes = lines.map((line) => ({
        title: `Write “${line.trim().replace(/ +/g, ' ')}”, which is easier to hold`,
        edits: [{ span: { start: 0, end: 0 }, text: line }],
      }));
      const message = `The usual shape of ${chord.text} is ${printShape(chord.shape)}. ${tellHeld(held, [])}`;
      // E may be on its way to Em.
      const details = { ...ABOUT_ITS_PLACE, ...onEdition(held), ...unfinishedIf(name.span.end === statement.span.end) };
      report('warning', code, name.span, message, fixes, details);
    }
  }
}

/**
 * An edition in the same key takes the usual shapes of its instrument, which no line of the lesson shows: where one of them is a
 * stretch for the lesson's hand, or too far, the line that makes the edition says so.
 */
export function checkAlso(report: Report, scope: Scope, statement: AlsoStatement): void {
  const { value } = statement;
  const edition = scope.editions().find((other) => other.edition().also?.statement === statement);
  if (edition === undefined || value === undefined) return;
  checkStrings(report, edition, statement);
  if (edition.edition().keeps !== 'key') return;
  checkCapoApart(report, scope, edition, statement);
  const { name } = edition.edition();
  const names = chordsOfLesson(edition);
  const hard = names.flatMap((chord) => hardToHold(edition, chord));
  const [worst, ...others] = [...hard].sort((one, other) => compareVerdicts(other.held.verdict, one.held.verdict));
  checkOtherCapo(report, scope, edition, names, statement);
  checkMovedBass(report, scope, edition, names, statement);
  if (worst === undefined) return;
  const also = others.map(({ chord }) => `${chord.text} ${printShape(chord.shape)}`);
  const rest = also.length === 0 ? '' : ` So ${also.length === 1 ? 'is' : 'are'} ${also.join(', ')}.`;
  report(
    'warning',
    'edition.hard-to-hold',
    value.span,
    `${worst.chord.text} is taken as ${printShape(worst.chord.shape)} there. ${tellHeld(worst.held, [])}${rest} A chord line in edition ${name} gives another shape.`,
    [],
    { edition: name },
  );
}

interface HardChord {
  readonly chord: ResolvedChord;
  readonly held: HeldOnEdition;
}

function hardToHold(edition: Scope, name: ChordName): readonly HardChord[] {
  const chord = resolveChord(edition, name);
  // What a line gives is told there.
  if (chord === undefined || (chord.statement !== undefined && !chord.assumed)) return [];
  const { name: called, keeps } = edition.edition();
  const held = { ...heldOn(edition, chord.shape, undefined), ...(keeps === 'own' ? {} : { edition: called }) };
  return held.verdict === 'comfortable' ? [] : [{ chord, held }];
}

/** Every chord of chord lines and progressions, once. */
function chordsOfLesson(scope: Scope): readonly ChordName[] {
  const byText = new Map<string, ChordName>();
  for (const text of scope.names('chord').split('\n')) {
    if (text !== '') byText.set(text, readChordName({ text, span: { start: 0, end: text.length } }));
  }
  for (const name of scope.names('progression').split('\n')) {
    const progression = scope.progression(name);
    for (const chord of progression === undefined ? [] : chordsIn(progression)) {
      if (!byText.has(chord.text)) byText.set(chord.text, chord);
    }
  }
  return [...byText.values()];
}
