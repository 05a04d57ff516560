import guitarFile from '@tombatossals/chords-db/lib/guitar.json' with { type: 'json' };
import ukuleleFile from '@tombatossals/chords-db/lib/ukulele.json' with { type: 'json' };
import type { FingerFaultCode, Fingering, PairReach } from '../../shared/hand/fingering.ts';
import { fingeringsOf } from '../../shared/hand/fingering-search.ts';
import { judgeFingers } from '../../shared/hand/given-fingers.ts';
import type { HandSize } from '../../shared/hand/hand.ts';
import type { Instrument } from '../../shared/neck/instrument.ts';
import { printShape, type Shape } from '../../shared/neck/shape.ts';
import { instrument } from '../neck/playing.ts';
import { printFingers } from './fingers.ts';

// Our fingerings against those of the open data set @tombatossals/chords-db 0.5.1 (MIT), worked out once for the test and the report.

/** One shape of the set with the fingers that the set gives. */
interface FingeredShape {
  /** As the set writes it, with the number of the shape: `Bmadd9 1`. */
  readonly entry: string;
  readonly shape: Shape;
  /** In chart order, 0 where no finger is. */
  readonly fingers: readonly number[];
}

/** What a difference between the set's fingering and our first one comes to. */
export type DifferenceKind = 'strained' | 'more-barres' | 'fewer-barres' | 'other-fingers' | 'other-barres';

export interface Difference {
  readonly kind: DifferenceKind;
  readonly entry: string;
  readonly shape: string;
  readonly theirs: string;
  readonly ours: string;
  /** How many of our fingerings come before the set's. */
  readonly before: number;
}

export interface ImpossibleFingers {
  readonly entry: string;
  readonly shape: string;
  readonly fingers: string;
  readonly codes: readonly FingerFaultCode[];
  readonly why: string;
}

export interface BeyondReach {
  readonly entry: string;
  readonly shape: string;
  readonly fingers: string;
  readonly widest: PairReach;
}

export interface FingeringFigures {
  readonly name: string;
  readonly instrument: Instrument;
  readonly hand: HandSize;
  readonly shapes: number;
  /** The set's fingering has no better one before it; one of equal cost may stand beside it. */
  readonly first: number;
  /** Fewer than three of ours are better. */
  readonly amongThree: number;
  readonly differences: readonly Difference[];
  readonly impossible: readonly ImpossibleFingers[];
  /** Shapes that four fingers do not stop, however long they are. */
  readonly tooManyFingers: readonly { readonly entry: string; readonly shape: string }[];
  /** Shapes that this hand does not reach with any fingering. */
  readonly beyond: readonly BeyondReach[];
  /** The same for a large hand. */
  readonly beyondLarge: readonly BeyondReach[];
}

interface DataFile {
  readonly chords: Readonly<
    Record<
      string,
      readonly {
        readonly key: string;
        readonly suffix: string;
        readonly positions: readonly {
          readonly frets: readonly number[];
          readonly fingers: readonly number[];
          readonly baseFret: number;
        }[];
      }[]
    >
  >;
}

/** The set is for nobody in particular, so it is measured with a medium hand, on the usual size of each instrument. */
export const FIGURES: readonly FingeringFigures[] = [
  figuresOf('ukulele', 'tenor ukulele, high G', ukuleleFile as DataFile),
  figuresOf('guitar', 'guitar', guitarFile as unknown as DataFile),
];

function fingeredShapes({ chords }: DataFile): readonly FingeredShape[] {
  return Object.values(chords)
    .flat()
    .flatMap(({ key, suffix, positions }) =>
      positions.map(({ frets, fingers, baseFret }, index) => ({
        entry: `${key.replace('sharp', '#')} ${suffix} ${index + 1}`,
        shape: frets.map((fret) => (fret < 0 ? ('muted' as const) : fret === 0 ? 0 : fret + baseFret - 1)),
        fingers,
      })),
    );
}

function figuresOf(name: string, on: string, file: DataFile): FingeringFigures {
  const hand: HandSize = 'medium';
  const played = instrument(on);
  const shapes = fingeredShapes(file);
  const differences: Difference[] = [];
  const impossible: ImpossibleFingers[] = [];
  const beyond: BeyondReach[] = [];
  const beyondLarge: BeyondReach[] = [];
  const tooManyFingers: { entry: string; shape: string }[] = [];
  let first = 0;
  let amongThree = 0;
  for (const one of shapes) {
    const ours = fingeringsOf(played, one.shape, hand);
    if (ours.length === 0) tooManyFingers.push({ entry: one.entry, shape: printShape(one.shape) });
    beyond.push(...beyondReach(one, ours));
    beyondLarge.push(...beyondReach(one, fingeringsOf(played, one.shape, 'large')));
    const judged = judgeFingers(played, one.shape, one.fingers, hand);
    const shape = printShape(one.shape);
    if (judged.fingering === undefined) {
      const codes = judged.faults.map(({ code }) => code);
      const why = judged.faults.map(({ message }) => message).join(' ');
      impossible.push({ entry: one.entry, shape, fingers: one.fingers.join(''), codes, why });
      continue;
    }
    const theirs = printFingers(judged.fingering);
    const at = ours.findIndex((way) => printFingers(way) === theirs);
    const [best] = ours;
    const set = ours[at];
    if (best === undefined || set === undefined) throw new Error(`${one.entry}: ${theirs} is judged but not found.`);
    const before = ours.filter((way, place) => place < at && !isEqual(way, set)).length;
    if (before === 0) first += 1;
    if (before < 3) amongThree += 1;
    if (before === 0) continue;
    differences.push({ kind: kindOf(set, best), entry: one.entry, shape, theirs, ours: printFingers(best), before });
  }
  return {
    name,
    instrument: played,
    hand,
    shapes: shapes.length,
    first,
    amongThree,
    differences,
    impossible,
    tooManyFingers,
    beyond,
    beyondLarge,
  };
}

function isEqual(one: Fingering, other: Fingering): boolean {
  return one.verdict === other.verdict && Math.abs(one.cost.total - other.cost.total) < 1e-9;
}

function kindOf(theirs: Fingering, ours: Fingering): DifferenceKind {
  if (theirs.verdict !== ours.verdict) return 'strained';
  const barres = ({ presses }: Fingering) => presses.filter(({ from, to }) => from !== to);
  const places = (of: Fingering) =>
    barres(of)
      .map(({ fret, from, to }) => `${fret} ${from} ${to}`)
      .join();
  const more = barres(theirs).length - barres(ours).length;
  if (more !== 0) return more > 0 ? 'more-barres' : 'fewer-barres';
  return places(theirs) === places(ours) ? 'other-fingers' : 'other-barres';
}

/** The shape with the fingering that comes nearest, where no fingering is within reach. */
function beyondReach({ entry, shape }: FingeredShape, ways: readonly Fingering[]): readonly BeyondReach[] {
  const [best] = ways;
  const widest = best?.widest;
  if (best?.verdict !== 'out-of-reach' || widest === undefined) return [];
  return [{ entry, shape: printShape(shape), fingers: printFingers(best), widest }];
}
