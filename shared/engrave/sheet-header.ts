import type { Difficulty } from '../hand/difficulty.ts';
import { MOST_DIFFICULT } from '../hand/difficulty-table.ts';
import { printHand } from '../hand/hand.ts';
import { CAUTION_ON_STRETCH } from '../hand/reach.ts';
import { printPoints, tellDifficulty } from '../hand/tell-difficulty.ts';
import type { Edition, Lesson } from '../lesson/model/lesson.ts';
import { HEADER_KINDS, type HeaderKind } from '../lesson/syntax/header-kinds.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import type { Statement } from '../lesson/syntax/statement.ts';
import { capoToJoin, capoToMatch, tellCapo } from '../neck/capo-to-match.ts';
import type { Instrument } from '../neck/instrument.ts';
import type { Source } from '../score/timeline.ts';
import { type Key, printKey } from '../theory/key.ts';
import { printMeter } from '../theory/meter.ts';
import { keyMovedBy } from '../theory/moved-key.ts';
import { printPitch } from '../theory/note.ts';
import type { Phrase } from './sheet-content.ts';
import { type Draft, draft, wholeOf, writtenIn } from './sheet-draft.ts';
import { feelText, printTempo } from './sheet-tempo.ts';

/** True for what is printed at the head of the sheet, wherever in the file it stands. */
export function isHeader(statement: Statement): boolean {
  return HEADER_KINDS.has(statement.kind);
}

/** Title, who and when, and the facts of the lesson on this edition, with how hard it is there. */
export function headerDrafts(lesson: Lesson, edition: Edition, difficulty: Difficulty | undefined): readonly Draft[] {
  const entries = lesson.document.entries.filter((entry) => isHeader(entry.statement));
  const first = (kind: HeaderKind): Entry | undefined => entries.find((entry) => entry.statement.kind === kind);
  return [...titleDrafts(lesson, first), ...factsDrafts(lesson, edition, difficulty, entries, first)];
}

/** What must stand wherever a stretch or a practice load is shown. */
export function cautionDraft(source: Source): Draft {
  return draft('facts', { kind: 'caution', text: { text: CAUTION_ON_STRETCH, place: 0 } }, source, [source]);
}

function titleDrafts({ settings }: Lesson, first: (kind: HeaderKind) => Entry | undefined): readonly Draft[] {
  const places: Source[] = [];
  const named = (kind: 'lesson' | 'by' | 'dated', text: string | undefined): readonly Phrase[] => {
    const entry = first(kind);
    if (text === undefined || entry === undefined) return [];
    places.push(wholeOf(entry));
    return [{ text, place: places.length - 1 }];
  };
  const [title] = named('lesson', settings.title);
  const line = [...named('by', settings.by), ...named('dated', settings.dated)];
  const [source] = places;
  if (source === undefined) return [];
  return [
    draft(
      'title',
      { kind: 'title', ...writtenIn(settings.language), ...(title === undefined ? {} : { title }), line },
      source,
      places,
    ),
  ];
}

function factsDrafts(
  { settings, editions }: Lesson,
  edition: Edition,
  difficulty: Difficulty | undefined,
  entries: readonly Entry[],
  first: (kind: HeaderKind) => Entry | undefined,
): readonly Draft[] {
  const places: Source[] = [];
  const facts: Phrase[] = [];
  const add = (entry: Entry | undefined, text: string | undefined): void => {
    if (entry === undefined || text === undefined) return;
    facts.push({ text, place: places.length });
    places.push(wholeOf(entry));
  };
  const { instrument } = edition;
  const strings = instrument.openStrings.map((pitch) => printPitch(pitch, 'signs')).join(' ');
  // The name of an instrument described in full already tells its strings.
  const tuning = instrument.name.startsWith('tuned') ? '' : `, strings ${strings}`;
  add(edition.also?.entry ?? first('for'), `${instrument.name}${tuning}`);
  add(edition.also?.entry, KEEPS[edition.keeps]);
  if (settings.key !== undefined) add(first('key'), keyText(settings.key, edition));
  if (first('meter')) add(first('meter'), printMeter(settings.meter));
  if (first('feel')) add(first('feel'), feelText(settings.feel));
  if (settings.tempo !== undefined) add(first('tempo'), printTempo(settings.tempo, settings.meter));
  const level = first('level')?.statement;
  if (level?.kind === 'level' && level.value !== undefined) add(first('level'), `level ${level.value.text}`);
  if (difficulty !== undefined) {
    // Where the teacher says a level in words of their own, another word beside them would only confuse a student.
    const told =
      level === undefined ? tellDifficulty(difficulty) : `${printPoints(difficulty.total)} of ${MOST_DIFFICULT}`;
    facts.push({ text: `difficulty about ${told}` });
  }
  const hand = first('hand')?.statement;
  if (hand?.kind === 'hand' && hand.hand !== undefined) add(first('hand'), `for a hand: ${printHand(hand.hand)}`);
  const further: Phrase[] = [];
  const addLine = (entry: Entry, text: string): void => {
    further.push({ text, place: places.length });
    places.push(wholeOf(entry));
  };
  const capo = capoText(settings.key, editions[0].instrument, edition);
  if (capo !== undefined && edition.also !== undefined) addLine(edition.also.entry, capo);
  for (const entry of entries) {
    const { statement } = entry;
    // An edition's sheet names the lesson's own instrument among the others.
    if (statement.kind === 'for' && edition.also !== undefined && entry === first('for'))
      addLine(entry, `Also for ${editions[0].instrument.name}`);
    if (statement.kind === 'also' && statement.value !== undefined && entry !== edition.also?.entry)
      addLine(entry, `Also for ${statement.value.text}`);
    if (statement.kind === 'corrected' && statement.value !== undefined)
      addLine(entry, `Corrected: ${statement.value.text}`);
  }
  const [source] = places;
  if (source === undefined) return [];
  return [draft('facts', { kind: 'facts', line: facts, further }, source, places)];
}

/** What an edition keeps of the lesson, as a fact in its head. */
const KEEPS = { own: undefined, shapes: 'same shapes', key: 'same key' } as const;

/** The key of the shapes in the hand, and what it sounds in where a capo or another instrument moves it. */
function keyText(key: Key, edition: Edition): string {
  const { capoFret } = edition.instrument;
  const printed = printKey(key, 'signs');
  const here = edition.key ?? key;
  if (here === key && capoFret === 0) return `key ${printed}`;
  if (capoFret === 0) return `shapes of ${printed}: sounds in ${printKey(here, 'signs')}`;
  const sounding = printKey(keyMovedBy(here, capoFret), 'signs');
  const shapes = here === key ? `shapes of ${printed}` : `shapes of ${printed}, here ${printKey(here, 'signs')}`;
  return `${shapes}, capo ${capoFret}: sounds in ${sounding}`;
}

/** How the same shapes, or in the same key the same names, come to sound with the others: the capo, and the sum that gives it. */
function capoText(key: Key | undefined, own: Instrument, edition: Edition): string | undefined {
  const { keeps, instrument } = edition;
  if (key === undefined) return undefined;
  const capo = keeps === 'shapes' ? capoToMatch(own, instrument) : capoToJoin(own, instrument);
  if (capo === 0) return 'To sound with the others: no capo.';
  return capo === undefined
    ? undefined
    : `To sound with the others: capo ${capo}. ${tellCapo(edition.key ?? key, capo)}`;
}
