import { Note } from 'tonal';
import { openDocument } from '../../../shared/lesson/document.ts';
import { resolveChord } from '../../../shared/lesson/model/chords.ts';
import { lessonOf } from '../../../shared/lesson/model/lesson.ts';
import type { ResolvedChord } from '../../../shared/lesson/model/resolved-chord.ts';
import type { Scope } from '../../../shared/lesson/model/scope.ts';
import { scopeOf } from '../../../shared/lesson/model/scope-of-lesson.ts';
import { readChordName } from '../../../shared/lesson/syntax/read-names.ts';
import type { Instrument } from '../../../shared/neck/instrument.ts';
import { printShape, type Shape } from '../../../shared/neck/shape.ts';
import { printPitch } from '../../../shared/theory/note.ts';

/** Every edition of a lesson, its own first. */
export function editionsIn(text: string): readonly [Scope, ...Scope[]] {
  const lesson = lessonOf(openDocument(text));
  const [own, ...others] = lesson.editions.map((edition) => scopeOf(lesson, edition));
  if (own === undefined) throw new Error('A lesson has an edition of its own.');
  return [own, ...others];
}

/** The chord as it is held there. */
export function heldThere(scope: Scope | undefined, text: string): ResolvedChord | undefined {
  return scope && resolveChord(scope, readChordName({ text, span: { start: 0, end: text.length } }));
}

/** `C 0-0-0-3` for every chord line, as the edition has it. */
export function chordsThere(scope: Scope | undefined): readonly string[] {
  return (scope?.names('chord').split('\n') ?? []).map((text) => {
    const chord = heldThere(scope, text);
    return chord === undefined ? `${text} -` : `${chord.name} ${printShape(chord.shape)}`;
  });
}

/** MIDI numbers by tonal, which knows nothing of our necks: the open string's name and the frets above it; a capo is not counted. */
export function tonalMidi({ openStrings }: Instrument, shape: Shape): readonly (number | undefined)[] {
  return shape.map((fret, at) => {
    const open = openStrings[at];
    const midi = open === undefined ? null : Note.midi(printPitch(open));
    return fret === 'muted' || midi === null ? undefined : midi + fret;
  });
}

/** Pitches as tonal names them, in chart order; nothing for silent strings. */
export function tonalPitches(instrument: Instrument, shape: Shape): readonly string[] {
  return tonalMidi(instrument, shape).flatMap((midi) => (midi === undefined ? [] : [Note.fromMidi(midi)]));
}

/** The rows of a grid as the edition plays them, one text each: `2:1 3:4 . 3:2`. */
export function rowsThere(scope: Scope | undefined, kind: 'pattern' | 'melody', name: string): readonly string[] {
  const grid = scope?.grid(kind, name);
  return (grid?.lines ?? []).flatMap(({ rows }) =>
    rows.map(({ cells }) =>
      cells
        .map(({ mark, word }) => {
          if (mark.kind === 'hold') return '.';
          if (mark.kind === 'finger') return String(mark.finger);
          if (mark.kind === 'technique' && 'fret' in mark.technique)
            return `${mark.technique.kind[0]}${mark.technique.fret}`;
          if (mark.kind !== 'notes') return word.text;
          return mark.notes
            .map(({ string, bass, finger, fret, techniques }) => {
              const where = bass === undefined ? String(string ?? '') : bass === 'root' ? 'R' : 'A';
              const added = techniques.map((one) => ('fret' in one ? `${one.kind[0]}${one.fret}` : one.kind[0]));
              return `${where}${finger ?? ''}${fret === undefined ? '' : `:${fret}`}${added.join('')}`;
            })
            .join('+');
        })
        .join(' '),
    ),
  );
}

/** What every pitched note of a grid sounds there, in the order of the text, by tonal; a capo is not counted. */
export function soundsThere(scope: Scope, kind: 'pattern' | 'melody', name: string): readonly number[] {
  const { instrument } = scope.edition();
  const strings = instrument.openStrings.length;
  return (scope.grid(kind, name)?.lines ?? []).flatMap(({ rows }) =>
    rows.flatMap(({ cells }) =>
      cells.flatMap(({ mark }) =>
        mark.kind !== 'notes'
          ? []
          : mark.notes.flatMap(({ string, fret }) => {
              const open = string === undefined ? undefined : instrument.openStrings[strings - string];
              const midi = open === undefined ? null : Note.midi(printPitch(open));
              return fret === undefined || midi === null ? [] : [midi + fret];
            }),
      ),
    ),
  );
}
