import { listed } from '../../text/counted.ts';
import type { Severity } from '../../text/problem.ts';
import { plus, ZERO } from '../../theory/rational.ts';
import { stringOfNote } from '../model/plant.ts';
import type { ResolvedChord } from '../model/resolved-chord.ts';
import type { Scope } from '../model/scope.ts';
import type { TimedGrid, TimedMark, TimedRow } from '../model/timed-grid.ts';
import type { Part } from '../model/turns.ts';
import type { NoteMark, PickFinger } from '../syntax/marks.ts';
import type { Report } from './finding.ts';

/** Two things that one hand, or one string, cannot do at once. */
export interface MomentFault {
  readonly severity: Severity;
  readonly code: string;
  /** The later of the two in the text. */
  readonly mark: TimedMark;
  readonly message: string;
  /** What meets, the same on whichever strings. */
  readonly about: string;
}

/** What a row plays at one moment. */
interface Played {
  readonly grid: TimedGrid;
  readonly row: TimedRow;
  readonly mark: TimedMark;
}

/** A note that is struck, with the string where it is certain. */
interface Struck {
  readonly note: NoteMark;
  readonly string: number | undefined;
}

/** Whatever cannot be played at once in one grid: as far as it can be told without a chord, and where one is given, with it. */
export function momentFaults(scope: Scope, grid: TimedGrid, chord: ResolvedChord | undefined): readonly MomentFault[] {
  const faults: MomentFault[] = [];
  for (const moment of momentsOf([{ grid, start: ZERO }])) {
    for (const [index, played] of moment.entries()) {
      faults.push(...faultsInMark(scope, chord, played));
      for (const before of moment.slice(0, index)) {
        if (goTogether(before.row, played.row)) faults.push(...faultsOfPair(scope, chord, before, played));
      }
    }
  }
  return faults;
}

/** What cannot be played at once of patterns that are played together: the first such thing of two of them, without a chord. */
export function faultTogether(
  scope: Scope,
  parts: readonly Part[],
): (MomentFault & { readonly part: Part }) | undefined {
  for (const moment of momentsOf(parts)) {
    for (const [index, played] of moment.entries()) {
      for (const before of moment.slice(0, index)) {
        const [one, other] = [before.row.chord, played.row.chord];
        if (before.grid === played.grid || (one !== undefined && other !== undefined && one !== other)) continue;
        const [fault] = faultsOfPair(scope, undefined, before, played);
        const part = parts.find(({ grid }) => grid === played.grid);
        if (fault !== undefined && part !== undefined) return { ...fault, mark: played.mark, part };
      }
    }
  }
  return undefined;
}

/** Tells what `momentFaults` finds, each thing once for a grid; `isOwn` leaves out what is told elsewhere. */
export function reportMoments(
  report: Report,
  faults: readonly MomentFault[],
  isOwn: (mark: TimedMark) => boolean,
): void {
  const told = new Set<string>();
  for (const { severity, code, mark, message, about } of faults) {
    if (!isOwn(mark) || told.has(message)) continue;
    told.add(message);
    report(severity, code, mark.word.span, message, [], { about: [about] });
  }
}

/** Marks that begin a sound, those of one time together, in the order of the text. */
function momentsOf(parts: readonly Part[]): readonly (readonly Played[])[] {
  const moments = new Map<string, Played[]>();
  for (const { grid, start } of parts) {
    for (const row of grid.rows) {
      for (const mark of row.marks) {
        if (!BEGINS.has(mark.mark.kind)) continue;
        const at = start.numerator === 0 ? mark.at : plus(start, mark.at);
        const time = `${at.numerator}/${at.denominator}`;
        const moment = moments.get(time);
        if (moment === undefined) moments.set(time, [{ grid, row, mark }]);
        else moment.push({ grid, row, mark });
      }
    }
  }
  return [...moments.values()];
}

const BEGINS: ReadonlySet<string> = new Set(['notes', 'strum', 'chunk', 'roll', 'hit']);

/** Rows for two different chords never sound together, nor does a row for any chord with the one that takes its place. */
export function goTogether(one: TimedRow, other: TimedRow): boolean {
  const sameVoice = one.kind === other.kind && one.voice === other.voice;
  if (one.chord === other.chord) return true;
  return one.chord === undefined || other.chord === undefined ? !sameVoice : false;
}

function faultsInMark(scope: Scope, chord: ResolvedChord | undefined, played: Played): readonly MomentFault[] {
  const { row, mark } = played;
  const struck = struckBy(scope, chord, played);
  const faults: MomentFault[] = [];
  for (const [index, one] of struck.entries()) {
    const other = struck.slice(0, index).find(({ string }) => string !== undefined && string === one.string);
    if (other === undefined) continue;
    const message = `String ${one.string} is played twice at once in ${mark.word.text}; one note of it is enough.`;
    const about = `${struck.indexOf(other)} ${index}`;
    faults.push({ severity: 'error', code: 'mark.two-at-once', mark, message, about });
  }
  return row.kind === 'pick' && faults.length === 0 ? fingerTwice(mark, struck, []) : faults;
}

function faultsOfPair(
  scope: Scope,
  chord: ResolvedChord | undefined,
  before: Played,
  played: Played,
): readonly MomentFault[] {
  const [one, other] = [before.mark.mark, played.mark.mark];
  const { mark } = played;
  if (one.kind === 'notes' && other.kind === 'notes') return twoOfNotes(scope, chord, before, played);
  const hit = one.kind === 'hit' ? before.mark : other.kind === 'hit' ? played.mark : undefined;
  const rest = hit === before.mark ? played : before;
  if (hit !== undefined) return withHit(scope, chord, hit, rest);
  const picked = one.kind === 'notes' ? before : played;
  const stroke = picked === before ? played : before;
  // A tune takes its string out of the stroke that carries it.
  if (picked.mark.mark.kind !== 'notes' || picked.row.kind !== 'pick') return [];
  return withStroke(struckBy(scope, chord, picked), picked.mark, stroke.mark, mark);
}

function twoOfNotes(
  scope: Scope,
  chord: ResolvedChord | undefined,
  before: Played,
  played: Played,
): readonly MomentFault[] {
  const { row, mark } = played;
  const first = struckBy(scope, chord, before);
  const second = struckBy(scope, chord, played);
  const faults: MomentFault[] = [];
  for (const { note, string } of second) {
    const other = first.find((each) => string !== undefined && each.string === string);
    if (other === undefined) continue;
    // The tune owns its string: a pick row may say which finger plucks it, but no other fret.
    const isTune = (row.kind === 'tune') !== (before.row.kind === 'tune');
    const frets = new Set([note.fret, other.note.fret].filter((fret) => fret !== undefined));
    if (isTune && frets.size < 2) continue;
    const message = `String ${string} has two notes at once, ${before.mark.word.text} and ${mark.word.text}; move one of them.`;
    const about = `${before.mark.word.text} ${first.indexOf(other)}`;
    faults.push({ severity: 'error', code: 'mark.two-at-once', mark, message, about });
  }
  const bothPicked = row.kind === 'pick' && before.row.kind === 'pick';
  return bothPicked && faults.length === 0 ? fingerTwice(mark, second, first) : faults;
}

/** A finger plucks one string; the thumb also brushes neighbours. Common practice, no source. */
function fingerTwice(mark: TimedMark, struck: readonly Struck[], before: readonly Struck[]): readonly MomentFault[] {
  const faults: MomentFault[] = [];
  for (const finger of RIGHT_HAND) {
    const plucks = ({ note }: Struck) => note.finger === finger;
    const all = [...before, ...struck].filter(plucks);
    if (!struck.some(plucks) || all.length < 2 || (before.length > 0 && !before.some(plucks))) continue;
    const strings = all.flatMap(({ string }) => string ?? []).sort((one, other) => other - one);
    if (strings.length < all.length) continue;
    const isBrush = strings.every((string, at) => at === 0 || strings[at - 1] === string + 1);
    if (finger === 'p' && isBrush) continue;
    const places = `strings ${listed(strings.map(String))}`;
    const message =
      finger === 'p'
        ? `The thumb brushes neighbouring strings, not ${places} at once; give one of them to a finger.`
        : `${finger} cannot pluck ${places} at once; give one of them to another finger.`;
    faults.push({ severity: 'error', code: 'pick.finger-twice', mark, message, about: finger });
  }
  return faults;
}

const RIGHT_HAND: readonly PickFinger[] = ['p', 'i', 'm', 'a'];

/** A hand that slaps or damps the strings cannot sound them in the same moment; tapping wood or nails can. Common practice, no source. */
function withHit(
  scope: Scope,
  chord: ResolvedChord | undefined,
  hit: TimedMark,
  played: Played,
): readonly MomentFault[] {
  const { row, mark } = played;
  if (hit.mark.kind !== 'hit' || hit.mark.place === 'body' || hit.mark.place === 'nails') return [];
  const other = mark.mark;
  if (other.kind === 'strum' || other.kind === 'chunk' || other.kind === 'roll') {
    if (other.kind === 'strum' && other.strings !== undefined) return [];
    const message = `${hit.word.text} damps the strings in the very moment that they are strummed; move one of the two.`;
    return [{ severity: 'error', code: 'hit.with-strum', mark: hit, message, about: message }];
  }
  if (other.kind !== 'notes') return [];
  const struck = struckBy(scope, chord, played);
  const byThumb = struck.some(({ note }) => note.finger === 'p' || note.bass !== undefined);
  // Other fingers may pluck while the thumb slaps, but what the slap damps does not ring.
  const cannot = hit.mark.place === 'palm' || (row.kind === 'pick' && byThumb);
  const message = `${hit.word.text} damps the strings in the very moment that ${mark.word.text} is plucked; move one of the two.`;
  return [{ severity: cannot ? 'error' : 'warning', code: 'hit.with-pick', mark: hit, message, about: message }];
}

/** The same hand cannot pluck a string while it strums that string, or all of them. */
function withStroke(
  struck: readonly Struck[],
  picked: TimedMark,
  stroke: TimedMark,
  mark: TimedMark,
): readonly MomentFault[] {
  const { mark: strum } = stroke;
  const range = strum.kind === 'strum' ? strum.strings : undefined;
  const message =
    range === undefined
      ? `${stroke.word.text} takes the whole hand across the strings, so ${picked.word.text} cannot be plucked in the same moment; strum some strings only, or move one of the two.`
      : `${stroke.word.text} and ${picked.word.text} meet on one string at once; move one of the two.`;
  const meets = ({ string }: Struck) =>
    string !== undefined && range !== undefined && string >= Math.min(...range) && string <= Math.max(...range);
  if (range !== undefined && !struck.some(meets)) return [];
  return [{ severity: 'error', code: 'strum.with-pick', mark, message, about: message }];
}

/** The notes of a mark; without a chord the thumb's string is open where it looks for a root. */
function struckBy(scope: Scope, chord: ResolvedChord | undefined, { grid, mark: { mark } }: Played): readonly Struck[] {
  if (mark.kind !== 'notes') return [];
  const { instrument } = scope.edition();
  const plant = grid.plant?.strings;
  return mark.notes.map((note) => {
    const seeks =
      note.string === undefined && (note.bass !== undefined || (note.finger === 'p' && plant?.p === undefined));
    const certain = !seeks || chord !== undefined || (note.bass === undefined && instrument.openStrings.length <= 4);
    return { note, string: certain ? stringOfNote(note, chord, plant, instrument) : undefined };
  });
}
