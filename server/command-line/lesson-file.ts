import { randomUUID } from 'node:crypto';
import { readFile, realpath, rename, rm, stat, writeFile } from 'node:fs/promises';
import { basename, dirname, join } from 'node:path';

/** A file as it lies on disk. Editors hand over text without these marks; only the command line meets them. */
export interface LessonFile {
  readonly path: string;
  /** Without the byte order mark, so that columns are the same as in the editor. */
  readonly text: string;
  readonly hasByteOrderMark: boolean;
}

export type ReadLesson =
  | { readonly ok: true; readonly file: LessonFile }
  | { readonly ok: false; readonly sentence: string };

const BYTE_ORDER_MARK = '\uFEFF';

/** The path that stands for what is piped in. */
export const STANDARD_INPUT = '-';

/** Reads one lesson, or says in one line why it cannot be read. */
export async function readLesson(path: string): Promise<ReadLesson> {
  try {
    const bytes = path === STANDARD_INPUT ? await readStandardInput() : await readFile(path);
    const text = new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
    const hasByteOrderMark = text.startsWith(BYTE_ORDER_MARK);
    return { ok: true, file: { path, text: hasByteOrderMark ? text.slice(1) : text, hasByteOrderMark } };
  } catch (thrown) {
    return { ok: false, sentence: `${path}: ${reasonOf(thrown)}` };
  }
}

/** Puts a new text in the file's place in one step: a reader sees the old or the new one, never half of it. */
export async function replaceLesson(file: LessonFile, text: string): Promise<void> {
  // A link stays a link; what it points to is replaced.
  const path = await realpath(file.path);
  const { mode } = await stat(path);
  const fresh = join(dirname(path), `.${basename(path)}.${randomUUID()}`);
  try {
    await writeFile(fresh, (file.hasByteOrderMark ? BYTE_ORDER_MARK : '') + text, { mode, flag: 'wx' });
    await rename(fresh, path);
  } catch (thrown) {
    await rm(fresh, { force: true });
    throw thrown;
  }
}

/** Why a file could not be read or written, in a few words. */
export function reasonOf(thrown: unknown): string {
  if (thrown instanceof TypeError) return 'is not UTF-8 text';
  const code = thrown instanceof Error && 'code' in thrown ? String(thrown.code) : '';
  return REASONS[code] ?? `cannot be used${code === '' ? '' : ` (${code})`}`;
}

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'there is no such file',
  EISDIR: 'is a folder, not a lesson',
  EACCES: 'may not be opened by you',
  EPERM: 'may not be changed by you',
  EROFS: 'lies on a disk that cannot be written to',
  ENOSPC: 'does not fit: the disk is full',
  ENOTDIR: 'there is no such file',
  ENAMETOOLONG: 'has too long a name',
};

async function readStandardInput(): Promise<Buffer> {
  const parts: Buffer[] = [];
  for await (const part of process.stdin) parts.push(Buffer.from(part));
  return Buffer.concat(parts);
}
