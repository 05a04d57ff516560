import { fingerName } from '../../hand/finger.ts';
import { printPitch } from '../../theory/note.ts';
import { printRole } from '../../theory/role.ts';
import type { Contour } from './line.ts';
import { isStep, scaleSteps } from './melody-links.ts';
import type { Scale } from './scale.ts';
import type { TuneNote } from './tune.ts';
import type { TuneRequest } from './tune-problem.ts';

const GOES: Readonly<Record<Contour, string>> = {
  rise: 'rises',
  fall: 'falls',
  arch: 'rises and comes back',
  answer: 'calls and answers',
};

/**
 * `rises and comes back, C4 to C5; steps or stays into every new chord; 17 of 18 notes with the whole shape held, the others lift one
 * finger; ends on E4, the root of Em`
 */
export function tellTune(
  { contour, scale }: Pick<TuneRequest, 'contour' | 'scale'>,
  notes: readonly TuneNote[],
): string {
  const last = notes.at(-1);
  if (last === undefined) return '';
  const byPitch = [...notes].sort((one, other) => one.midi - other.midi);
  const [low, high] = [byPitch[0] ?? last, byPitch.at(-1) ?? last];
  const told = [
    `${GOES[contour]}, ${printPitch(low.pitch)} to ${printPitch(high.pitch)}`,
    tellChanges(scale, notes),
    tellHold(notes),
    `ends on ${printPitch(last.pitch)}, the ${degreeOf(last)} of ${last.chord.name}`,
  ];
  return told.filter((part) => part !== '').join('; ');
}

function tellChanges(scale: Scale, notes: readonly TuneNote[]): string {
  const steps = scaleSteps(scale);
  const changes = notes.flatMap((note, at) => {
    const before = notes[at - 1];
    if (before === undefined || before.chord === note.chord) return [];
    return [note.midi === before.midi || isStep(steps, before.midi, note.midi)];
  });
  if (changes.length === 0) return '';
  const wide = changes.filter((smooth) => !smooth).length;
  if (wide === 0) return 'steps or stays into every new chord';
  return `steps or stays into ${changes.length - wide} of ${changes.length} new chords`;
}

function tellHold(notes: readonly TuneNote[]): string {
  const lifted = notes.filter(({ way }) => way.sort === 'lifted');
  const free = notes.flatMap(({ way }) => (way.sort === 'free' && way.finger !== undefined ? [way.finger] : []));
  const most = [...new Set(free)].sort(
    (a, b) => free.filter((f) => f === b).length - free.filter((f) => f === a).length,
  );
  const [busy] = most;
  const finger = busy === undefined ? '' : `, the ${fingerName(busy)} adds most`;
  if (lifted.length === 0) return `the shapes stay down throughout${finger}`;
  const told = lifted.length === 1 ? 'one note lifts' : `${lifted.length} of ${notes.length} notes lift`;
  return `${told} a finger of the shape${finger}`;
}

const DEGREES: Readonly<Record<number, string>> = { 1: 'root', 3: 'third', 5: 'fifth', 7: 'seventh' };

function degreeOf({ tone }: TuneNote): string {
  return DEGREES[tone.role.degree] ?? printRole(tone.role);
}
