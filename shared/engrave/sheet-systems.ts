import type { Scope } from '../lesson/model/scope.ts';
import type { ExerciseScore, Pass } from '../score/timeline.ts';
import { printNote } from '../theory/note.ts';
import type { SheetView } from './block.ts';
import type { KeptPieces } from './kept-pieces.ts';
import type { LegendSign } from './legend.ts';
import { areLight, type Draft, draft, hullOf } from './sheet-draft.ts';
import { markupOf } from './sheet-markup.ts';
import { systemsOf } from './tab-system.ts';
import type { Pace } from './tab-tempo.ts';

export interface DrawnSystems {
  readonly drafts: readonly Draft[];
  readonly signs: readonly LegendSign[];
}

/**
 * One time through an exercise as blocks, a line of bars each. `counts` is false where all its patterns were counted aloud before,
 * further up on the sheet.
 */
export function systemDrafts(
  scope: Scope,
  view: SheetView,
  score: ExerciseScore,
  pass: Pass,
  counts: boolean,
  pieces: KeptPieces,
): DrawnSystems {
  const stringNames = scope.edition().instrument.openStrings.map((pitch) => printNote(pitch, 'signs'));
  const pace = paceOf(scope, score, pass);
  for (let mostBars = Math.max(1, pass.bars.length); ; mostBars = Math.ceil(mostBars / 2)) {
    const systems = systemsOf(score, pass, {
      widthMm: view.widthMm,
      stringNames,
      mostBars,
      counts,
      pieces,
      ...(pace === undefined ? {} : { pace }),
      leftHanded: view.leftHanded,
    });
    const drafts = systems.flatMap(({ drawing, places }) => {
      const source = hullOf(places);
      return source === undefined ? [] : [draft('system', { kind: 'system', drawing }, source, places)];
    });
    // A page is sent as a whole, whatever its lines weigh.
    if (mostBars === 1 || view.page !== undefined || areLight(drafts)) {
      const signs = [...new Set(systems.flatMap((system) => system.signs))];
      return { drafts: view.page === undefined ? drafts.map(written) : drafts, signs };
    }
  }
}

function written(drawn: Draft): Draft {
  return { ...drawn, content: { kind: 'written', markup: markupOf(drawn.content) } };
}

/** The exercise's own tempo, else the lesson's. Bars in which nothing is played have no pace, and a second time through keeps it. */
function paceOf(scope: Scope, score: ExerciseScore, pass: Pass): Pace | undefined {
  const [first] = pass.bars;
  if (first === undefined || (pass.number ?? 1) > 1 || pass.bars.every((bar) => bar.events.length === 0))
    return undefined;
  const tempo = score.tempo ?? scope.setting('tempo');
  return { feel: scope.setting('feel'), meter: first.meter, ...(tempo === undefined ? {} : { tempo }) };
}
