import type { ResolvedChord } from '../../lesson/model/resolved-chord.ts';
import { closesRepeat } from '../../score/repeat-ties.ts';
import { rhythmOf } from '../../score/rhythm.ts';
import type { RhythmEntry, RhythmLine } from '../../score/rhythm-line.ts';
import { noteLineOf } from '../../score/rhythm-sides.ts';
import type { ScoreBar, ScoreEvent } from '../../score/timeline.ts';
import { compare, plus } from '../../theory/rational.ts';
import { chordHeldAt } from '../chord-held.ts';
import { type Sound, soundsOfEvent, strokeOf } from './event-notes.ts';
import type { Link, WrittenEntry, WrittenNote, WrittenStroke, WrittenVoice } from './written-note.ts';

/** A note while the notes after it are still to be looked at: they may come from it, or tie it on. */
type OpenNote = Omit<WrittenNote, 'tiedOn' | 'links'> & { tiedOn: boolean; readonly links: Link[] };

type OpenSound = OpenNote | Exclude<Sound, { kind: 'string' }>;

/** What sounds on one side of the staff: the notes of an event as they were last written. */
interface Sounding {
  readonly event: ScoreEvent;
  readonly notes: readonly OpenNote[];
}

interface OpenEntry {
  readonly entry: RhythmEntry;
  readonly notes: readonly OpenSound[];
  readonly stroke?: WrittenStroke;
}

/** The bars of a pass as written notes, each with its lines of rhythm, the upper one first. */
export function writtenVoices(bars: readonly ScoreBar[]): readonly (readonly WrittenVoice[])[] {
  const writer = new Writer();
  let chord: ResolvedChord | undefined;
  let beforeEndings: Record<RhythmLine['side'], readonly Sounding[]> | undefined;
  const open = bars.map((bar, index) => {
    if (bar.ending?.begins === true) {
      if (bar.ending.numbers.includes(1)) beforeEndings = { ...writer.sounding };
      else if (beforeEndings !== undefined && closesRepeat(bars[index - 1])) writer.sounding = { ...beforeEndings };
    }
    const lines = rhythmOf(bar).map((line) => ({ line, entries: writer.write(bar, line, chord) }));
    chord = chordHeldAt(bar, bar.length, chord);
    return lines;
  });
  return open.map((lines) => lines.map(({ line, entries }) => closed(line, entries)));
}

function closed(line: RhythmLine, entries: readonly OpenEntry[]): WrittenVoice {
  return {
    side: line.side,
    beams: line.beams,
    tuplets: line.tuplets,
    entries: entries.map(({ entry, notes, stroke }): WrittenEntry => {
      const { at, length, value, dots, wholeBar = false } = entry;
      return { at, length, value, dots, wholeBar, notes, ...(stroke === undefined ? {} : { stroke }) };
    }),
  };
}

/** Writes bar after bar and keeps what sounds on over a bar line, and where each string was last. */
class Writer {
  /** Every later ending begins with what sounded before the first one. */
  sounding: Record<RhythmLine['side'], readonly Sounding[]> = { above: [], below: [] };
  private readonly lastOn = new Map<string, OpenNote>();

  write(bar: ScoreBar, line: RhythmLine, chordBefore: ResolvedChord | undefined): readonly OpenEntry[] {
    const sideOf = noteLineOf(bar);
    const events = bar.events.filter((event) => sideOf(event) === line.side && event.kind !== 'stop');
    return line.entries.map((entry): OpenEntry => {
      if (entry.kind === 'rest') return { entry, notes: [] };
      const starting = events.filter(({ at }) => compare(at, entry.at) === 0);
      const struck = starting
        .filter(({ kind }) => kind !== 'held')
        .sort((a, b) => rank(a) - rank(b))
        .map((event) => this.struck(event, chordHeldAt(bar, event.at, chordBefore)));
      const restruck = new Set(struck.flatMap(({ notes }) => notes.filter(isString).map(({ string }) => string)));
      const kept = goingOn(this.sounding[line.side], entry, starting).map((one) => this.tied(one, starting, restruck));
      this.sounding[line.side] = [
        ...kept,
        ...struck.map(({ event, notes }) => ({ event, notes: notes.filter(isString) })),
      ];
      const stroke = starting.map(strokeOf).find((found) => found !== undefined);
      const all = [...struck.flatMap(({ notes }) => notes), ...kept.flatMap(({ notes }) => notes)];
      return { entry, notes: oneForEachString(all), ...(stroke === undefined ? {} : { stroke }) };
    });
  }

  /** The notes of an event written once more, tied to the ones before. */
  private tied({ event, notes }: Sounding, starting: readonly ScoreEvent[], restruck: ReadonlySet<number>): Sounding {
    const now = starting.find((one) => one.kind === 'held' && isSameSound(one, event)) ?? event;
    const again = notes
      .filter(({ dead, string }) => !dead && !restruck.has(string))
      .map((note): OpenNote => {
        note.tiedOn = true;
        const { finger: _, leftFinger: __, ...kept } = note;
        const tied: OpenNote = {
          ...kept,
          fret: reached(note),
          techniques: [],
          accent: false,
          restStroke: false,
          tiedFrom: true,
          tiedOn: false,
          links: [],
        };
        this.remember(event, tied);
        return tied;
      });
    return { event: now, notes: again };
  }

  private struck(
    event: ScoreEvent,
    chord: ResolvedChord | undefined,
  ): { readonly event: ScoreEvent; readonly notes: readonly OpenSound[] } {
    const notes = soundsOfEvent(event, chord).map((sound) => {
      if (sound.kind !== 'string') return sound;
      const { arrivesBy, ...written } = sound;
      const note: OpenNote = { ...written, tiedFrom: false, tiedOn: false, links: [] };
      const from = this.lastOn.get(placeOf(event, note.string));
      if (isKept(arrivesBy) && from !== undefined && !from.dead && reached(from) === note.fret) {
        from.tiedOn = true;
        return { ...note, tiedFrom: true };
      }
      if (isLink(arrivesBy) && from !== undefined && !from.dead && reached(from) !== note.fret) {
        from.links.push({ kind: arrivesBy, end: 'start' });
        note.links.push({ kind: arrivesBy, end: 'stop' });
      }
      return note;
    });
    for (const note of notes) if (isString(note)) this.remember(event, note);
    return { event, notes };
  }

  private remember(event: ScoreEvent, note: OpenNote): void {
    this.lastOn.set(placeOf(event, note.string), note);
  }
}

function isString(note: OpenSound): note is OpenNote {
  return note.kind === 'string';
}

function isLink(kind: string | undefined): kind is Link['kind'] {
  return kind === 'hammer-on' || kind === 'pull-off' || kind === 'slide';
}

/** What the left hand does to a note that sounds, without a stroke. */
function isKept(kind: string | undefined): boolean {
  return kind === 'vibrato' || kind === 'bend' || kind === 'trill';
}

/**
 * What sounds on in a written note: what is held over the bar line, and within the bar what has not ended. A line of rhythm lasts as
 * long as anything that was struck before in it; where that is all that lasts, the last notes stand for it, as on the sheet.
 */
function goingOn(
  sounding: readonly Sounding[],
  entry: RhythmEntry,
  starting: readonly ScoreEvent[],
): readonly Sounding[] {
  if (starting.length > 0)
    return sounding.filter(({ event }) => starting.some((one) => one.kind === 'held' && isSameSound(one, event)));
  const lasting = sounding.filter(({ event }) => compare(plus(event.at, event.length), entry.at) > 0);
  return lasting.length > 0 ? lasting : sounding;
}

/** Single notes come before strokes, which meet the strings of a tune at its frets. */
function rank({ kind }: ScoreEvent): number {
  return kind === 'notes' ? 0 : 1;
}

/** A string sounds one note at a time: a tune, or picking, before the strum that meets it. */
function oneForEachString(notes: readonly OpenSound[]): readonly OpenSound[] {
  const strings = new Set<number>();
  return notes.filter((note) => {
    if (note.kind !== 'string') return true;
    if (strings.has(note.string)) return false;
    strings.add(note.string);
    return true;
  });
}

/** The voice of a row and its string: where a hammer-on comes from. */
function placeOf(event: ScoreEvent, string: number): string {
  const voice = 'layer' in event ? `${event.layer} ${event.voice ?? 1}` : 'accompaniment 1';
  return `${voice} ${string}`;
}

/** A sound that goes on over a bar line keeps the place in the text that it comes from. */
function isSameSound(a: ScoreEvent, b: ScoreEvent): boolean {
  return a.source.entry === b.source.entry && a.source.span.start === b.source.span.start;
}

/** The fret at which a note ends. */
function reached({ fret, techniques }: WrittenNote): number {
  return techniques.reduce((at, one) => ('fret' in one && one.kind !== 'trill' ? one.fret : at), fret);
}
