import type { LessonDocument } from '../../lesson/document.ts';
import { type Edition, type Lesson, lessonOf } from '../../lesson/model/lesson.ts';
import { chaptersText } from '../chapters.ts';
import { exportedExercise } from '../exported-exercise.ts';
import { midiFileOf } from '../midi/midi-file.ts';
import { musicXmlOf } from '../musicxml/music-xml.ts';
import type { FrameName } from '../pictures/frames.ts';
import { type LessonPicture, picturesOf } from '../pictures/lesson-pictures.ts';
import { textTabOf } from '../text-tab/text-tab.ts';
import { timelineJsonOf } from '../timeline-json.ts';
import { fileWords, freeName } from './file-words.ts';
import { type HandOutChoice, type HandOutKind, PICTURE_FORMATS } from './hand-out-choice.ts';
import { type LeftOutExercise, type SoundPart, soundPart } from './sound-part.ts';

/** A file as it is made, and what its reader should know of it. */
export interface MadeFile {
  readonly content: Uint8Array | string;
  readonly remarks?: readonly string[];
}

/** What is too large for the core, or needs more than it: given in by the host. */
export interface FileWriters {
  pdf(document: LessonDocument, edition: Edition, untitled: string): Promise<MadeFile>;
  /** One page for all these editions, the reader's first choice first. */
  page(document: LessonDocument, editions: readonly Edition[], untitled: string): Promise<MadeFile>;
  svg(picture: LessonPicture): MadeFile & { readonly content: string };
  png(svg: string): Uint8Array;
}

/** A file that a lesson yields. Nothing of its content is worked out before it is made. */
export interface HandOutFile {
  /** Its path below the folder of its lesson, parted by `/`; safe on every system, and unlike every other of the lesson. */
  readonly name: string;
  readonly kind: HandOutKind;
  /** Name of its edition; the first one for what holds several. */
  readonly edition: string;
  /** True for a page that is asked to hold all of several editions. */
  readonly several?: true;
  make(writers: FileWriters): MadeFile | Promise<MadeFile>;
}

/** An exercise that an edition does not yield, and the error that is in the way. */
export interface LeftOut extends LeftOutExercise {
  readonly edition: string;
}

/** All that a lesson yields. */
export interface HandOut {
  /** In the order of the lesson, edition by edition. */
  readonly files: readonly HandOutFile[];
  readonly leftOut: readonly LeftOut[];
  /** False where an edition of a certain name is asked for, and the lesson has none that is called so. */
  readonly hasEdition: boolean;
}

/** What is behind the name of a page that holds several editions. */
const ALL_EDITIONS = ' - all editions';

/** The most of an edition's name that goes into a file's. Unit: bytes of UTF-8. */
const LONGEST_EDITION = 60;

/**
 * Which files a lesson yields, and how each is made. `called` is the name of the lesson's file without its ending, which is on the
 * files that hold a whole lesson. What has an error, or rests on something that has, is left out.
 */
export function handOutOf(document: LessonDocument, called: string, choice: HandOutChoice): HandOut {
  const lesson = lessonOf(document);
  const chosen = chosenEditions(lesson, choice.editions);
  const suffixes = suffixesOf(lesson);
  const taken = new Set<string>();
  const files: HandOutFile[] = [];
  const leftOut: LeftOut[] = [];
  const sound = chosen.map((edition) => ({ edition, part: soundPart(lesson, edition) }));
  for (const { edition, part } of sound) {
    leftOut.push(...part.leftOut.map((one) => ({ ...one, edition: edition.name })));
    files.push(...filesOf({ lesson, edition, part, called, suffix: suffixes.get(edition) ?? '', choice, taken }));
  }
  const page = choice.kinds.includes('page')
    ? pageOf(
        sound.map(({ part }) => part),
        { lesson, chosen, called, suffixes, choice, taken },
      )
    : undefined;
  return { files: page === undefined ? files : [page, ...files], leftOut, hasEdition: chosen.length > 0 };
}

function chosenEditions(lesson: Lesson, asked: HandOutChoice['editions']): readonly Edition[] {
  if (asked === 'own') return [lesson.editions[0]];
  if (asked === 'all') return lesson.editions;
  const name = asked.name.toLowerCase();
  return lesson.editions.filter((edition) => edition.name.toLowerCase() === name);
}

/** What is behind the names of an edition's files: nothing for the lesson's own, whichever editions are asked for. */
function suffixesOf(lesson: Lesson): ReadonlyMap<Edition, string> {
  const taken = new Set<string>();
  return new Map(
    lesson.editions.map((edition, index) => {
      if (index === 0) return [edition, ''];
      const words = fileWords(edition.name, LONGEST_EDITION);
      return [edition, ` - ${freeName(words === '' ? 'edition' : words, taken)}`];
    }),
  );
}

interface EditionOfLesson {
  readonly lesson: Lesson;
  readonly edition: Edition;
  readonly part: SoundPart;
  readonly called: string;
  readonly suffix: string;
  readonly choice: HandOutChoice;
  readonly taken: Set<string>;
}

function filesOf(asked: EditionOfLesson): readonly HandOutFile[] {
  const { edition, part, called, suffix, choice, taken } = asked;
  const wants = new Set(choice.kinds);
  const name = (words: string, ending: string): string => withEnding(`${words}${suffix}`, ending, taken);
  const files: HandOutFile[] = [];
  const add = (kind: HandOutKind, path: string, make: HandOutFile['make']): void => {
    files.push({ name: path, kind, edition: edition.name, make });
  };
  const { whole } = part;
  const title = wordsOf(called, 'lesson');
  if (whole !== undefined && wants.has('pdf'))
    add('pdf', name(title, 'pdf'), (writers) => writers.pdf(whole.document, whole.edition, called));
  if (whole !== undefined && wants.has('chapters') && part.exercises.length > 0)
    add('chapters', name(`${title} chapters`, 'txt'), () => ({ content: chaptersText(whole.document, edition.name) }));
  files.push(...exerciseFiles(asked, name));
  if (whole !== undefined && wants.has('pictures')) files.push(...pictureFiles(whole, asked));
  return files;
}

function wordsOf(text: string, otherwise: string): string {
  const words = fileWords(text);
  return words === '' ? otherwise : words;
}

/** Files of one exercise that differ in their endings alone keep one name where they can. */
function withEnding(words: string, ending: string, taken: Set<string>): string {
  for (let number = 1; ; number += 1) {
    const base = freeName(number === 1 ? words : `${words} ${number}`, new Set());
    const path = `${base}.${ending}`;
    const key = path.normalize('NFC').toUpperCase().toLowerCase();
    if (taken.has(key)) continue;
    taken.add(key);
    return path;
  }
}

function exerciseFiles(
  { lesson, edition, part, choice }: EditionOfLesson,
  name: (words: string, ending: string) => string,
): readonly HandOutFile[] {
  const kinds = choice.kinds.filter(isOfExercise);
  if (kinds.length === 0) return [];
  const { exercises } = lesson.definitions;
  const digits = Math.max(2, String(exercises.length).length);
  return part.exercises.flatMap((definition): readonly HandOutFile[] => {
    const exercise = exportedExercise(lesson.document, edition.name, definition);
    if (exercise === undefined) return [];
    const words = `${String(exercise.number).padStart(digits, '0')} ${fileWords(exercise.title)}`.trim();
    return kinds.map((kind) => {
      const { ending, write } = OF_EXERCISE[kind];
      return {
        name: name(words, ending),
        kind,
        edition: edition.name,
        make: () => ({ content: write(exercise) }),
      };
    });
  });
}

const OF_EXERCISE = {
  midi: { ending: 'mid', write: midiFileOf },
  // The ending that players and notation programs know. Source: MusicXML 4.0, "MusicXML files": `.musicxml` for uncompressed files.
  musicxml: { ending: 'musicxml', write: musicXmlOf },
  text: { ending: 'txt', write: textTabOf },
  json: { ending: 'json', write: timelineJsonOf },
} as const;

function isOfExercise(kind: HandOutKind): kind is keyof typeof OF_EXERCISE {
  return kind in OF_EXERCISE;
}

const FRAMES: readonly FrameName[] = ['wide', 'tall'];

function pictureFiles(
  { document, edition }: NonNullable<SoundPart['whole']>,
  { suffix, choice }: EditionOfLesson,
): readonly HandOutFile[] {
  return FRAMES.flatMap((frame) =>
    picturesOf(document, edition, { frame }).flatMap((picture): readonly HandOutFile[] => {
      const path = `pictures${suffix}/${frame}/${picture.name}`;
      const file = { kind: 'pictures', edition: edition.name } as const;
      return PICTURE_FORMATS.filter((format) => choice.pictures.includes(format)).map((format) => ({
        ...file,
        name: `${path}.${format}`,
        make: (writers) => {
          const drawn = writers.svg(picture);
          return format === 'svg' ? drawn : { ...drawn, content: writers.png(drawn.content) };
        },
      }));
    }),
  );
}

interface PageOfLesson extends Pick<EditionOfLesson, 'lesson' | 'called' | 'choice' | 'taken'> {
  readonly chosen: readonly Edition[];
  readonly suffixes: ReadonlyMap<Edition, string>;
}

/**
 * The page holds all editions that are asked for and are sound in the same part as the first. Its name says what is asked to be in it, so
 * that a page of one edition and a page of all never take each other's place.
 */
function pageOf(
  sound: readonly SoundPart[],
  { lesson, chosen, called, suffixes, choice, taken }: PageOfLesson,
): HandOutFile | undefined {
  const first = sound.find(({ whole }) => whole !== undefined)?.whole;
  const [only] = chosen;
  if (first === undefined || only === undefined) return undefined;
  const { document, edition } = first;
  const alike = sound.flatMap(({ whole }) => (whole?.document.text === document.text ? [whole.edition.name] : []));
  const editions = lessonOf(document).editions.filter(({ name }) => alike.includes(name));
  const missing = chosen.filter(({ name }) => !alike.includes(name)).map(({ name }) => name);
  const remarks =
    missing.length === 0 ? [] : [`not on the page, since something of it is left out: ${missing.join('; ')}`];
  const several = choice.editions === 'all' && lesson.editions.length > 1;
  const suffix = several ? ALL_EDITIONS : (suffixes.get(only) ?? '');
  return {
    name: withEnding(`${wordsOf(called, 'lesson')}${suffix}`, 'html', taken),
    kind: 'page',
    edition: edition.name,
    ...(several ? { several } : {}),
    make: async (writers) => {
      const made = await writers.page(document, editions, called);
      return { ...made, remarks: [...(made.remarks ?? []), ...remarks] };
    },
  };
}
