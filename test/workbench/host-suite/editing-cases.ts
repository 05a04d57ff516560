import * as vscode from 'vscode';
import { type HostCase, holds, same, untilProblems } from './check.ts';
import { placeOf, replaceFirst, showNewLesson } from './lessons.ts';

const UNEVEN = `lesson  Uneven columns
for     tenor ukulele, high G
chord  C  0-0-0-3

pattern  roll
  count  1 & 2 & 3 & 4 &
  pick  4p 2i 3p 1m 4p 2i 3p 1m

exercise  Roll
  over  C
  each  roll
`;

/** What changes the lesson's text. */
export const editingCases: readonly HostCase[] = [
  {
    name: 'formatting aligns the columns, and a second time changes nothing',
    async run() {
      const { document } = await showNewLesson('uneven.lesson', UNEVEN);
      await vscode.commands.executeCommand('editor.action.formatDocument');
      const once = document.getText();
      const count = placeOf(document, '&').character;
      const pick = placeOf(document, '2i').character;
      same(pick, count);
      await vscode.commands.executeCommand('editor.action.formatDocument');
      same(document.getText(), once);
    },
  },
  {
    name: 'renaming a pattern changes its definition and its use',
    async run() {
      const { document } = await showNewLesson('renamed.lesson', UNEVEN);
      const edit = await vscode.commands.executeCommand<vscode.WorkspaceEdit>(
        'vscode.executeDocumentRenameProvider',
        document.uri,
        placeOf(document, 'pattern  roll', 10),
        'wheel',
      );
      await vscode.workspace.applyEdit(edit);
      holds(document.getText().includes('pattern  wheel'), 'the definition kept its name');
      holds(document.getText().includes('each  wheel'), 'the use kept its name');
    },
  },
  {
    name: 'a name that does not fit its frets is reported, and its fix is offered and works',
    async run() {
      // 2-0-1-0 on G4 C4 E4 A4 sounds A C F A: an F chord, so G is a wrong name for it.
      const { document } = await showNewLesson(
        'misnamed.lesson',
        UNEVEN.replace('chord  C  0-0-0-3', 'chord  G  2-0-1-0'),
      );
      await replaceFirst(document, 'over  C', 'over  G');
      await untilProblems(document.uri, (problems) => problems.some((one) => one.range.start.line === 2));
      const actions = await vscode.commands.executeCommand<vscode.CodeAction[]>(
        'vscode.executeCodeActionProvider',
        document.uri,
        document.lineAt(2).range,
        vscode.CodeActionKind.QuickFix.value,
      );
      const [fix] = actions;
      holds(fix?.edit !== undefined, `no fix with an edit among ${JSON.stringify(actions.map((one) => one.title))}`);
      if (fix?.edit !== undefined) await vscode.workspace.applyEdit(fix.edit);
      holds(/^chord {2}F\b/m.test(document.getText()), `the fix left ${document.lineAt(2).text}`);
    },
  },
  {
    name: 'what is saved stands on the disk',
    async run() {
      const { document } = await showNewLesson('saved.lesson', UNEVEN);
      await replaceFirst(document, 'Uneven columns', 'Even columns');
      holds(await document.save(), 'the editor did not save');
      const bytes = await vscode.workspace.fs.readFile(document.uri);
      same(new TextDecoder().decode(bytes), document.getText());
      holds(document.getText().startsWith('lesson  Even columns'), 'the edit is not in the text');
    },
  },
];
