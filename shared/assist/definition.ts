import { entryIndexAt, type LessonDocument } from '../lesson/document.ts';
import { lessonOf } from '../lesson/model/lesson.ts';
import { type Occurrence, occurrencesIn } from '../lesson/model/occurrences.ts';
import type { Scope } from '../lesson/model/scope.ts';
import { scopeOf } from '../lesson/model/scope-of-lesson.ts';
import { isPlainName, readChordName } from '../lesson/syntax/read-names.ts';
import type { ChordStatement } from '../lesson/syntax/statement.ts';
import type { Outcome } from '../text/problem.ts';
import { type Span, shifted, type TextEdit, touches } from '../text/span.ts';

/** The name at an offset, spans in file offsets. Undefined where no name stands. */
function occurrenceAt(document: LessonDocument, offset: number): Occurrence | undefined {
  const scope = scopeOf(lessonOf(document));
  const index = entryIndexAt(document, offset);
  return occurrencesOf(document, scope, index).find((occurrence) => touches(occurrence.span, offset));
}

/** Where the name at the offset is defined. */
export function definitionAt(document: LessonDocument, offset: number): Span | undefined {
  const wanted = occurrenceAt(document, offset);
  if (wanted === undefined) return undefined;
  const scope = scopeOf(lessonOf(document));
  const statement =
    wanted.kind === 'chord'
      ? scope.chord(wanted.text)
      : wanted.kind === 'progression'
        ? scope.progression(wanted.text)
        : wanted.kind === 'family'
          ? scope.family(wanted.text)
          : scope.grid(wanted.kind, wanted.text);
  const named = statement?.kind === 'chord' ? statement.chord : statement?.name;
  const index = document.entries.findIndex((entry) => entry.statement === statement);
  return named === undefined || index < 0 ? undefined : shifted(named.span, document.starts[index] ?? 0);
}

/** Every place that has the name at the offset, where it is defined included, in the order of the text. */
export function usesAt(document: LessonDocument, offset: number): readonly Span[] {
  const wanted = occurrenceAt(document, offset);
  return wanted === undefined ? [] : sameName(document, wanted).map((occurrence) => occurrence.span);
}

/** The name that would be changed at the offset: of a labelled chord the name without its label. */
export function renameSpanAt(document: LessonDocument, offset: number): Span | undefined {
  const wanted = occurrenceAt(document, offset);
  return wanted === undefined ? undefined : namePart(wanted);
}

/** Edits that give the name at the offset another one wherever it stands. The fault is a sentence for the teacher. */
export function renameAt(document: LessonDocument, offset: number, name: string): Outcome<readonly TextEdit[]> {
  const wanted = occurrenceAt(document, offset);
  const whole = { start: 0, end: name.length };
  if (wanted === undefined)
    return {
      ok: false,
      problem: { code: 'rename.nothing-here', message: 'There is no name to change here.', span: whole },
    };
  const fault = wanted.kind === 'chord' ? chordFault(name) : nameFault(name, wanted, document);
  if (fault !== undefined) return { ok: false, problem: { code: 'rename.name', message: fault, span: whole } };
  return {
    ok: true,
    value: sameName(document, wanted).map((occurrence) => ({ span: namePart(occurrence), text: name })),
  };
}

function chordFault(name: string): string | undefined {
  const chord = readChordName({ text: name, span: { start: 0, end: name.length } });
  return chord.symbol === undefined ? (chord.fault?.message ?? `${name} is no chord name.`) : undefined;
}

function nameFault(name: string, wanted: Occurrence, document: LessonDocument): string | undefined {
  if (!isPlainName(name)) return `A name is one word of letters, digits and -; ${name} is not.`;
  if (chordFault(name) === undefined)
    return `${name} is a chord’s name; take another one, or the two would be mixed up.`;
  const { definitions } = lessonOf(document);
  const taken = [definitions.progressions, definitions.patterns, definitions.melodies, definitions.families].some(
    (names) => names.has(name),
  );
  return taken && name !== wanted.text ? `${name} is in use already.` : undefined;
}

function namePart({ span, chord }: Occurrence): Span {
  return chord?.label === undefined ? span : { start: span.start, end: span.end - chord.label.length - 1 };
}

function sameName(document: LessonDocument, wanted: Occurrence): readonly Occurrence[] {
  const scope = scopeOf(lessonOf(document));
  const meant = meantBy(scope, wanted);
  return document.entries
    .flatMap((_, index) => occurrencesOf(document, scope, index))
    .filter((occurrence) => occurrence.kind === wanted.kind && meantBy(scope, occurrence) === meant)
    .sort((a, b) => a.span.start - b.span.start);
}

/** The line that gives the chord, which a plain name may have in common with a labelled one; else the name itself. */
function meantBy(scope: Scope, { kind, text }: Occurrence): ChordStatement | string {
  return (kind === 'chord' ? scope.chord(text) : undefined) ?? text;
}

function occurrencesOf(document: LessonDocument, scope: Scope, index: number): readonly Occurrence[] {
  const entry = document.entries[index];
  const start = document.starts[index] ?? 0;
  if (entry === undefined) return [];
  return occurrencesIn(scope, entry.statement).map((occurrence) => ({
    ...occurrence,
    span: shifted(occurrence.span, start),
    ...(occurrence.chord === undefined
      ? {}
      : { chord: { ...occurrence.chord, span: shifted(occurrence.chord.span, start) } }),
  }));
}
