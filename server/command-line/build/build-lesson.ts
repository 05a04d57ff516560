import { createHash } from 'node:crypto';
import { version } from '../../../package.json';
import type { HandOutKind } from '../../../shared/export/hand-out/hand-out-choice.ts';
import type { Desk, HandOutJob, ListedFile } from '../../hand-out/desk.ts';
import type { NotedFile, NotedLesson, NoteKeeper, Told } from './build-notes.ts';
import { hashOfBytes, type OutputFolder, Refused } from './output-folder.ts';

/** What became of one lesson. Names are those in the output folder. */
export interface BuiltLesson {
  readonly written: readonly string[];
  readonly unchanged: number;
  readonly removed: readonly string[];
  readonly told: Told;
  /** Files of earlier builds that are not asked for now and were made of another text. */
  readonly older: readonly string[];
  /** What stood in the way, a sentence each. */
  readonly complaints: readonly string[];
  readonly hasEdition: boolean;
}

export interface LessonBuild {
  readonly job: HandOutJob;
  /** By which the notes know the lesson. */
  readonly source: string;
  /** Folder of its files in the output folder. */
  readonly folder: string;
}

export interface BuildTools {
  readonly outputs: OutputFolder;
  readonly keeper: NoteKeeper;
  readonly stop: AbortSignal;
}

/**
 * Hands out one lesson: makes and writes what is missing, edited or other than before, and takes away what the lesson no longer
 * yields. A file that is there and is not ours is left as it is. Throws what the file system says where nothing can be written.
 */
export async function buildLesson(desk: Desk, build: LessonBuild, tools: BuildTools): Promise<BuiltLesson> {
  const { job, source, folder } = build;
  const { outputs, keeper, stop } = tools;
  const before = keeper.notes[source];
  const key = keyOf(job);
  const same = before?.key === key;
  const asked = job.choice.kinds.map((kind) => doneWord(kind, job));
  const text = textKeyOf(job);
  if (same && asked.every((word) => before.done.includes(word))) {
    const mine = askedOf(before.files, job);
    if (await areWhole(mine, outputs)) {
      const older = olderThan(text, before.files);
      return {
        written: [],
        unchanged: mine.length,
        removed: [],
        older,
        told: before.told,
        complaints: [],
        hasEdition: true,
      };
    }
  }

  const listed = await desk.list(job);
  const own = listed.ownEdition;
  const names = new Map(listed.files.map((file) => [`${folder}/${file.name}`, file]));
  const owned = before?.files ?? {};
  const files: Record<string, NotedFile> = { ...owned };
  for (const [name, file] of names) {
    // Claimed before it is written: were we cut off, it would be known as ours all the same.
    if (owned[name] === undefined && (await outputs.read(name)) === undefined) files[name] = noted(file, own, text, '');
  }
  const note = (told: Told, done: readonly string[]): NotedLesson => ({ folder, key, done, files: { ...files }, told });
  keeper.note(source, note(NOTHING_TOLD, []));
  await keeper.save();

  const written: string[] = [];
  const complaints: string[] = [];
  const remarks = new Set<string>();
  let unchanged = 0;
  for (const [name, file] of names) {
    if (stop.aborted) break;
    try {
      const there = await outputs.hashOf(name);
      const known = files[name]?.hash;
      if (same && there !== undefined && there === known && before.done.includes(doneWord(file.kind, job))) {
        unchanged += 1;
        for (const remark of before.told.remarks) if (remark.startsWith(`${name}: `)) remarks.add(remark);
        continue;
      }
      const made = await desk.make(job, file.name);
      if (made === undefined || stop.aborted) continue;
      for (const remark of made.remarks) remarks.add(`${name}: ${remark}`);
      const hash = hashOfBytes(made.bytes);
      if (there === hash) unchanged += 1;
      else if (there !== undefined && files[name] === undefined) {
        complaints.push(`${outputs.root}/${name}: is there already and was not made here; it is left as it is`);
        continue;
      } else {
        await outputs.write(name, made.bytes);
        written.push(name);
      }
      files[name] = noted(file, own, text, hash);
    } catch (thrown) {
      if (thrown instanceof Refused) complaints.push(thrown.message);
      else throw isOfFileSystem(thrown) ? new NotWritten(`${outputs.root}/${name}`, thrown) : thrown;
    }
  }
  const several = listed.files.some((file) => file.several === true);
  const removed = stop.aborted ? [] : await removeOthers(names, files, { job, several, outputs, complaints });
  const told = {
    errors: listed.errors.map((error) => ({ ...error, file: '' })),
    leftOut: listed.leftOut,
    remarks: [...remarks],
  };
  const kept = same ? before.done.filter((word) => !asked.includes(word)) : [];
  const whole = !stop.aborted && complaints.length === 0 && listed.hasEdition;
  keeper.note(source, note(told, whole ? [...kept, ...asked] : kept));
  await keeper.save();
  const older = olderThan(text, files);
  return { written, unchanged, removed, older, told, complaints, hasEdition: listed.hasEdition };
}

/** Something that could not be written, by its path. */
export class NotWritten extends Error {
  readonly path: string;

  constructor(path: string, cause: unknown) {
    super('A file could not be written.', { cause });
    this.path = path;
  }
}

export function isOfFileSystem(thrown: unknown): boolean {
  return thrown instanceof Error && 'syscall' in thrown;
}

const NOTHING_TOLD: Told = { errors: [], leftOut: [], remarks: [] };

function noted({ kind, edition, several }: ListedFile, ownEdition: string, text: string, hash: string): NotedFile {
  return { kind, edition, own: edition === ownEdition, several: several === true, text, hash };
}

/** Everything that the bytes of a lesson's files depend on. */
function keyOf({ called, text, choice: { page, look, pictures } }: HandOutJob): string {
  const all = JSON.stringify([version, called, text, page.paper, page.print, look.ink, look.halo, pictures]);
  return createHash('sha256').update(all).digest('hex');
}

/** What tells whether a file was made of the lesson as it is now. */
function textKeyOf({ called, text }: HandOutJob): string {
  return createHash('sha256')
    .update(JSON.stringify([version, called, text]))
    .digest('hex');
}

function olderThan(text: string, files: NotedLesson['files']): readonly string[] {
  return Object.keys(files).filter((name) => files[name]?.hash !== '' && files[name]?.text !== text);
}

function doneWord(kind: HandOutKind, { choice: { editions } }: HandOutJob): string {
  return `${kind} ${typeof editions === 'string' ? editions : `of ${editions.name.toLowerCase()}`}`;
}

/** Whether a file is one of those that are asked for now; `several` says whether a page of all editions holds several now. */
function isAsked(
  { kind, edition, own, several: holdsAll }: NotedFile,
  { choice: { kinds, editions } }: HandOutJob,
  several: boolean,
): boolean {
  if (!kinds.some((asked) => asked === kind)) return false;
  if (editions === 'all') return kind !== 'page' || holdsAll || !several;
  if (holdsAll) return false;
  return editions === 'own' ? own : edition.toLowerCase() === editions.name.toLowerCase();
}

/** Files that are asked for now, as the notes of a complete build know them. */
function askedOf(files: NotedLesson['files'], job: HandOutJob): readonly (readonly [string, NotedFile])[] {
  const several = Object.values(files).some((file) => file.several);
  return Object.entries(files).filter(([, file]) => isAsked(file, job, several));
}

async function areWhole(files: readonly (readonly [string, NotedFile])[], outputs: OutputFolder): Promise<boolean> {
  for (const [name, file] of files) {
    try {
      if (file.hash === '' || (await outputs.hashOf(name)) !== file.hash) return false;
    } catch {
      return false;
    }
  }
  return true;
}

async function removeOthers(
  names: ReadonlyMap<string, unknown>,
  files: Record<string, NotedFile>,
  {
    job,
    several,
    outputs,
    complaints,
  }: { job: HandOutJob; several: boolean; outputs: OutputFolder; complaints: string[] },
): Promise<readonly string[]> {
  const removed: string[] = [];
  for (const [name, file] of Object.entries(files)) {
    if (names.has(name) || !isAsked(file, job, several)) continue;
    try {
      if (await outputs.remove(name)) removed.push(name);
      delete files[name];
    } catch (thrown) {
      if (!(thrown instanceof Refused)) throw thrown;
      complaints.push(thrown.message);
    }
  }
  return removed;
}
