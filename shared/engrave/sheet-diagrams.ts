import { resolveChord, resolvedOn } from '../lesson/model/chords.ts';
import { fingeringFor } from '../lesson/model/fingerings.ts';
import type { ResolvedChord } from '../lesson/model/resolved-chord.ts';
import type { Scope } from '../lesson/model/scope.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import type { ChordStatement } from '../lesson/syntax/statement.ts';
import { neckAboveCapo } from '../neck/capo.ts';
import type { Source } from '../score/timeline.ts';
import { toneRoles } from '../voicing/tone-roles.ts';
import type { SheetView } from './block.ts';
import type { DiagramRequest } from './chord-diagram.ts';
import { barresOf, fingersToShow, isSuggested } from './diagram-fingers.ts';
import { drawDiagramLines } from './diagram-row.ts';
import { windowOf } from './diagram-window.ts';
import type { LegendSign } from './legend.ts';
import { areLight, type Draft, draft, hullOf } from './sheet-draft.ts';

/** One chord to be shown and where it is written. */
export interface ShownChord {
  readonly request: DiagramRequest;
  readonly source: Source;
  readonly signs: readonly LegendSign[];
  /** True where the shape is a stretch for the lesson's hand, or more than it can do. */
  readonly stretch: boolean;
  readonly broken?: string;
}

/** A `chord` line as a diagram. Broken where it has no shape that the instrument can hold. */
export function chordOfLine(
  scope: Scope,
  view: SheetView,
  entry: Entry,
  statement: ChordStatement,
): ShownChord | undefined {
  if (statement.chord === undefined) return undefined;
  const fault = entry.problems.find((problem) => problem.severity === 'error')?.message;
  // The line itself is drawn, also where another line of the same name comes first.
  const own: Scope = {
    ...scope,
    chord: (text) =>
      scope.chord(text) !== undefined && text === statement.chord?.text && scope.edition().keeps === 'own'
        ? statement
        : scope.chord(text),
    resolved: (text) => resolvedOn(own, text),
  };
  const chord = resolveChord(own, statement.chord);
  const source: Source = { entry, span: statement.span };
  const shapeMissing = statement.frets !== undefined && statement.shape === undefined;
  if (chord === undefined || fault !== undefined || shapeMissing) {
    const broken =
      fault ?? entry.problems[0]?.message ?? `${statement.chord.text} cannot be drawn on this instrument as it stands.`;
    const known = chord === undefined ? undefined : shownChord(scope, view, chord, source);
    return {
      ...(known ?? { request: { shape: [], leftHanded: view.leftHanded }, source, signs: [], stretch: false }),
      broken,
    };
  }
  return shownChord(scope, view, chord, source, statement.chord.label);
}

export function shownChord(
  scope: Scope,
  view: SheetView,
  chord: ResolvedChord,
  source: Source,
  label?: string,
): ShownChord {
  const { shape, assumed, name } = chord;
  const window = windowOf(shape);
  const fingering = fingeringFor(scope, chord);
  const request: DiagramRequest = {
    shape,
    name,
    held: chord.text,
    leftHanded: view.leftHanded,
    assumed,
    ...fingersToShow(chord.fingers, fingering),
    ...(label === undefined ? {} : { caption: label }),
    ...(view.dots === 'roles'
      ? { dotRoles: toneRoles(neckAboveCapo(scope.edition().instrument), shape, chord.symbol) }
      : {}),
  };
  const signs: LegendSign[] = [];
  if (shape.includes(0)) signs.push('open-string');
  if (shape.includes('muted')) signs.push('muted-string');
  if (window.firstFret > 1) signs.push('position');
  if (barresOf(request).length > 0) signs.push('barre');
  if (isSuggested(request)) signs.push('suggested-finger');
  else if (request.fingers?.some((finger) => finger !== 0) === true) signs.push('given-finger');
  if (assumed) signs.push('usual-shape');
  const atEase = fingering !== undefined && fingering.verdict === 'comfortable';
  return { request, source, signs, stretch: !atEase };
}

/** Diagrams as blocks, one for each line of them. */
export function diagramDrafts(chords: readonly ShownChord[], view: SheetView): readonly Draft[] {
  if (chords.length === 0) return [];
  for (let most = chords.length; ; most = Math.ceil(most / 2)) {
    const drafts: Draft[] = [];
    let first = 0;
    for (const drawing of drawDiagramLines(
      chords.map((chord) => chord.request),
      view.widthMm,
      most,
    )) {
      const places = chords.slice(first, first + drawing.items.length).map((chord) => chord.source);
      first += drawing.items.length;
      const source = hullOf(places);
      if (source !== undefined) drafts.push(draft('diagrams', { kind: 'diagrams', drawing }, source, places));
    }
    // A page is sent as a whole, whatever its lines weigh.
    if (most === 1 || view.page !== undefined || areLight(drafts)) return drafts;
  }
}
