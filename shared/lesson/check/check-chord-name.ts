import type { Instrument } from '../../neck/instrument.ts';
import { soundingMidi } from '../../neck/pitches.ts';
import { printShape, type Shape } from '../../neck/shape.ts';
import type { Fix } from '../../text/problem.ts';
import type { Span } from '../../text/span.ts';
import { rolesOfParts } from '../../theory/chord-parts.ts';
import type { ChordSymbol } from '../../theory/chord-symbol.ts';
import { pitchClass, printNote } from '../../theory/note.ts';
import { fewNotesOf, tellFewNotes } from '../../voicing/few-notes.ts';
import { judgeFit } from '../../voicing/fit.ts';
import { type ChordName as NamedShape, nameShape, tonesUnder } from '../../voicing/naming.ts';
import { namingContext } from '../model/naming-context.ts';
import type { Scope } from '../model/scope.ts';
import type { ChordStatement } from '../syntax/statement.ts';
import type { ChordName } from '../syntax/words.ts';
import type { Report } from './finding.ts';
import { without } from './tell-missing.ts';

/** The name of a `chord` line against what its frets sound. The neck is the one above the capo. */
export function checkChordName(
  report: Report,
  scope: Scope,
  instrument: Instrument,
  shape: Shape,
  symbol: ChordSymbol,
  statement: ChordStatement,
): void {
  const named = statement.as ?? statement.chord;
  if (named === undefined) return;
  const fit = judgeFit(instrument, shape, symbol);
  if (fit.verdict === 'fits') return;
  const span = nameSpan(named);
  const context = namingContext(scope, statement.chord);
  const names = nameShape(instrument, shape, context);
  if (fit.verdict === 'fits-incomplete') {
    const triad = fit.rootless ? names.find(isPlainTriad) : undefined;
    if (triad !== undefined) {
      const notes = [...new Set(tonesUnder(triad, soundingMidi(instrument, shape)).map(({ note }) => printNote(note)))];
      report(
        'hint',
        'chord.incomplete',
        span,
        `${printShape(shape)} sounds a plain ${triad.text}: ${notes.join(' ')}. It is ${named.name} ${without(fit.missing)} only where the ear or another player adds ${printNote(symbol.root)}.`,
        renamings(scope, statement, [triad]).map(({ preferred, ...fix }) => fix),
      );
      return;
    }
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
    // The chord stays the one it is named after; only what was added is said as well.
    const fuller = names.find((name) => pitchClass(name.symbol.root) === pitchClass(symbol.root)) ?? names[0];
    report(
      'notice',
      'chord.added-tone',
      span,
      `${printShape(shape)} is ${named.name} with ${added} added${fuller === undefined ? '' : `; in full ${describeName(fuller)}`}.`,
      fuller === undefined ? [] : renamings(scope, statement, [fuller]),
    );
    return;
  }
  const midi = soundingMidi(instrument, shape);
  const [best, ...others] = rightNames(names);
  if (best === undefined) {
    const few = fewNotesOf(midi, context.key);
    const sounds = few === undefined ? '' : ` sounds ${tellFewNotes(few)};`;
    report('warning', 'chord.name', span, `${printShape(shape)}${sounds} that is not ${named.name}.`);
    return;
  }
  const notes = tonesUnder(best, midi).map(({ note }) => printNote(note));
  const sounds = `${printShape(shape)} sounds ${notes.join(' ')}`;
  const also = others.length === 0 ? ',' : `, also called ${others.map(describeName).join(' or ')};`;
  report(
    'warning',
    'chord.name',
    span,
    `${sounds}: ${describeName(best)}${also} you wrote ${named.name}.`,
    renamings(scope, statement, [best, ...others]),
  );
}

/** A whole major or minor triad: who hears it alone hears that, whatever fuller chord was meant. Common practice, no source. */
function isPlainTriad({ symbol, omits }: NamedShape): boolean {
  const isTriad = symbol.kind === 'major' || symbol.kind === 'minor';
  return isTriad && omits.length === 0 && symbol.bass === undefined && rolesOfParts(symbol).length === 3;
}

/** How many names are offered for the same notes: more would hide the ones that matter. */
const MOST_NAMES = 3;

/** A further name may be so many letters longer than the best one: what is longer nobody would say in its place. */
const LETTERS_MORE = 2;

/** The best name, and those that say exactly the same notes as plainly: C6 and Am7. */
function rightNames(names: readonly NamedShape[]): readonly NamedShape[] {
  const [best, ...others] = names;
  if (best === undefined) return [];
  const longest = kindLength(best) + LETTERS_MORE;
  const equal = others.filter(
    (name) => name.omits.length === 0 && name.symbol.bass === undefined && kindLength(name) <= longest,
  );
  return [best, ...equal].slice(0, MOST_NAMES);
}

/** Letters of the name behind its root. */
function kindLength({ symbol, text }: NamedShape): number {
  return text.length - printNote(symbol.root).length;
}

/** One fix for each name, the first one preferred. */
function renamings(scope: Scope, statement: ChordStatement, names: readonly NamedShape[]): readonly Fix[] {
  const { chord, as } = statement;
  if (chord === undefined) return [];
  const onEdition = scope.edition().block?.statement.chords.includes(statement) === true;
  return names.map(({ text }, index): Fix => {
    const first = index === 0 ? { preferred: true } : {};
    if (onEdition) {
      // The lesson's own name is right for the lesson's own instrument; here the chord only has another one.
      const span = as === undefined ? { start: chord.span.end, end: chord.span.end } : nameSpan(as);
      return {
        title: `Call it ${text} on this instrument`,
        edits: [{ span, text: as === undefined ? ` as ${text}` : text }],
        ...first,
      };
    }
    const free = chord.label === undefined && scope.knows('chord', text) ? freeLabel(scope, text) : text;
    return {
      title: `Name it ${free} wherever it is used`,
      edits: [{ span: nameSpan(chord), text: free }],
      rename: free,
      ...first,
    };
  });
}

/** The name without its label. */
function nameSpan({ span, name }: ChordName): Span {
  return { start: span.start, end: span.start + name.length };
}

/** `F(add9) without its fifth` */
function describeName(name: NamedShape): string {
  return name.omits.length === 0 ? name.text : `${name.text} ${without(name.omits)}`;
}

/** The name with a label that no chord line has yet. */
export function freeLabel(scope: Scope, text: string): string {
  const known = new Set(scope.names('chord').split('\n'));
  const base = text.split('.')[0] ?? text;
  for (let number = 2; ; number++) if (!known.has(`${base}.${number}`)) return `${base}.${number}`;
}
