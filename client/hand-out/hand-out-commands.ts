import { CancellationTokenSource, commands, Disposable, type Memento, Uri, window, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { type HandOutMeans, type HandOutWish, handOut, handOutAsWished, showRemarks } from './hand-out.ts';
import { HandOutDesk } from './hand-out-desk.ts';
import { HandOutView } from './hand-out-view.ts';
import type { HandedOut } from './make-files.ts';

/** The commands and the list of what a lesson can be handed out as. */
export function registerHandOut(
  client: BaseLanguageClient,
  started: Promise<void>,
  context: { readonly globalState: Memento; readonly extensionUri: Uri },
): Disposable {
  const { globalState: memory, extensionUri } = context;
  const desk = new HandOutDesk(client, started);
  const means: HandOutMeans = { desk, memory, extensionUri };
  return Disposable.from(
    showRemarks(),
    new HandOutView(desk, extensionUri),
    commands.registerCommand('handspan.handOut', async (asked?: unknown): Promise<HandedOut | undefined> => {
      if (isWish(asked)) return handOutAsWished(means, asked, new CancellationTokenSource().token);
      const uri = asked instanceof Uri ? asked : window.activeTextEditor?.document.uri;
      if (uri !== undefined) await handOut(means, { uri, all: false });
      return undefined;
    }),
    commands.registerCommand('handspan.handOutFolder', async (asked?: unknown) => {
      const uri = asked instanceof Uri ? asked : folderInFront();
      if (uri === undefined) await window.showInformationMessage('Open a folder of lessons to hand them out.');
      else await handOut(means, { uri, all: true });
    }),
  );
}

/** The folder of the lesson in front, or the first that is open. */
function folderInFront(): Uri | undefined {
  const lesson = window.activeTextEditor?.document.uri;
  const holds = lesson !== undefined && workspace.getWorkspaceFolder(lesson) !== undefined;
  return holds ? Uri.joinPath(lesson, '..') : workspace.workspaceFolders?.[0]?.uri;
}

function isWish(asked: unknown): asked is HandOutWish {
  return typeof asked === 'object' && asked !== null && 'lessons' in asked && 'choice' in asked && 'to' in asked;
}
