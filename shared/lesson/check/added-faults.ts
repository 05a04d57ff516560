import {
  type AddedNote,
  canAdd,
  canPlayTogether,
  fingersForAdded,
  freeFingers,
  judgeAdded,
  type KeptShape,
  keepingOnly,
  leavingStringsTo,
  liftsForAdded,
  nearestFinger,
} from '../../hand/added-notes.ts';
import { type Finger, fingerList, fingerName } from '../../hand/finger.ts';
import { CAUTION_IN_SHORT } from '../../hand/reach.ts';
import { midiAt } from '../../neck/pitches.ts';
import { stringNumber } from '../../neck/shape.ts';
import { listed } from '../../text/counted.ts';
import type { Fix, Severity } from '../../text/problem.ts';
import type { TimedMark } from '../model/timed-grid.ts';
import type { AddedStep } from './added-steps.ts';
import { write } from './finding.ts';

/** A note that a hand cannot add to the shape it holds, and the mark that asks for it. */
export interface AddedFault {
  readonly mark: TimedMark;
  readonly severity: Severity;
  readonly code: string;
  /** Worked out when it is told: of many ways to hold a shape most are only tried. */
  readonly tell: () => string;
  readonly fixes: () => readonly Fix[];
  /** What is wrong over which chord, the same at whichever frets; absent where only the words say it. */
  readonly about?: string;
}

/** What a step is asked of. */
export interface AddedQuestion {
  /** What the lesson calls the chord. */
  readonly name: string;
  readonly kept: KeptShape;
  /** Notes on other strings that sound at the same time. */
  readonly beside: readonly AddedNote[];
  /** Whether a string, by its place in chart order, must go on sounding. */
  readonly mustSound: (stringIndex: number) => boolean;
}

/** Everything that speaks against a step while the shape is held. */
export function faultsOfStep(question: AddedQuestion, step: AddedStep): readonly AddedFault[] {
  const { kept, name, beside } = question;
  const notes = addedNotes(kept, step);
  const finger = step.finger?.mark.kind === 'finger' ? step.finger.mark.finger : undefined;
  const [only, ...others] = notes;
  if (step.finger !== undefined && finger !== undefined && only !== undefined && others.length === 0) {
    return judgeGiven(question, step.finger, only, finger);
  }
  const together = [...startsOf(kept, step), ...beside];
  // Other notes have their strings to themselves as well.
  const keptFor = (note: AddedNote) =>
    leavingStringsTo(
      kept,
      together.filter(({ stringIndex }) => stringIndex !== note.stringIndex),
    );
  const unreachable = notes.filter((note) => !canAdd(keptFor(note), note));
  if (unreachable.length > 0) {
    return unreachable.map((note) => ({
      about: `${name} ${notes.indexOf(note)}`,
      mark: step.mark,
      severity: 'warning',
      code: 'tune.out-of-hand',
      tell: () => tellUnreachable(name, keptFor(note), note),
      fixes: () => otherPlaces(kept, step, note),
    }));
  }
  if (together.length < 2 || canPlayTogether(kept, together)) return [];
  const tell = (): string => {
    const places = together.map((note) => placeOf(kept, note)).join(' and ');
    return `While ${name} is held, ${places} cannot be held down together.`;
  };
  return [
    { mark: step.mark, severity: 'warning', code: 'tune.out-of-hand', tell, fixes: noFixes, about: `${name} together` },
  ];
}

/** Every fret that the step comes to. */
function addedNotes({ shape }: KeptShape, { notes }: AddedStep): readonly AddedNote[] {
  return notes.flatMap(({ string, frets }) => frets.map((fret) => ({ stringIndex: shape.length - string, fret })));
}

/** What the step holds down as it begins. */
export function startsOf({ shape }: Pick<KeptShape, 'shape'>, { notes }: AddedStep): readonly AddedNote[] {
  return notes.flatMap(({ string, frets: [fret] }) =>
    fret === undefined ? [] : [{ stringIndex: shape.length - string, fret }],
  );
}

/** `While Em is held no finger reaches string 1 fret 9; the little finger is free and reaches fret 5, no farther.` */
function tellUnreachable(name: string, kept: KeptShape, note: AddedNote): string {
  const { shape, fingers } = kept;
  if (note.fret === 0) {
    const across = fingers[note.stringIndex];
    const why = across === undefined || across === 0 ? 'the shape' : `the ${fingerName(across)}`;
    return `While ${name} is held, string ${stringNumber(note.stringIndex, shape.length)} cannot ring open: ${why} lies across it.`;
  }
  const told = `While ${name} is held no finger reaches ${placeOf(kept, note)}; ${tellFree(kept, note)}`;
  const isFar = freeFingers(kept).some((finger) =>
    judgeAdded(kept, note, finger).faults.some(({ code }) => code === 'fingers.out-of-reach'),
  );
  return isFar ? `${told} ${CAUTION_IN_SHORT}` : told;
}

function tellFree(kept: KeptShape, note: AddedNote): string {
  const free = freeFingers(kept);
  if (free.length === 0) return 'none of the four is free.';
  const nearest = nearestFinger(kept, note);
  const are = free.length === 1 ? 'is' : 'are';
  if (nearest === undefined) return `the ${fingerList(free)} ${are} free, but without room on that string.`;
  const who = free.length === 1 ? 'and' : `and the ${fingerName(nearest.finger)}`;
  const end = nearest.fret < note.fret ? 'farther' : 'lower';
  return `the ${fingerList(free)} ${are} free ${who} reaches fret ${nearest.fret}, no ${end}.`;
}

/** `string 1 fret 9` */
function placeOf({ shape }: KeptShape, { stringIndex, fret }: AddedNote): string {
  return `string ${stringNumber(stringIndex, shape.length)} fret ${fret}`;
}

/** The same pitch on another string, where the hand has it there. */
function otherPlaces(kept: KeptShape, { mark }: AddedStep, note: AddedNote): readonly Fix[] {
  const { instrument, shape } = kept;
  const { word } = mark;
  const midi = midiAt(instrument, note.stringIndex, note.fret);
  // What says more than a place would lose it.
  if (midi === undefined || !/^\d:\d+$/.test(word.text)) return [];
  const last = instrument.frets - instrument.capoFret;
  const places = shape.flatMap((_, stringIndex): readonly AddedNote[] => {
    const open = midiAt(instrument, stringIndex, 0);
    const fret = open === undefined ? -1 : midi - open;
    const other = { stringIndex, fret };
    const isThere = stringIndex !== note.stringIndex && fret >= 0 && fret <= last;
    return isThere && canAdd(kept, other) ? [other] : [];
  });
  const [best] = [...places].sort((one, other) => one.fret - other.fret);
  if (best === undefined) return [];
  const string = stringNumber(best.stringIndex, shape.length);
  const text = `${string}:${best.fret}`;
  return write(word.span, text, `Play the same note on string ${string}: ${text}`);
}

/** A finger that the lesson names for the note: it reaches, or leaves its string for it, which is said. */
function judgeGiven(
  question: AddedQuestion,
  mark: TimedMark,
  note: AddedNote,
  given: number | 'T',
): readonly AddedFault[] {
  const { name, kept, mustSound } = question;
  // A fretted note without a finger, and a finger on an open string, are told without any chord.
  if ((given === 0) !== (note.fret === 0)) return [];
  const finger = given as Finger | 0;
  const { faults } = judgeAdded(kept, note, finger);
  if (faults.length === 0) return [];
  const fixes = (): readonly Fix[] => {
    const [other] = fingersForAdded(kept, note);
    return other === undefined ? [] : write(mark.word.span, String(other), `Use finger ${other}`);
  };
  const lift = leastLift(question, note, finger);
  if (lift !== undefined) {
    const severity = lift.silent.some(mustSound) ? 'warning' : 'hint';
    const tell = () => tellLift(question, note, finger, lift);
    return [{ mark, severity, code: 'fingers.lifts', tell, fixes }];
  }
  if (finger === 0) {
    return [
      {
        mark,
        severity: 'warning',
        code: 'tune.out-of-hand',
        tell: () => tellUnreachable(name, kept, note),
        fixes: noFixes,
        about: `${name} 0`,
      },
    ];
  }
  // A finger that has left its own strings is told of what is in its way then.
  const without = judgeAdded(
    keepingOnly(kept, (at) => kept.fingers[at] !== finger || at === note.stringIndex),
    note,
    finger,
  ).faults;
  return without.slice(0, 1).map(({ code, message }) => ({
    mark,
    severity: 'warning',
    code,
    tell: () => `While ${name} is held, ${message.slice(0, 1).toLowerCase()}${message.slice(1)}`,
    fixes,
    about: `${name} 0`,
  }));
}

/** A finger that lifts for a note, and the strings that fall silent, as places in chart order. */
interface Lift {
  readonly lifted: Finger;
  readonly silent: readonly number[];
}

/** The finger whose lifting lets the note be played: the one that plays it, else the one that is missed least. Nothing where none helps. */
function leastLift({ kept, mustSound }: AddedQuestion, note: AddedNote, finger: Finger | 0): Lift | undefined {
  const lifts = liftsForAdded(kept, note, finger).map((lifted): Lift => {
    const silent = kept.fingers.flatMap((other, at) => (other === lifted && at !== note.stringIndex ? [at] : []));
    return { lifted, silent };
  });
  const missed = ({ silent }: Lift) => silent.filter(mustSound).length;
  const own = lifts.find(({ lifted }) => lifted === finger);
  return own ?? lifts.sort((a, b) => missed(a) - missed(b) || a.silent.length - b.silent.length)[0];
}

/** `In Dm7 the index finger holds string 2; for the little finger to reach this note it lifts, and string 2 stops sounding.` */
function tellLift(
  { name, kept }: AddedQuestion,
  note: AddedNote,
  finger: Finger | 0,
  { lifted, silent }: Lift,
): string {
  const strings = tellStrings(kept, silent);
  const what =
    finger === lifted
      ? 'for this note'
      : finger === 0
        ? `for string ${stringNumber(note.stringIndex, kept.shape.length)} to ring open`
        : `for the ${fingerName(finger)} to play this note`;
  return `In ${name} the ${fingerName(lifted)} holds ${strings}; ${what} it lifts, and ${strings} stop${silent.length === 1 ? 's' : ''} sounding.`;
}

function tellStrings({ shape }: KeptShape, indexes: readonly number[]): string {
  const numbers = indexes.map((at) => stringNumber(at, shape.length));
  return `${numbers.length === 1 ? 'string' : 'strings'} ${listed(numbers.map(String))}`;
}

function noFixes(): readonly Fix[] {
  return [];
}
