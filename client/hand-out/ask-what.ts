import { type QuickPickItem, QuickPickItemKind, Uri, window } from 'vscode';
import type { HandOutChoice, HandOutKind, HandOutOffer, PictureFormat } from '../../server/protocol/hand-out.ts';

const FORMATS: readonly PictureFormat[] = ['svg', 'png'];

/** What is handed out where nothing else is asked for. Pictures are light with a dark edge, which any footage lets be read. */
export const USUAL_CHOICE: HandOutChoice = {
  kinds: [],
  editions: 'own',
  page: { paper: 'a4', print: 'normal' },
  look: { ink: 'light', halo: true },
  pictures: FORMATS,
};

/** What may be picked: kinds of files, pictures in each of their formats, and how all that is to be. */
type What = Exclude<HandOutKind, 'pictures'> | PictureFormat | 'all editions' | 'letter' | 'large';

interface WhatItem extends QuickPickItem {
  readonly what?: What;
}

/** What is to be known of each format of pictures. */
const FORMAT_WORDS: Readonly<Record<PictureFormat, { readonly label: string; readonly description: string }>> = {
  svg: { label: 'SVG', description: 'sharp in every size' },
  png: { label: 'PNG', description: 'for programs that take no SVG' },
};

/**
 * Asks what to make, all in one list; nothing where the teacher turns away. `editions` tells of them where there are several, `last` is
 * what was chosen before.
 */
export async function askWhat(
  kinds: HandOutOffer['kinds'],
  editions: string | undefined,
  title: string,
  last: readonly string[] | undefined,
): Promise<{ readonly choice: HandOutChoice; readonly picked: readonly string[] } | undefined> {
  const before = last ?? ['pdf'];
  const item = (what: What, label: string, description?: string): WhatItem => ({
    what,
    label,
    picked: before.includes(what),
    ...(description === undefined ? {} : { description }),
  });
  const line = (label: string): WhatItem => ({ label, kind: QuickPickItemKind.Separator });
  const items = [
    line('Files'),
    ...kinds.flatMap(({ kind, label }) =>
      kind === 'pictures'
        ? FORMATS.map((format) => {
            const words = FORMAT_WORDS[format];
            return item(format, `${label} (${words.label})`, words.description);
          })
        : [item(kind, label)],
    ),
    line('Paper'),
    item('letter', 'Letter paper', 'A4 otherwise'),
    item('large', 'Large print', 'text of 18 points'),
    ...(editions === undefined ? [] : [line('Editions'), item('all editions', 'All editions', editions)]),
  ];
  const chosen = await window.showQuickPick(items, {
    title,
    canPickMany: true,
    placeHolder: 'What is to be made?',
  });
  if (chosen === undefined) return undefined;
  const picked = new Set(chosen.flatMap(({ what }) => what ?? []));
  const pictures = FORMATS.filter((format) => picked.has(format));
  const isPicked = (kind: HandOutKind): boolean => (kind === 'pictures' ? pictures.length > 0 : picked.has(kind));
  const chosenKinds = kinds.flatMap(({ kind }) => (isPicked(kind) ? [kind] : []));
  if (chosenKinds.length === 0) {
    await window.showInformationMessage('No kind of file was chosen, so nothing was made.');
    return undefined;
  }
  return {
    choice: {
      ...USUAL_CHOICE,
      kinds: chosenKinds,
      pictures,
      editions: picked.has('all editions') ? 'all' : 'own',
      page: { paper: picked.has('letter') ? 'letter' : 'a4', print: picked.has('large') ? 'large' : 'normal' },
    },
    picked: [...picked],
  };
}

/** The folder that is offered, beside the lessons. */
const OFFERED_FOLDER = 'handed-out';

/**
 * Asks for a folder. One in the folder of the lessons is offered, where they are in one: editors in a browser can choose among folders
 * that are there already, and not make one. `where` says where that would be.
 */
export async function askFolder(above: Uri | undefined, where: string): Promise<Uri | undefined> {
  if (above === undefined) return chooseFolder(undefined);
  const offered = Uri.joinPath(above, OFFERED_FOLDER);
  const items = [
    { label: `In the folder ${OFFERED_FOLDER}`, description: where, folder: offered },
    { label: 'In another folder…', folder: undefined },
  ];
  const picked = await window.showQuickPick(items, {
    title: 'Folder for the Files',
    placeHolder: 'Where are they to go?',
  });
  if (picked === undefined) return undefined;
  return picked.folder ?? chooseFolder(above);
}

async function chooseFolder(from: Uri | undefined): Promise<Uri | undefined> {
  const folders = await window.showOpenDialog({
    canSelectFolders: true,
    canSelectFiles: false,
    canSelectMany: false,
    ...(from === undefined ? {} : { defaultUri: from }),
    openLabel: 'Hand Out Here',
    title: 'Folder for the Files',
  });
  return folders?.[0];
}
