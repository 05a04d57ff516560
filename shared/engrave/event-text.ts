import type { Technique } from '../lesson/syntax/marks.ts';
import type { ScoreEvent, ScoreNote } from '../score/timeline.ts';
import { listed } from '../text/counted.ts';

/** How a string is said: `string 4`, or with the name of its open note where that helps. */
export type SayString = (string: number) => string;

/** What is done at one moment, as a teacher would say it: `thumb, string 4 open, together with down-stroke, strings 3 to 1`. */
export function describeMoment(events: readonly ScoreEvent[], say: SayString): string {
  const [only] = events;
  if (events.length === 1 && only !== undefined && only.kind !== 'held') return describeEvent(only, say);
  const held = events.filter((event) => event.kind === 'held');
  const done = events.filter((event) => event.kind !== 'held').map((event) => describeEvent(event, say));
  // Two voices may hold at once, which is one thing to hear.
  return [...new Set([...done, ...held.map(describeHeld)])].join(', together with ');
}

function describeHeld(event: Extract<ScoreEvent, { kind: 'held' }>): string {
  return event.layer === 'tune' ? 'the tune note before is held' : 'the sound before is held';
}

function describeEvent(event: Exclude<ScoreEvent, { kind: 'held' }>, say: SayString): string {
  const goesOn = event.goesOn === true ? ', held over the bar line' : '';
  return `${describeSound(event, say)}${goesOn}`;
}

function describeSound(event: Exclude<ScoreEvent, { kind: 'held' }>, say: SayString): string {
  switch (event.kind) {
    case 'notes': {
      const [only] = event.notes;
      const notes =
        event.notes.length === 1 && only !== undefined
          ? describeNote(only, say)
          : listed(event.notes.map((note) => describeNote(note, say)));
      const together = event.notes.length > 1 ? ' together' : '';
      return event.layer === 'tune' ? `tune, ${notes}${together}` : `${notes}${together}`;
    }
    case 'strum':
      return describeStrum(event, say);
    case 'chunk':
      return accented(event, 'chunk: a stroke that the strumming hand stops');
    case 'roll':
      return accented(event, 'roll, one finger after another');
    case 'shape-slide':
      return accented(event, 'slide the shape');
    case 'hit': {
      const place = HIT_PLACES[event.place];
      return accented(event, event.string === undefined ? place : `${place}, ${say(event.string)}`);
    }
    case 'stop':
      return event.strings.length === 0 ? 'stop all strings' : `stop ${listed(event.strings.map(say))}`;
  }
}

const HIT_PLACES = {
  thumb: 'thumb slap',
  palm: 'palm on the strings',
  nails: 'nails on the strings',
  body: 'knock on the body',
} as const;

function describeStrum(event: Extract<ScoreEvent, { kind: 'strum' }>, say: SayString): string {
  const first = event.notes[0]?.string;
  const last = event.notes.at(-1)?.string;
  const words = [
    event.accent ? 'accented' : '',
    event.light ? 'light' : '',
    event.slow ? 'slow' : '',
    event.damped ? 'damped' : '',
    event.direction === 'down' ? 'down-stroke' : 'up-stroke',
  ];
  const stroke = words.filter((word) => word !== '').join(' ');
  if (first === undefined || last === undefined) return stroke;
  return first === last ? `${stroke}, ${say(first)}` : `${stroke}, strings ${first} to ${last}`;
}

function accented(event: { readonly accent: boolean }, text: string): string {
  return event.accent ? `accented ${text}` : text;
}

/** Fingers of the picking hand. Source: the letters of Spanish guitar teaching, pulgar, índice, medio, anular; common practice. */
const PICKING_FINGERS = { p: 'thumb', i: 'index', m: 'middle', a: 'ring' } as const;

/** What the left hand does in a column of its own to a note that sounds; a trill is told with its fret. */
const KEPT_ON: Readonly<Partial<Record<Technique['kind'], string>>> = {
  vibrato: ' with vibrato',
  bend: ' with a bend',
  trill: '',
};

function describeNote(note: ScoreNote, say: SayString): string {
  const finger = note.finger === undefined ? '' : PICKING_FINGERS[note.finger];
  const stroke = `${note.accent ? 'accented ' : ''}${note.restStroke ? 'rest stroke ' : ''}${finger}`.trimEnd();
  const fret = note.fret === 0 ? 'open' : `fret ${note.fret}`;
  const left =
    note.leftFinger === undefined || note.leftFinger === 0
      ? ''
      : ` with ${note.leftFinger === 'T' ? 'the thumb' : `finger ${note.leftFinger}`}`;
  let techniques = '';
  for (const technique of note.techniques) techniques += `, ${describeTechnique(technique)}`;
  const kept = note.arrivesBy === undefined ? undefined : KEPT_ON[note.arrivesBy];
  if (kept !== undefined) return `${say(note.string)} ${fret} goes on${kept}${techniques}`;
  const arrives = note.arrivesBy === undefined ? '' : `${note.arrivesBy}, `;
  const hand = stroke === '' ? '' : `${stroke}, `;
  return `${arrives}${hand}${say(note.string)} ${fret}${left}${techniques}`;
}

function describeTechnique(technique: Technique): string {
  switch (technique.kind) {
    case 'hammer-on':
    case 'pull-off':
      return `${technique.kind} to ${technique.fret === 0 ? 'open' : `fret ${technique.fret}`}`;
    case 'slide':
      return `slide to fret ${technique.fret}`;
    case 'trill':
      return `trill with fret ${technique.fret}`;
    case 'bend':
    case 'vibrato':
    case 'harmonic':
      return technique.kind;
  }
}
