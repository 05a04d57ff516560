import { stringNumber } from '../neck/shape.ts';
import { capitalised } from '../text/capital.ts';
import type { Change, FingerMove, HandShift } from './change.ts';
import type { JudgedChange, Tightest } from './change-speed.ts';
import { type Finger, fingerName } from './finger.ts';
import type { Press } from './fingering.ts';

/**
 * What a teacher would say about a change on an instrument of `stringCount` strings.
 * `Keep finger 1 on string 2; finger 3 slides from fret 3 to fret 2 on string 1; lift finger 4.`
 */
export function tellChange({ moves, shift }: Change, stringCount: number): string {
  const told = ORDER.flatMap((kind) =>
    moves.filter((move) => move.kind === kind).map((move) => tellMove(move, stringCount)),
  );
  if (moves.every(({ kind }) => kind === 'stays')) {
    return moves.length === 0 ? 'No finger is needed before or after.' : 'All fingers stay where they are.';
  }
  const sentence = `${capitalised(told.join('; '))}.`;
  return shift === undefined ? sentence : `${sentence} ${tellShift(shift)}`;
}

/** `This change takes a practised hand about 0.41 s, and there are 0.33 s.` Nothing to say where it is easy. */
export function tellSpeed({ verdict, neededSeconds, seconds }: JudgedChange): string | undefined {
  if (verdict === 'easy') return undefined;
  const needs = `This change takes a practised hand about ${neededSeconds.toFixed(2)} s`;
  return verdict === 'quick'
    ? `${needs} of the ${seconds.toFixed(2)} s there are: practise it slowly first.`
    : `${needs}, and there are only ${seconds.toFixed(2)} s: slow down, or take a shape that lies nearer.`;
}

/** What there is least time for: `finger 1 from string 5 to string 6`, `the hand’s way along the neck`. */
export function tellTightest(tightest: Tightest, stringCount: number): string {
  if (tightest.kind === 'hand') return 'the hand’s way along the neck';
  const { move } = tightest;
  const finger = named(move.kind === 'lifts' ? move.from.finger : move.to.finger);
  switch (move.kind) {
    case 'stays':
    case 'rolls':
      return `${finger} on ${strings(move.to, stringCount)}`;
    case 'slides':
      return `${finger} along ${strings(move.to, stringCount)}`;
    case 'lifts':
      return `${finger} to leave ${strings(move.from, stringCount)}`;
    case 'lands':
      return `${finger} to ${strings(move.to, stringCount)}`;
    case 'moves':
      return `${finger} from ${strings(move.from, stringCount)} to ${strings(move.to, stringCount)}`;
  }
}

/** What to hold on to comes first, then what leaves, then what arrives. */
const ORDER: readonly FingerMove['kind'][] = ['stays', 'slides', 'rolls', 'lifts', 'moves', 'lands'];

function tellMove(move: FingerMove, stringCount: number): string {
  switch (move.kind) {
    case 'stays':
      return `keep ${named(move.from.finger)} on ${strings(move.from, stringCount)}`;
    case 'slides':
      return `${named(move.to.finger)} slides from fret ${move.from.fret} to fret ${move.to.fret} on ${strings(move.to, stringCount)}`;
    case 'rolls': {
      const wider = move.to.to - move.to.from > move.from.to - move.from.from;
      const how = wider ? 'lies down across' : move.to.from === move.to.to ? 'gets up to' : 'rolls to';
      return `${named(move.to.finger)} ${how} ${strings(move.to, stringCount)} in fret ${move.to.fret}`;
    }
    case 'lifts':
      return `lift ${named(move.from.finger)}`;
    case 'moves':
      return `${named(move.to.finger)} goes to ${strings(move.to, stringCount)} at fret ${move.to.fret}`;
    case 'lands':
      return `put ${named(move.to.finger)} down on ${strings(move.to, stringCount)} at fret ${move.to.fret}`;
  }
}

function tellShift({ fromFret, toFret, distanceMm }: HandShift): string {
  const frets = Math.abs(toFret - fromFret);
  const way = toFret > fromFret ? 'up' : 'down';
  return `The hand goes ${way} the neck by ${frets} ${frets === 1 ? 'fret' : 'frets'} (${Math.round(distanceMm)} mm).`;
}

function named(finger: Finger): string {
  return finger === 'T' ? `the ${fingerName(finger)}` : `finger ${finger}`;
}

function strings({ from, to }: Press, stringCount: number): string {
  const first = stringNumber(from, stringCount);
  const last = stringNumber(to, stringCount);
  if (first === last) return `string ${first}`;
  return `strings ${first} ${first - last === 1 ? 'and' : 'to'} ${last}`;
}
