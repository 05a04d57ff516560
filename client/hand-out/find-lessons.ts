import { FileType, Uri, workspace } from 'vscode';

/** A lesson that is to be handed out, as it is in the editor now, saved or not. */
export interface LessonToHandOut {
  readonly uri: Uri;
  readonly text: string;
}

/** Lessons, and what stands in the way of others, a sentence each. */
export interface FoundLessons {
  readonly lessons: readonly LessonToHandOut[];
  readonly complaints: readonly string[];
}

/** These lessons as they are now, in the same order. */
export async function readLessons(uris: readonly Uri[]): Promise<FoundLessons> {
  const read = await Promise.all(uris.map(readLesson));
  return {
    lessons: read.flatMap((one) => (typeof one === 'string' ? [] : [one])),
    complaints: read.filter((one) => typeof one === 'string'),
  };
}

/** The text as it stands in the editor, or else in its folder; a sentence where it cannot be read. */
async function readLesson(uri: Uri): Promise<LessonToHandOut | string> {
  const open = workspace.textDocuments.find((document) => document.uri.toString() === uri.toString());
  if (open !== undefined) return { uri, text: open.getText() };
  let bytes: Uint8Array;
  try {
    bytes = await workspace.fs.readFile(uri);
  } catch (reason) {
    return `${workspace.asRelativePath(uri)} could not be read: ${reasonOf(reason)}`;
  }
  try {
    return { uri, text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) };
  } catch {
    return `${workspace.asRelativePath(uri)} is not UTF-8 text`;
  }
}

/**
 * All lessons of a folder and of those inside it, in the order of their names. Asked folder by folder: the editor's own search knows real
 * disks only, and on others never answers. Links to folders are not followed: they may lead around in a circle.
 */
export async function findLessons(folder: Uri): Promise<FoundLessons> {
  const uris: Uri[] = [];
  const complaints: string[] = [];
  const search = async (one: Uri): Promise<void> => {
    let entries: [string, FileType][];
    try {
      entries = await workspace.fs.readDirectory(one);
    } catch (reason) {
      complaints.push(`${workspace.asRelativePath(one)} could not be read: ${reasonOf(reason)}`);
      return;
    }
    entries.sort(([a], [b]) => (a < b ? -1 : 1));
    for (const [name, type] of entries) {
      if (name.startsWith('.') || name === 'node_modules') continue;
      const uri = Uri.joinPath(one, name);
      if (type === FileType.Directory) await search(uri);
      else if (name.endsWith('.lesson') && (type & FileType.Directory) === 0) uris.push(uri);
    }
  };
  await search(folder);
  const read = await readLessons(uris);
  return { lessons: read.lessons, complaints: [...complaints, ...read.complaints] };
}

/** What an exception says, in its own words. */
export function reasonOf(thrown: unknown): string {
  return thrown instanceof Error ? thrown.message : String(thrown);
}
