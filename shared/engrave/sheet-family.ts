import { difficultyOfShape } from '../hand/difficulty.ts';
import { describeHand } from '../hand/hand.ts';
import { tellDifficulty } from '../hand/tell-difficulty.ts';
import { heardAs } from '../lesson/asked/heard-candidate.ts';
import type { Scope } from '../lesson/model/scope.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import type { FamilyStatement } from '../lesson/syntax/statement.ts';
import { neckAboveCapo } from '../neck/capo.ts';
import { printShape } from '../neck/shape.ts';
import { listed } from '../text/counted.ts';
import { parseChordSymbol, printChordSymbol, sameChord } from '../theory/chord-symbol.ts';
import { tellLosses } from '../voicing/family/loss.ts';
import type { Family, FamilyAnswer, FamilyChord } from '../voicing/family/request.ts';
import { tellStrings } from '../voicing/family/why.ts';
import { toneRoles } from '../voicing/tone-roles.ts';
import type { SheetView } from './block.ts';
import type { DiagramRequest } from './chord-diagram.ts';
import { fingersToShow, isSuggested } from './diagram-fingers.ts';
import { drawDiagramLines } from './diagram-row.ts';
import type { Drawing, Item } from './drawing.ts';
import type { LegendSign } from './legend.ts';
import { type Draft, draft, wholeOf } from './sheet-draft.ts';

/** What was found, drawn. */
export interface DrawnCandidates {
  readonly drafts: readonly Draft[];
  readonly signs: readonly LegendSign[];
  /** True where a shape is a stretch for the lesson's hand. */
  readonly stretches: boolean;
}

/** `The chords of verse in shapes that look alike; strings 1 and 2 ring, frets 0 to 10, add9 and 6 may come on top.` */
export function tellFamilyRequest({ from, ring, within, allow, keep }: FamilyStatement): string {
  const strings = ring?.ring.kind === 'strings' ? [...ring.ring.strings].sort((one, other) => one - other) : [];
  const limits = [
    ...(strings.length === 0 ? [] : [`${tellStrings(strings)} ${strings.length === 1 ? 'rings' : 'ring'} open`]),
    ...(within === undefined ? [] : [`frets ${within.low} to ${within.high}`]),
    ...(allow.length === 0 ? [] : [`${listed(allow.map(({ text }) => text))} allowed`]),
    ...keep.flatMap(({ chord, shape }) => (shape === undefined ? [] : [`${chord.text} kept as ${printShape(shape)}`])),
  ];
  const told = limits.length === 0 ? '' : `: ${limits.join(', ')}`;
  return `The chords of ${from?.text ?? 'a progression'} in shapes that look alike${told}.`;
}

/** Room that the frame of a candidate takes from its diagrams. Unit: mm. */
const FRAME = 8;

/** The families with the diagrams of one under those of the other, so that they are compared chord by chord; each different chord once. */
export function familyCandidates(
  scope: Scope,
  view: SheetView,
  entry: Entry,
  found: Extract<FamilyAnswer, { readonly kind: 'families' }>,
): DrawnCandidates {
  const { families } = found;
  const shown = families.map((family) => differentChords(family).map((chord) => requestFor(scope, view, chord)));
  const source = wholeOf(entry);
  const drafts = families.map((family, choice) => {
    const drawings = linesOf(shown[choice] ?? [], view.widthMm - FRAME);
    const { why } = family;
    const content = {
      kind: 'candidate',
      of: 'family',
      choice,
      count: families.length,
      why,
      facts: factsOf(scope, family),
      drawings,
    } as const;
    return draft('candidate', content, source, [source]);
  });
  return {
    drafts,
    signs: [...new Set(shown.flat().flatMap(signsOf))],
    stretches: families.some((family) => family.chords.some(isStretch)),
  };
}

/** Every chord once, in the order in which it first comes: it is always held the same way. */
function differentChords({ chords }: Family): readonly FamilyChord[] {
  return chords.filter((one, at) => chords.findIndex(({ chord }) => sameChord(chord, one.chord)) === at);
}

function requestFor(scope: Scope, view: SheetView, one: FamilyChord): DiagramRequest {
  const { chord, as, shape, fingering } = one;
  const asked = printChordSymbol(chord);
  const symbol = parseChordSymbol(as);
  return {
    shape,
    name: as,
    held: heardAs(one),
    leftHanded: view.leftHanded,
    ...fingersToShow(undefined, fingering),
    ...(as === asked ? {} : { caption: `for ${asked}` }),
    ...(view.dots === 'roles' && symbol.ok
      ? { dotRoles: toneRoles(neckAboveCapo(scope.edition().instrument), shape, symbol.value) }
      : {}),
  };
}

/** Diagrams that are read aloud and marked while they sound, but lead nowhere: their shapes are written nowhere yet. */
function linesOf(requests: readonly DiagramRequest[], widthMm: number): readonly Drawing[] {
  return drawDiagramLines(requests, widthMm, requests.length).map((drawing) => ({
    ...drawing,
    items: drawing.items.map((item): Item => {
      if (item.kind !== 'group' || item.mark === undefined) return item;
      const { place: _, ...mark } = item.mark;
      return { ...item, mark };
    }),
  }));
}

function signsOf(request: DiagramRequest): readonly LegendSign[] {
  return [
    ...(request.shape.includes(0) ? ['open-string' as const] : []),
    ...(request.shape.includes('muted') ? ['muted-string' as const] : []),
    ...(isSuggested(request) ? ['suggested-finger' as const] : []),
  ];
}

/** What the honest names do not say by themselves, and how hard it is. */
function factsOf(scope: Scope, family: Family): readonly string[] {
  const chords = differentChords(family);
  const others = chords.flatMap(({ as, also }) => (also === undefined ? [] : [`${as} is ${also} too`]));
  const stretched = chords.filter(isStretch).map(({ as }) => as);
  const stretch =
    stretched.length === 0
      ? []
      : [
          `${listed(stretched)} ${stretched.length === 1 ? 'is a stretch' : 'are stretches'} for ${describeHand(scope.setting('hand'))}`,
        ];
  return [...others, ...tellLosses(chords), ...stretch, ...hardestOf(chords)];
}

function isStretch({ fingering }: FamilyChord): boolean {
  return fingering === undefined || fingering.verdict !== 'comfortable';
}

function hardestOf(chords: readonly FamilyChord[]): readonly string[] {
  const held = chords.flatMap(({ as, fingering }) =>
    fingering === undefined || fingering.presses.length === 0 ? [] : [{ as, difficulty: difficultyOfShape(fingering) }],
  );
  const [hardest] = held.sort((one, other) => other.difficulty.total - one.difficulty.total);
  return hardest === undefined ? [] : [`hardest to hold ${hardest.as}, ${tellDifficulty(hardest.difficulty)}`];
}
