import type { Instrument } from '../../neck/instrument.ts';
import type { Span } from '../../text/span.ts';
import type { Cell, Mark, Technique } from '../syntax/marks.ts';
import { article } from './beyond-neck.ts';
import { ABOUT_ITS_PLACE, type Report } from './finding.ts';

/** The strings and frets of a mark are on the neck. */
export function checkPlaces(report: Report, instrument: Instrument, { mark, word }: Cell): void {
  const strings = instrument.openStrings.length;
  const beyond = stringsOf(mark).find((string) => string > strings);
  if (beyond !== undefined) {
    report('error', 'mark.no-string', word.span, tellNoString(instrument, beyond), [], ABOUT_ITS_PLACE);
  }
  if (mark.kind === 'notes') {
    for (const note of mark.notes)
      checkNote(report, instrument, note.span, [note.fret, ...note.techniques.map(fretOfTechnique)]);
  } else if (mark.kind === 'technique') checkNote(report, instrument, word.span, [fretOfTechnique(mark.technique)]);
}

/** `A ukulele has 4 strings; there is no string 5.` */
export function tellNoString({ kind, openStrings }: Instrument, string: number): string {
  return `${article(kind)} has ${openStrings.length} strings; there is no string ${string}.`.replace(/^a/, 'A');
}

function fretOfTechnique(technique: Technique): number | undefined {
  return 'fret' in technique ? technique.fret : undefined;
}

function checkNote(report: Report, instrument: Instrument, span: Span, frets: readonly (number | undefined)[]): void {
  const last = instrument.frets - instrument.capoFret;
  const beyond = frets.find((fret) => fret !== undefined && fret > last);
  if (beyond === undefined) return;
  const message = `Fret ${beyond} is beyond the neck: ${article(instrument.kind)} has ${last} frets.`;
  report('error', 'mark.fret-beyond-neck', span, message, [], ABOUT_ITS_PLACE);
}

function stringsOf(mark: Mark): readonly number[] {
  switch (mark.kind) {
    case 'notes':
      return mark.notes.flatMap((note) => (note.string === undefined ? [] : [note.string]));
    case 'strum':
      return mark.strings ?? [];
    case 'stop':
      return mark.strings;
    case 'hit':
      return mark.string === undefined ? [] : [mark.string];
    default:
      return [];
  }
}
