import { neckAboveCapo } from '../../neck/capo.ts';
import type { Span } from '../../text/span.ts';
import { spellMidi } from '../../theory/key.ts';
import { printPitch } from '../../theory/note.ts';
import type { GivenNote } from '../../voicing/tune/given-notes.ts';
import { placesOf } from '../../voicing/tune/neck-range.ts';
import { scaleOfKey } from '../../voicing/tune/scale.ts';
import { waysOut, whyNotOnNeck } from '../../voicing/tune/ways-out.ts';
import type { Entry } from '../syntax/read-entry.ts';
import { keyOfLesson } from './key-of-lesson.ts';
import type { MovedRemark } from './moved-remark.ts';
import type { MovedNote, MovedTune } from './moved-tune.ts';
import type { Scope } from './scope.ts';

/**
 * What a teacher should know of a tune on another instrument: that it sounds an octave away, notes that the neck does not have, with
 * the ways out, what the left hand cannot add there, and runs across the strings that fall on one. Marks of other entries are told
 * there.
 */
export function tellMovedTune(scope: Scope, moved: MovedTune, entry: Entry): readonly MovedRemark[] {
  const own = moved.marks.filter(({ from }) => from.mark.entry === entry);
  const notes = own.flatMap(({ from, notes: placed }) => placed.map((note) => ({ span: from.mark.word.span, note })));
  const remarks: MovedRemark[] = [];
  const tune = moved.marks.flatMap((mark) => mark.notes.map((note) => givenNote(scope, note)));
  const lacking = notes.filter(({ note }) => lacks(scope, note));
  const told = new Set<number>();
  for (const { span, note } of lacking) {
    const { midi } = note.from;
    if (told.has(midi)) continue;
    told.add(midi);
    const isApart = note.octaves !== moved.octaves;
    // A tune that goes as a whole is told of once.
    if (!isApart && remarks.length > 0) continue;
    const given = givenNote(scope, note);
    const neck = neckAboveCapo(scope.edition().instrument);
    const ways = waysOut(neck, scaleOfKey(keyOfLesson(scope)), given, tune).filter(
      (way) => !/octaves? (up|down)/.test(way),
    );
    const goes = tellOctaves(note.octaves);
    const taken = isApart
      ? `It is played ${goes} there, on ${tellString(note)}, which changes the tune.`
      : `The whole tune is played ${goes} there, which keeps it.`;
    remarks.push({
      severity: isApart ? 'warning' : 'notice',
      code: isApart ? 'tune.note-apart' : 'tune.octave-moved',
      span,
      message: [whyNotOnNeck(neck, given), taken, ...ways].join(' '),
    });
  }
  remarks.push(...tellApart(scope, moved.octaves, notes));
  const [first] = notes;
  if (moved.octaves !== 0 && lacking.length === 0 && first !== undefined) {
    const message = `The tune is played ${tellOctaves(moved.octaves)} there, where the shapes have it under the fingers.`;
    remarks.push({ severity: 'notice', code: 'tune.octave-moved', span: first.span, message });
  }
  for (const { span, note } of notes) {
    if (!note.withoutTechnique) continue;
    const name = printPitch(givenNote(scope, note).pitch);
    const message = `No string has ${name} where the left hand can add what is written; it is played plainly there, on string ${note.string} fret ${note.fret}.`;
    remarks.push({ severity: 'warning', code: 'technique.lost', span, message });
  }
  for (const {
    mark,
    notes: [note],
  } of moved.brokenRuns) {
    if (mark.entry !== entry || note === undefined) continue;
    const message =
      'This run crosses the strings, so that its notes ring into each other; two of them fall on one string there and cannot.';
    remarks.push({ severity: 'hint', code: 'tune.run-broken', span: mark.word.span, message });
  }
  return remarks;
}

/** A note of the moved tune, and where it is written. */
interface PlacedNote {
  readonly span: Span;
  readonly note: MovedNote;
}

/** Notes that the neck has, but not in the octave that the rest of the tune goes to: each pitch once. */
function tellApart(scope: Scope, octaves: number, notes: readonly PlacedNote[]): readonly MovedRemark[] {
  const neck = neckAboveCapo(scope.edition().instrument);
  const told = new Set<number>();
  return notes.flatMap(({ span, note }): readonly MovedRemark[] => {
    if (note.octaves === octaves || lacks(scope, note) || told.has(note.from.midi)) return [];
    told.add(note.from.midi);
    const there = givenAt(scope, note.from.midi + 12 * octaves);
    const why =
      placesOf(neck, there.midi).length === 0
        ? whyNotOnNeck(neck, there)
        : `${printPitch(there.pitch)} lies where the left hand cannot add what is written.`;
    const goes = note.octaves === 0 ? 'in the octave that is written' : tellOctaves(note.octaves);
    const rest = octaves === 0 ? '' : `The tune is played ${tellOctaves(octaves)} there. `;
    const message = `${rest}${why} This note is played ${goes}, on ${tellString(note)}, which changes the tune.`;
    return [{ severity: 'warning', code: 'tune.note-apart', span, message }];
  });
}

/** `string 2 fret 3`, `string 4 open` */
function tellString({ string, fret }: MovedNote): string {
  return `string ${string} ${fret === 0 ? 'open' : `fret ${fret}`}`;
}

/** True for a note that the neck does not have where the lesson's own has it. */
function lacks(scope: Scope, { from }: MovedNote): boolean {
  return placesOf(neckAboveCapo(scope.edition().instrument), from.midi).length === 0;
}

function givenNote(scope: Scope, { from: { midi } }: MovedNote): GivenNote {
  return givenAt(scope, midi);
}

function givenAt(scope: Scope, midi: number): GivenNote {
  return { pitch: spellMidi(midi, scope.setting('key')), midi, bar: 0, tick: 0 };
}

/** `an octave higher`, `two octaves lower` */
function tellOctaves(octaves: number): string {
  return `${Math.abs(octaves) === 1 ? 'an octave' : 'two octaves'} ${octaves > 0 ? 'higher' : 'lower'}`;
}
