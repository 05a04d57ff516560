import type { Difficulty } from '../hand/difficulty.ts';
import { MOST_DIFFICULT } from '../hand/difficulty-table.ts';
import { printHand } from '../hand/hand.ts';
import { CAUTION_ON_STRETCH } from '../hand/reach.ts';
import { printPoints, tellDifficulty } from '../hand/tell-difficulty.ts';
import type { Edition, Lesson } from '../lesson/model/lesson.ts';
import { HEADER_KINDS, type HeaderKind } from '../lesson/syntax/header-kinds.ts';
import type { Entry } from '../lesson/syntax/read-entry.ts';
import type { Statement } from '../lesson/syntax/statement.ts';
import type { Source } from '../score/timeline.ts';
import { type Key, keySignature, printKey, spellPitchClass } from '../theory/key.ts';
import { printMeter } from '../theory/meter.ts';
import { midiNumber, pitchClass, printPitch } from '../theory/note.ts';
import type { Phrase } from './sheet-content.ts';
import { type Draft, draft, wholeOf } from './sheet-draft.ts';
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
  return [draft('title', { kind: 'title', ...(title === undefined ? {} : { title }), line }, source, places)];
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
  if (settings.key !== undefined) add(first('key'), keyText(settings.key, lessonInstrument(editions), edition));
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
  for (const entry of entries) {
    const { statement } = entry;
    if (statement.kind === 'also' && statement.value !== undefined && entry !== edition.also?.entry)
      addLine(entry, `Also for ${statement.value.text}`);
    if (statement.kind === 'corrected' && statement.value !== undefined)
      addLine(entry, `Corrected: ${statement.value.text}`);
  }
  const [source] = places;
  if (source === undefined) return [];
  return [draft('facts', { kind: 'facts', line: facts, further }, source, places)];
}

function lessonInstrument(editions: Lesson['editions']): Edition['instrument'] {
  return editions[0].instrument;
}

/** The key of the shapes in the hand, and what it sounds in where a capo or another instrument moves it. */
function keyText(key: Key, own: Edition['instrument'], edition: Edition): string {
  const capo = edition.instrument.capoFret;
  const printed = printKey(key, 'signs');
  const moved = edition.keeps === 'shapes' ? stringOneDistance(own, edition.instrument) : 0;
  if (capo + moved === 0) return `key ${printed}`;
  const sounding = transposedKey(key, capo + moved);
  const shapes = capo > 0 ? `shapes of ${printed}, capo ${capo}` : `shapes of ${printed}`;
  return `${shapes}: sounds in ${printKey(sounding, 'signs')}`;
}

/** How far string 1 of the other instrument lies above that of the lesson's own. Unit: semitones, capo left out. */
function stringOneDistance(own: Edition['instrument'], other: Edition['instrument']): number {
  const from = own.openStrings.at(-1);
  const to = other.openStrings.at(-1);
  return from === undefined || to === undefined ? 0 : midiNumber(to) - midiNumber(from);
}

function transposedKey(key: Key, semitones: number): Key {
  const wanted = pitchClass(key.tonic) + semitones;
  const spelled = { ...key, tonic: spellPitchClass(wanted) };
  if (Math.abs(keySignature(spelled)) <= 6) return spelled;
  // G sharp minor is read more easily than A flat minor: take the name with fewer signs.
  const { letter, accidental } = spelled.tonic;
  const letters = 'CDEFGAB';
  const step = accidental < 0 ? -1 : 1;
  const neighbour = letters[(letters.indexOf(letter) + step + 7) % 7];
  const candidates = ['C', 'D', 'E', 'F', 'G', 'A', 'B'] as const;
  const other = candidates.find((candidate) => candidate === neighbour);
  if (other === undefined) return spelled;
  const natural = pitchClass({ letter: other, accidental: 0 });
  const alter = (((((wanted % 12) - natural + 18) % 12) + 12) % 12) - 6;
  const renamed = { ...key, tonic: { letter: other, accidental: alter } };
  return Math.abs(keySignature(renamed)) < Math.abs(keySignature(spelled)) ? renamed : spelled;
}
