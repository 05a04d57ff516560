import * as vscode from 'vscode';

/** The folder that the editor was opened on. */
export function folderUri(): vscode.Uri {
  const [folder] = vscode.workspace.workspaceFolders ?? [];
  if (folder === undefined) throw new Error('the editor has no folder');
  return folder.uri;
}

function lessonUri(name: string): vscode.Uri {
  return vscode.Uri.joinPath(folderUri(), name);
}

/** Shows a lesson of the test folder. */
export async function showLesson(name: string): Promise<vscode.TextEditor> {
  return vscode.window.showTextDocument(await vscode.workspace.openTextDocument(lessonUri(name)));
}

/** Writes a lesson of its own for a case, so that no case sees another one's changes. */
export async function showNewLesson(name: string, text: string): Promise<vscode.TextEditor> {
  await vscode.workspace.fs.writeFile(lessonUri(name), new TextEncoder().encode(text));
  return showLesson(name);
}

/** The place of the first occurrence of `text`, `plus` characters into it. */
export function placeOf(document: vscode.TextDocument, text: string, plus = 0): vscode.Position {
  const offset = document.getText().indexOf(text);
  if (offset < 0) throw new Error(`the lesson does not hold ${text}`);
  return document.positionAt(offset + plus);
}

export async function replaceFirst(document: vscode.TextDocument, old: string, by: string): Promise<void> {
  const edit = new vscode.WorkspaceEdit();
  const start = placeOf(document, old);
  edit.replace(document.uri, new vscode.Range(start, placeOf(document, old, old.length)), by);
  if (!(await vscode.workspace.applyEdit(edit))) throw new Error('the edit was refused');
}
