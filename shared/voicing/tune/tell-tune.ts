import { fingerName } from '../../hand/finger.ts';
import { listed } from '../../text/counted.ts';
import { printPitch } from '../../theory/note.ts';
import { roleInWords } from '../../theory/role.ts';
import { type Contour, goesAsAsked } from './line.ts';
import { isStep, scaleSteps } from './melody-links.ts';
import type { Scale } from './scale.ts';
import type { TuneNote } from './tune.ts';
import type { TuneRequest } from './tune-problem.ts';

/**
 * `rises from C4 to C5 and comes back; steps or stays into every new chord; one note lifts a finger of the shape: C5 at 1:3
 * over Am, the little finger adds most; ends on E4, the root of Em`
 */
export function tellTune(
  { contour, scale }: Pick<TuneRequest, 'contour' | 'scale'>,
  notes: readonly TuneNote[],
): string {
  const last = notes.at(-1);
  if (last === undefined) return '';
  const told = [
    tellWay(contour, notes),
    tellChanges(scale, notes),
    tellHold(notes),
    `ends on ${printPitch(last.pitch)}, the ${roleInWords(last.tone.role)} of ${last.chord.name}`,
  ];
  return told.filter((part) => part !== '').join('; ');
}

/** How it goes, told in the order in which it is heard: a fall from its high note to its low one. */
function tellWay(contour: Contour, notes: readonly TuneNote[]): string {
  const midi = notes.map((note) => note.midi);
  const [lowest, highest] = [Math.min(...midi), Math.max(...midi)];
  const name = (wanted: number) => notes.flatMap(({ midi, pitch }) => (midi === wanted ? [printPitch(pitch)] : []))[0];
  const range = `between ${name(lowest)} and ${name(highest)}`;
  if (lowest === highest) return `stays on ${name(lowest)}`;
  if (!goesAsAsked(contour, midi)) return `moves ${range}`;
  switch (contour) {
    case 'rise':
      return `rises from ${name(lowest)} to ${name(highest)}`;
    case 'fall':
      return `falls from ${name(highest)} to ${name(lowest)}`;
    case 'arch':
      return `rises from ${name(Math.min(...midi.slice(0, midi.indexOf(highest))))} to ${name(highest)} and comes back`;
    case 'answer':
      return `calls and answers, ${range}`;
  }
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
  if (wide === changes.length) return `leaps into ${wide === 1 ? 'the new chord' : 'every new chord'}`;
  return `steps or stays into ${changes.length - wide} of ${changes.length} new chords`;
}

function tellHold(notes: readonly TuneNote[]): string {
  const free = notes.flatMap(({ way }) => (way.sort === 'free' && way.finger !== undefined ? [way.finger] : []));
  const most = [...new Set(free)].sort(
    (a, b) => free.filter((f) => f === b).length - free.filter((f) => f === a).length,
  );
  const [busy] = most;
  const finger = busy === undefined ? '' : `, the ${fingerName(busy)} adds most`;
  return `${tellLifted(notes)}${finger}`;
}

/** What becomes of the fingers of the shapes, with the notes that move one. */
function tellLifted(notes: readonly TuneNote[]): string {
  const shapes = new Set(notes.map(({ chord }) => chord)).size === 1 ? 'the shape stays' : 'the shapes stay';
  const lifted = notes.filter(({ way }) => way.sort === 'lifted');
  const flat = notes.filter(({ way }) => way.sort === 'flat');
  if (lifted.length > 0) {
    const told = lifted.length === 1 ? 'one note lifts' : `${lifted.length} of ${notes.length} notes lift`;
    return `${told} a finger of the shape: ${tellPlaces(lifted)}`;
  }
  return flat.length > 0
    ? `${shapes} down, with a finger laid flat for ${tellPlaces(flat)}`
    : `${shapes} down throughout`;
}

/** `C4 at 3:0 over G and E4 at 2:0 over Em`, each place once. */
function tellPlaces(notes: readonly TuneNote[]): string {
  return listed([
    ...new Set(
      notes.map(({ pitch, string, fret, chord }) => `${printPitch(pitch)} at ${string}:${fret} over ${chord.name}`),
    ),
  ]);
}
