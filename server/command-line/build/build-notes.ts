import type { Listed } from '../../hand-out/desk.ts';
import { readFields, readText } from '../../protocol/read.ts';
import type { OutputFolder } from './output-folder.ts';

/** What is remembered of a file that was written. */
export interface NotedFile {
  readonly kind: string;
  readonly edition: string;
  /** True for the lesson's own edition, whatever it is called now. */
  readonly own: boolean;
  /** True for a page of all editions. */
  readonly several: boolean;
  /** Hash of the text that it was made of, and of the product's version. */
  readonly text: string;
  /** Hash of its bytes; empty while it is not written yet. */
  readonly hash: string;
}

/** What is remembered of a lesson that was handed out. */
export interface NotedLesson {
  /** Folder of its files. */
  readonly folder: string;
  /** Hash of its text, of how it is handed out, and of the product's version. */
  readonly key: string;
  /** Each kind for each choice of editions that is complete. */
  readonly done: readonly string[];
  /** Files that are ours, by their names in the output folder. */
  readonly files: Readonly<Record<string, NotedFile>>;
  /** What was told of it the last time. */
  readonly told: Told;
}

export interface Told extends Pick<Listed, 'errors' | 'leftOut'> {
  readonly remarks: readonly string[];
}

/** Lessons by their paths from the output folder. */
export type BuildNotes = Readonly<Record<string, NotedLesson>>;

const NAME = '.handspan-build.json';
const FORMAT = { format: 'handspan-build', version: 1 } as const;

/** The notes of the last build. Nothing is ours where there are none, or none that can be read. */
export async function readNotes(folder: OutputFolder): Promise<BuildNotes> {
  const bytes = await folder.read(NAME);
  if (bytes === undefined || bytes === 'other') return {};
  let fields: ReturnType<typeof readFields>;
  try {
    fields = readFields(JSON.parse(new TextDecoder().decode(bytes)));
  } catch {
    return {};
  }
  if (fields?.format !== FORMAT.format || fields.version !== FORMAT.version) return {};
  const lessons = Object.entries(readFields(fields.lessons) ?? {});
  return Object.fromEntries(
    lessons.flatMap(([source, value]) => {
      const lesson = readLessonNote(value);
      return lesson === undefined ? [] : [[source, lesson]];
    }),
  );
}

function readLessonNote(value: unknown): NotedLesson | undefined {
  const fields = readFields(value);
  const folder = readText(fields?.folder);
  const key = readText(fields?.key);
  const files = readFields(fields?.files);
  const told = readFields(fields?.told);
  if (folder === undefined || key === undefined || files === undefined) return undefined;
  const list = (one: unknown): readonly never[] => (Array.isArray(one) ? (one as never[]) : []);
  return {
    folder,
    key,
    done: list(fields?.done),
    told: { errors: list(told?.errors), leftOut: list(told?.leftOut), remarks: list(told?.remarks) },
    files: Object.fromEntries(
      Object.entries(files).flatMap(([name, one]) => {
        const file = readFields(one);
        const [kind, edition, hash] = [readText(file?.kind), readText(file?.edition), readText(file?.hash)];
        if (kind === undefined || edition === undefined || hash === undefined) return [];
        const text = readText(file?.text) ?? '';
        return [[name, { kind, edition, own: file?.own === true, several: file?.several === true, text, hash }]];
      }),
    ),
  };
}

/** Keeps the notes on disk in step with what is done. Calls that wait become one. */
export class NoteKeeper {
  readonly #folder: OutputFolder;
  #notes: BuildNotes;
  #saved: string | undefined;
  #waiting: Promise<void> | undefined;
  #last: Promise<void> = Promise.resolve();

  constructor(folder: OutputFolder, notes: BuildNotes) {
    this.#folder = folder;
    this.#notes = notes;
    this.#saved = Object.keys(notes).length === 0 ? undefined : printed(notes);
  }

  get notes(): BuildNotes {
    return this.#notes;
  }

  /** Takes a lesson's note in; nothing for a lesson that is no more. */
  note(source: string, lesson: NotedLesson | undefined): void {
    const { [source]: _, ...others } = this.#notes;
    this.#notes = lesson === undefined ? others : { ...others, [source]: lesson };
  }

  /** Settles when all that is noted now is on disk. */
  save(): Promise<void> {
    this.#waiting ??= this.#last.then(async () => {
      this.#waiting = undefined;
      const text = printed(this.#notes);
      if (text === this.#saved) return;
      await this.#folder.write(NAME, new TextEncoder().encode(text));
      this.#saved = text;
    });
    this.#last = this.#waiting.catch(() => undefined);
    return this.#waiting;
  }
}

/** With the fields of each in one order, wherever they came from. */
function mapped(files: NotedLesson['files']): NotedLesson['files'] {
  return Object.fromEntries(
    Object.entries(files).map(([name, { kind, edition, own, several, text, hash }]) => [
      name,
      { kind, edition, own, several, text, hash },
    ]),
  );
}

/** Sorted, so that the order in which lessons were done does not show. */
function printed(notes: BuildNotes): string {
  const sorted = <T>(record: Readonly<Record<string, T>>): Readonly<Record<string, T>> =>
    Object.fromEntries(Object.entries(record).sort(([one], [other]) => (one < other ? -1 : 1)));
  const lessons = sorted(notes);
  const tidy = Object.fromEntries(
    Object.entries(lessons).map(([source, { folder, key, done, told, files }]) => [
      source,
      { folder, key, done: [...done].sort(), told, files: sorted(mapped(files)) },
    ]),
  );
  return `${JSON.stringify({ ...FORMAT, lessons: tidy }, undefined, 1)}\n`;
}
