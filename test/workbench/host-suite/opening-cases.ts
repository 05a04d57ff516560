import * as vscode from 'vscode';
import { type HostCase, holds, same, until, untilProblems } from './check.ts';
import { replaceFirst, showLesson, showNewLesson } from './lessons.ts';

/** What happens when a lesson is opened. */
export const openingCases: readonly HostCase[] = [
  {
    name: 'a .lesson file is a lesson, and opening it starts the extension',
    async run() {
      const extension = vscode.extensions.getExtension('handspan.handspan');
      if (extension === undefined) throw new Error('the extension is not there');
      const { document } = await showLesson('lanterns.lesson');
      same(document.languageId, 'handspan');
      // Only now does the service answer; the cases after this one count on it.
      await (await extension.activate()).started;
      same(extension.isActive, true);
    },
  },
  {
    name: 'a clean lesson has no problems, a broken one has, and mending clears them',
    async run() {
      const editor = await showNewLesson(
        'broken.lesson',
        'lesson  Broken\nfor     tenor ukulele, high G\nchord  F  2-0-1-99\n',
      );
      const { uri } = editor.document;
      await untilProblems(uri, (problems) => problems.some((one) => one.range.start.line === 2));
      const [problem] = vscode.languages.getDiagnostics(uri);
      holds(problem?.code !== undefined && problem.message.length > 10, 'a problem has a code and a sentence');
      await replaceFirst(editor.document, '2-0-1-99', '2-0-1-0');
      await untilProblems(uri, (problems) => problems.length === 0);
    },
  },
  {
    name: 'a lesson that was never saved is checked too',
    async run() {
      const content = 'lesson  Not saved\nfor     tenor ukulele, high G\nchord  F  2-0-1-99\n';
      const document = await vscode.workspace.openTextDocument({ language: 'handspan', content });
      await untilProblems(document.uri, (problems) => problems.length > 0);
    },
  },
  {
    name: 'the command shows the sheet beside the lesson',
    async run() {
      await showLesson('lanterns.lesson');
      await vscode.commands.executeCommand('handspan.showSheet');
      const sheet = () =>
        vscode.window.tabGroups.all
          .flatMap((group) => group.tabs)
          .find(
            (tab) => tab.input instanceof vscode.TabInputWebview && tab.input.viewType.endsWith('handspan.preview'),
          );
      await until(vscode.window.tabGroups.onDidChangeTabs, () => sheet() !== undefined);
      holds(sheet()?.group.viewColumn !== vscode.ViewColumn.One, 'the sheet hides the lesson');
    },
  },
];
