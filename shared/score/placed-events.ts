import { type ChordChange, chordAt } from '../lesson/model/chord-track.ts';
import { fretReached } from '../lesson/model/fret-reached.ts';
import { appliesTo, type Placement, sounds } from '../lesson/model/placements.ts';
import { stringOfNote } from '../lesson/model/plant.ts';
import type { ResolvedChord } from '../lesson/model/resolved-chord.ts';
import { sameLabel, type TimedGrid, type TimedMark, type TimedRow } from '../lesson/model/timed-grid.ts';
import type { NoteMark } from '../lesson/syntax/marks.ts';
import type { Ring } from '../lesson/syntax/statement.ts';
import type { Instrument } from '../neck/instrument.ts';
import { compare, earlier, minus, plus, type Rational, ZERO } from '../theory/rational.ts';
import type { Layer, ScoreEvent, ScoreNote, ScoreSyllable } from './timeline.ts';

/** What a placement makes sound, times from the start of the pass. Syllables and calls have no length. */
export interface PlacedSounds {
  readonly events: readonly PlacedEvent[];
  readonly syllables: readonly ScoreSyllable[];
  readonly calls: readonly ScoreSyllable[];
}

/** An event, and what is known of it before all patterns of a pass are put together. */
export interface PlacedEvent {
  readonly event: ScoreEvent;
  /** It ends with its pattern and not at a mark of its row: where another pattern follows it goes on to that one's first mark. */
  readonly runsOn: boolean;
  /** Its fret is the held shape's and not the row's own. */
  readonly fromShape: boolean;
  /** A place where nothing can be played, as the chord mutes the string: only what sounded before ends there. */
  readonly unheard?: true;
}

/** Every event of the placement, on the chords that are held when it begins. `ring` is what the exercise says of ringing strings. */
export function soundsOf(
  placement: Placement,
  changes: readonly ChordChange[],
  instrument: Instrument,
  ring: Ring | undefined,
): PlacedSounds {
  const { grid } = placement;
  const events: PlacedEvent[] = [];
  const syllables: ScoreSyllable[] = [];
  const calls: ScoreSyllable[] = [];
  for (const row of grid.rows) {
    if (row.kind === 'chord' || row.kind === 'fingers') continue;
    let last: ScoreNote | undefined;
    row.marks.forEach((mark, index) => {
      const at = plus(placement.start, mark.at);
      if (
        !sounds(placement, at) ||
        mark.mark.kind === 'hold' ||
        mark.mark.kind === 'keep' ||
        mark.mark.kind === 'faulty'
      )
        return;
      if (mark.mark.kind === 'syllable') {
        (row.kind === 'say' ? calls : syllables).push({ at, text: mark.mark.text, verse: row.voice });
        return;
      }
      const chord = chordAt(changes, at);
      if (!appliesTo(row, chord, grid)) return;
      const sound = eventOf(mark, row, grid, chord, instrument, last);
      if (sound === undefined) {
        if (mark.mark.kind === 'notes' && chord !== undefined) events.push(unheardAt(at, mark, row));
        return;
      }
      const end = earlier(plus(placement.start, endOf(sound, row, index, grid)), placement.end);
      if (sound.kind === 'notes') last = sound.notes.at(-1) ?? last;
      const event: ScoreEvent = {
        ...sound,
        at,
        length: minus(end, at),
        source: { entry: mark.entry, span: mark.word.span },
      };
      const rings = ring ?? grid.ring;
      events.push({
        event: event.kind === 'notes' && rings !== undefined ? { ...event, ring: rings } : event,
        runsOn: compare(end, placement.end) >= 0 || compare(end, plus(placement.start, grid.length)) >= 0,
        fromShape: mark.mark.kind === 'notes' && mark.mark.notes.every((note) => note.fret === undefined),
      });
    });
  }
  return { events, syllables, calls };
}

function unheardAt(at: Rational, { entry, word }: TimedMark, { kind, voice }: TimedRow): PlacedEvent {
  const layer: Layer = kind === 'tune' ? 'tune' : 'accompaniment';
  const source = { entry, span: word.span };
  const event: ScoreEvent = { kind: 'stop', layer, voice, strings: [], at, length: ZERO, source };
  return { event, runsOn: false, fromShape: false, unheard: true };
}

/** When a sound ends: at the row's next mark, but for a stop of other strings, or with the grid. */
function endOf(sound: Sound, row: TimedRow, index: number, grid: TimedGrid): Rational {
  const struck = sound.kind === 'notes' || sound.kind === 'strum' ? sound.notes.map(({ string }) => string) : [];
  for (let next = index + 1; next < row.marks.length; next++) {
    const timed = row.marks[next];
    if (timed === undefined || timed.mark.kind === 'hold') continue;
    const stopped = timed.mark.kind === 'stop' ? timed.mark.strings : [];
    const goesOn = stopped.length > 0 && struck.some((string) => !stopped.includes(string));
    if (!goesOn) return timed.at;
  }
  return grid.length;
}

type Sound = ScoreEvent extends infer Event
  ? Event extends ScoreEvent
    ? Omit<Event, 'at' | 'length' | 'source'>
    : never
  : never;

function eventOf(
  timed: TimedMark,
  row: TimedRow,
  grid: TimedGrid,
  chord: ResolvedChord | undefined,
  instrument: Instrument,
  last: ScoreNote | undefined,
): Sound | undefined {
  const { mark } = timed;
  const layer: Layer = row.kind === 'tune' ? 'tune' : 'accompaniment';
  switch (mark.kind) {
    case 'notes': {
      const notes = mark.notes.flatMap((note) => scoreNote(note, timed, row, grid, chord, instrument));
      return notes.length === 0 ? undefined : { kind: 'notes', layer, voice: row.voice, notes };
    }
    case 'technique': {
      const { technique } = mark;
      if (last === undefined) return undefined;
      // A trill stays where it is and touches its other fret.
      const trills = technique.kind === 'trill';
      const from = fretReached(last.fret, last.techniques);
      const note: ScoreNote = {
        string: last.string,
        fret: fretReached(from, [technique]),
        techniques: trills ? [technique] : [],
        arrivesBy: technique.kind,
        arrivesFrom: from,
        accent: false,
        restStroke: false,
      };
      return { kind: 'notes', layer, voice: row.voice, notes: [note] };
    }
    case 'strum': {
      // Where no chord is played strums rest, as the sheet says by N.C.
      if (chord === undefined) return undefined;
      const { direction, slow, damped, light, accent, strings } = mark;
      return {
        kind: 'strum',
        direction,
        slow,
        damped,
        light,
        accent,
        notes: struckStrings(chord, direction, strings, damped),
      };
    }
    case 'chunk':
    case 'roll':
    case 'shape-slide':
      return chord === undefined ? undefined : { kind: mark.kind, accent: mark.accent };
    case 'hit':
      return {
        kind: 'hit',
        place: mark.place,
        accent: mark.accent,
        ...(mark.string !== undefined
          ? { string: mark.string }
          : mark.place === 'thumb'
            ? { string: instrument.openStrings.length }
            : {}),
      };
    case 'stop':
      return { kind: 'stop', layer, voice: row.voice, strings: mark.strings };
    default:
      return undefined;
  }
}

function scoreNote(
  note: NoteMark,
  timed: TimedMark,
  row: TimedRow,
  grid: TimedGrid,
  chord: ResolvedChord | undefined,
  instrument: Instrument,
): readonly ScoreNote[] {
  // Picking rests where no chord is played; a tune with frets of its own goes on.
  if (row.kind === 'pick' && chord === undefined && note.fret === undefined) return [];
  const string = stringOfNote(note, chord, grid.plant?.strings, instrument);
  if (string === undefined || string > instrument.openStrings.length) return [];
  const held = chord?.shape[chord.shape.length - string];
  const fret = note.fret ?? (held === 'muted' ? undefined : held);
  if (fret === undefined) return [];
  const leftFinger = fingerAt(timed, row, grid);
  return [
    {
      string,
      fret,
      ...(note.finger === undefined ? {} : { finger: note.finger }),
      ...(leftFinger === undefined ? {} : { leftFinger }),
      techniques: note.techniques,
      accent: note.accent,
      restStroke: note.restStroke,
    },
  ];
}

function fingerAt(timed: TimedMark, row: TimedRow, grid: TimedGrid): number | 'T' | undefined {
  for (const fingers of grid.rows) {
    if (fingers.fingersOf === undefined || !sameLabel(fingers.fingersOf, row)) continue;
    const mark = fingers.marks.find((other) => compare(other.at, timed.at) === 0)?.mark;
    if (mark?.kind === 'finger') return mark.finger;
  }
  return undefined;
}

/** The strings that a stroke meets, in the order it meets them: down runs toward the floor, to string 1. */
export function struckStrings(
  chord: ResolvedChord,
  direction: 'down' | 'up',
  range: readonly [number, number] | undefined,
  damped: boolean,
): readonly { readonly string: number; readonly fret: number }[] {
  const strings = chord.shape.length;
  const low = range === undefined ? 1 : Math.min(...range);
  const high = range === undefined ? strings : Math.max(...range);
  const struck = chord.shape.flatMap((fret, index) => {
    const string = strings - index;
    if (string < low || string > high || (fret === 'muted' && !damped)) return [];
    return [{ string, fret: fret === 'muted' ? 0 : fret }];
  });
  return direction === 'down' ? struck : struck.reverse();
}
