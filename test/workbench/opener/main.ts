import * as vscode from 'vscode';

/** Opens the first lesson with its sheet beside it, unless the window brings back what was open before. */
export async function activate(): Promise<void> {
  if (vscode.window.tabGroups.all.some((group) => group.tabs.length > 0)) return;
  const [folder] = vscode.workspace.workspaceFolders ?? [];
  const first = folder && (await firstLesson(folder.uri));
  if (first === undefined) return;
  await vscode.window.showTextDocument(await vscode.workspace.openTextDocument(first), { preview: false });
  await vscode.commands.executeCommand('handspan.showSheet');
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
