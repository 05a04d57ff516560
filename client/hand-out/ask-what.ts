import { type QuickPickItem, QuickPickItemKind, Uri, window } from 'vscode';
import type { HandOutChoice, HandOutKind, HandOutOffer } from '../../server/protocol/hand-out.ts';

/** What is handed out where nothing else is asked for. Pictures are light with a dark edge, which any footage lets be read. */
export const USUAL_CHOICE: HandOutChoice = {
  kinds: [],
  editions: 'own',
  page: { paper: 'a4', print: 'normal' },
  look: { ink: 'light', halo: true },
  paints: false,
};

interface WhatItem extends QuickPickItem {
  readonly what?: HandOutKind | 'all editions' | 'letter' | 'large';
}

/** Asks what to make, all in one list; nothing where the teacher turns away. `last` is what was chosen before. */
export async function askWhat(
  offer: HandOutOffer,
  title: string,
  last: readonly string[] | undefined,
): Promise<{ readonly choice: HandOutChoice; readonly picked: readonly string[] } | undefined> {
  const [own, ...further] = offer.editions;
  const before = last ?? ['pdf'];
  const item = (what: NonNullable<WhatItem['what']>, label: string, description?: string): WhatItem => ({
    what,
    label,
    picked: before.includes(what),
    ...(description === undefined ? {} : { description }),
  });
  const line = (label: string): WhatItem => ({ label, kind: QuickPickItemKind.Separator });
  const items = [
    line('Files'),
    ...offer.kinds.map(({ kind, label }) => item(kind, label)),
    line('Paper'),
    item('letter', 'Letter paper', 'A4 otherwise'),
    item('large', 'Large print', 'text of 18 points'),
    ...(further.length === 0
      ? []
      : [line('Editions'), item('all editions', 'All editions', `${further.join('; ')} beside ${own ?? ''}`)]),
  ];
  const chosen = await window.showQuickPick(items, {
    title,
    canPickMany: true,
    placeHolder: 'What is to be made?',
  });
  if (chosen === undefined) return undefined;
  const picked = new Set(chosen.flatMap(({ what }) => what ?? []));
  const kinds = offer.kinds.flatMap(({ kind }) => (picked.has(kind) ? [kind] : []));
  if (kinds.length === 0) {
    await window.showInformationMessage('No kind of file was chosen, so nothing was made.');
    return undefined;
  }
  return {
    choice: {
      ...USUAL_CHOICE,
      kinds,
      editions: picked.has('all editions') ? 'all' : 'own',
      page: { paper: picked.has('letter') ? 'letter' : 'a4', print: picked.has('large') ? 'large' : 'normal' },
    },
    picked: [...picked],
  };
}

/** The folder that is offered, beside the lessons. */
const OFFERED_FOLDER = 'handed-out';

/**
 * Asks for a folder; `near` is the lesson, or the first of several. One beside it is offered: editors in a browser can choose among
 * folders that are there already, and not make one.
 */
export async function askFolder(near: Uri): Promise<Uri | undefined> {
  // A lesson that was never saved is in no folder.
  if (near.scheme === 'untitled') return chooseFolder(undefined);
  const above = Uri.joinPath(near, '..');
  const offered = Uri.joinPath(above, OFFERED_FOLDER);
  const items = [
    { label: `In the folder ${OFFERED_FOLDER}`, description: 'beside the lesson', folder: offered },
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
