import { createHash } from 'node:crypto';
import * as fileSystem from 'node:fs/promises';
import { dirname, join, resolve } from 'node:path';

/** What is used of the file system, so that tests can let a disk be full. */
export type Files = Pick<
  typeof fileSystem,
  'lstat' | 'mkdir' | 'open' | 'readdir' | 'readFile' | 'rename' | 'rm' | 'rmdir' | 'stat' | 'unlink'
>;

/** A place that is not written to, in one sentence. */
export class Refused extends Error {}

/** Our own files while they are half written; the number is that of the process. */
const HALF_WRITTEN = /^\.handspan-(\d+)-\d+\.part$/;

/**
 * The folder that files are handed out to. Names are paths below it, parted by `/`. Nothing is ever written or removed outside: names
 * that lead out and links to other folders are refused. A file is there whole or not at all.
 */
export class OutputFolder {
  readonly root: string;
  readonly #files: Files;
  #written = 0;

  constructor(root: string, files: Files = fileSystem) {
    this.root = root;
    this.#files = files;
  }

  /** Makes the folder where it is not there, with all above it. Throws what the file system says, or a `Refused`. */
  async prepare(): Promise<void> {
    await this.#makeFolder(resolve(this.root));
  }

  // Not the library's own way with `recursive`, which goes on for ever where a system makes no folders, such as below /proc.
  async #makeFolder(path: string): Promise<void> {
    const refused = new Refused(`${this.root}: cannot be a folder, since there is a file in its place`);
    const made = await this.#files.mkdir(path).catch((thrown: unknown) => thrown);
    switch (codeOf(made)) {
      case undefined:
        if (made instanceof Error) throw made;
        return;
      case 'EEXIST':
        if (!(await this.#files.stat(path).catch(() => undefined))?.isDirectory()) throw refused;
        return;
      case 'ENOTDIR':
        throw refused;
      case 'ENOENT': {
        const above = dirname(path);
        const isMissing = above !== path && (await this.#files.stat(above).catch(() => undefined)) === undefined;
        if (!isMissing) throw new Refused(`${this.root}: no folder can be made there`);
        await this.#makeFolder(above);
        await this.#files.mkdir(path);
        return;
      }
      default:
        throw made;
    }
  }

  /** The file's bytes; nothing where there is none, and `'other'` for a link, a folder or anything else in its place. */
  async read(name: string): Promise<Uint8Array | 'other' | undefined> {
    const path = this.#pathOf(name);
    try {
      await this.#checkFolders(name);
      return (await this.#files.lstat(path)).isFile() ? await this.#files.readFile(path) : 'other';
    } catch (thrown) {
      if (codeOf(thrown) === 'ENOENT') return undefined;
      throw thrown;
    }
  }

  /** What a file's bytes come to; nothing where there is none. */
  async hashOf(name: string): Promise<string | undefined> {
    const bytes = await this.read(name);
    return bytes === undefined ? undefined : bytes === 'other' ? 'other' : hashOfBytes(bytes);
  }

  /** Puts the file in its place in one step: after a fall of the power there is the old or the new one, never half of it. */
  async write(name: string, bytes: Uint8Array): Promise<void> {
    const path = this.#pathOf(name);
    await this.#checkFolders(name, 'make');
    const fresh = join(dirname(path), `.handspan-${process.pid}-${++this.#written}.part`);
    try {
      const file = await this.#files.open(fresh, 'wx');
      try {
        await file.writeFile(bytes);
        await file.sync();
      } finally {
        await file.close();
      }
      await this.#files.rename(fresh, path);
    } catch (thrown) {
      await this.#files.rm(fresh, { force: true });
      throw thrown;
    }
  }

  /** Takes a file away, and folders that are empty then. A link is taken away itself, never what it leads to. */
  async remove(name: string): Promise<boolean> {
    const path = this.#pathOf(name);
    try {
      await this.#checkFolders(name);
      await this.#files.unlink(path);
    } catch (thrown) {
      if (codeOf(thrown) === 'ENOENT') return false;
      throw thrown;
    }
    const folders = name.split('/').slice(0, -1);
    for (; folders.length > 0; folders.pop()) {
      try {
        await this.#files.rmdir(join(this.root, ...folders));
      } catch {
        break;
      }
    }
    return true;
  }

  /** Takes away what processes that are no more have left half written in these folders; `''` is the folder itself. */
  async sweep(folders: Iterable<string>): Promise<void> {
    for (const folder of folders) {
      try {
        await this.#checkFolders(`${folder}/x`);
        const path = join(this.root, ...folder.split('/'));
        for (const name of await this.#files.readdir(path)) {
          const process = HALF_WRITTEN.exec(name)?.[1];
          if (process !== undefined && !isAlive(Number(process))) await this.#files.unlink(join(path, name));
        }
      } catch {
        // What cannot be looked at now is looked at the next time.
      }
    }
  }

  #pathOf(name: string): string {
    const parts = name.split('/');
    const leadsOut = parts.some((part) => part === '' || part === '.' || part === '..' || /[\\:\0]/.test(part));
    if (leadsOut) throw new Refused(`${name}: is no name of a file in ${this.root}`);
    return join(this.root, ...parts);
  }

  /** Looks at every folder on the way: a link might lead anywhere. */
  async #checkFolders(name: string, whatIsMissing: 'make' | 'say' = 'say'): Promise<void> {
    const folders = name.split('/').slice(0, -1);
    for (let depth = 1; depth <= folders.length; depth += 1) {
      if (folders[depth - 1] === '') continue;
      const path = join(this.root, ...folders.slice(0, depth));
      if (whatIsMissing === 'make') {
        await this.#files.mkdir(path).catch((thrown: unknown) => {
          if (codeOf(thrown) !== 'EEXIST') throw thrown;
        });
      }
      const found = await this.#files.lstat(path);
      if (found.isSymbolicLink()) {
        throw new Refused(`${path}: is a link to another folder, and nothing is written or removed through it`);
      }
      if (!found.isDirectory()) throw new Refused(`${path}: cannot be a folder, since there is a file in its place`);
    }
  }
}

export function hashOfBytes(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

function codeOf(thrown: unknown): string | undefined {
  return thrown instanceof Error && 'code' in thrown ? String(thrown.code) : undefined;
}

function isAlive(process_: number): boolean {
  try {
    process.kill(process_, 0);
    return true;
  } catch (thrown) {
    return codeOf(thrown) === 'EPERM';
  }
}
