import type { ResolvedChord } from '../../lesson/model/resolved-chord.ts';
import type { Technique } from '../../lesson/syntax/marks.ts';
import type { ScoreEvent } from '../../score/timeline.ts';
import type { WrittenKnock, WrittenNote, WrittenStroke } from './written-note.ts';

type StringSound = Omit<WrittenNote, 'tiedFrom' | 'tiedOn' | 'links'> & {
  /** The left hand makes the sound, from the note before on its string. */
  readonly arrivesBy?: Technique['kind'];
};

/** What one event strikes. */
export type Sound = StringSound | WrittenKnock;

/** The notes and knocks of an event, in chart order for what is struck together. `chord` is the one that is held. */
export function soundsOfEvent(event: ScoreEvent, chord: ResolvedChord | undefined): readonly Sound[] {
  switch (event.kind) {
    case 'notes':
      return event.notes.map((note): StringSound => {
        const { string, fret, finger, leftFinger, techniques, arrivesBy, accent, restStroke } = note;
        return {
          ...PLAIN,
          string,
          fret,
          techniques: isAlone(arrivesBy) ? [...techniques, { kind: arrivesBy }] : techniques,
          ...(finger === undefined ? {} : { finger }),
          ...(leftFinger === undefined ? {} : { leftFinger }),
          ...(arrivesBy === undefined ? {} : { arrivesBy }),
          accent,
          restStroke,
        };
      });
    case 'strum':
      return inChartOrder(event.notes).map(({ string, fret }) => ({
        ...PLAIN,
        string,
        fret,
        accent: event.accent,
        light: event.light,
        dead: event.damped,
      }));
    case 'chunk':
      return stringsOf(chord).map((place) => ({ ...PLAIN, ...place, accent: event.accent, dead: true }));
    case 'roll':
      return stringsOf(chord).map((place) => ({ ...PLAIN, ...place, accent: event.accent }));
    case 'shape-slide':
      return stringsOf(chord).map((place) => ({ ...PLAIN, ...place, accent: event.accent, arrivesBy: 'slide' }));
    case 'hit': {
      const { accent, string, place } = event;
      return [{ kind: 'knock', place, accent, ...(string === undefined ? {} : { string }) }];
    }
    default:
      return [];
  }
}

/** How the strumming hand moves at an event; nothing where it does not strum. */
export function strokeOf(event: ScoreEvent): WrittenStroke | undefined {
  switch (event.kind) {
    case 'strum':
      return { direction: event.direction, spread: event.slow };
    case 'chunk':
      return { direction: 'down', spread: false, says: 'chunk' };
    case 'roll':
      return { direction: 'down', spread: true, says: 'roll' };
    default:
      return undefined;
  }
}

const PLAIN = {
  kind: 'string',
  techniques: [],
  accent: false,
  restStroke: false,
  light: false,
  dead: false,
} as const;

/** What the left hand adds to a note that goes on, in a column of its own. */
function isAlone(kind: Technique['kind'] | undefined): kind is 'bend' | 'vibrato' | 'harmonic' {
  return kind === 'bend' || kind === 'vibrato' || kind === 'harmonic';
}

function stringsOf(chord: ResolvedChord | undefined): readonly { readonly string: number; readonly fret: number }[] {
  if (chord === undefined) return [];
  const { shape } = chord;
  return shape.flatMap((fret, index) => (fret === 'muted' ? [] : [{ string: shape.length - index, fret }]));
}

function inChartOrder<T extends { readonly string: number }>(notes: readonly T[]): readonly T[] {
  return [...notes].sort((a, b) => b.string - a.string);
}
