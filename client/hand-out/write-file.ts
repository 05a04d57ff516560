import { FileType, Uri, workspace } from 'vscode';

let written = 0;

/** What became of a file. */
export type Wrote = 'written' | 'as before';

/**
 * Writes a file below a folder in one step, where it is not the same already. Works in folders that are on no disk. `name` is parted by
 * `/`; one that leads out of the folder is refused.
 */
export async function writeBelow(folder: Uri, name: string, bytes: Uint8Array): Promise<Wrote> {
  const target = below(folder, name);
  if (await isSame(target, bytes)) return 'as before';
  const above = Uri.joinPath(target, '..');
  await workspace.fs.createDirectory(above);
  const fresh = Uri.joinPath(above, `.handspan-${Date.now().toString(36)}-${++written}.part`);
  try {
    await workspace.fs.writeFile(fresh, bytes);
    await workspace.fs.rename(fresh, target, { overwrite: true });
  } catch (reason) {
    await Promise.resolve(workspace.fs.delete(fresh)).catch(() => undefined);
    throw reason;
  }
  return 'written';
}

/** Whether there is anything at that place already. */
export async function isThere(folder: Uri, name: string): Promise<boolean> {
  try {
    await workspace.fs.stat(below(folder, name));
    return true;
  } catch {
    return false;
  }
}

function below(folder: Uri, name: string): Uri {
  const leadsOut = name.split('/').some((part) => part === '' || part === '.' || part === '..' || part.includes('\\'));
  if (leadsOut) throw new Error(`${name} is no name of a file in the folder`);
  return Uri.joinPath(folder, ...name.split('/'));
}

async function isSame(target: Uri, bytes: Uint8Array): Promise<boolean> {
  try {
    const { type, size } = await workspace.fs.stat(target);
    if (type !== FileType.File || size !== bytes.length) return false;
    const there = await workspace.fs.readFile(target);
    return there.every((byte, index) => byte === bytes[index]);
  } catch {
    return false;
  }
}
