import * as vscode from 'vscode';

/** Opens the first lesson with its sheet beside it, unless the window brings back what was open before. */
export async function activate(): Promise<void> {
  if (tabs().some((tab) => !isGreeting(tab))) return;
  const [folder] = vscode.workspace.workspaceFolders ?? [];
  const first = folder && (await firstLesson(folder.uri));
  if (first === undefined) return;
  await vscode.window.showTextDocument(await vscode.workspace.openTextDocument(first), { preview: false });
  await vscode.commands.executeCommand('handspan.showSheet');
  // Only now, and found anew: the greeting may come up late, and becomes another tab when something is opened beside it.
  await vscode.window.tabGroups.close(tabs().filter(isGreeting));
}

function tabs(): readonly vscode.Tab[] {
  return vscode.window.tabGroups.all.flatMap((group) => group.tabs);
}

/**
 * The editor's own greeting, which may come up before the editor has read that it need not: the one tab that says nothing of what it
 * shows.
 */
function isGreeting({ input }: vscode.Tab): boolean {
  return input === undefined;
}

/** In the folder itself, else in the first of its folders that has one. The editor's file search sees real disks only. */
async function firstLesson(folder: vscode.Uri): Promise<vscode.Uri | undefined> {
  const entries = (await vscode.workspace.fs.readDirectory(folder)).sort(([a], [b]) => a.localeCompare(b));
  for (const [name, type] of entries) {
    if (type & vscode.FileType.File && name.endsWith('.lesson')) return vscode.Uri.joinPath(folder, name);
  }
  for (const [name, type] of entries) {
    if (type !== vscode.FileType.Directory || name.startsWith('.')) continue;
    const inside = await firstLesson(vscode.Uri.joinPath(folder, name));
    if (inside !== undefined) return inside;
  }
  return undefined;
}
