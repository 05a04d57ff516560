import * as vscode from 'vscode';
import type { HandOutWish } from '../../../client/hand-out/hand-out.ts';
import type { HandedOut } from '../../../client/hand-out/make-files.ts';
import { type HostCase, holds, same } from './check.ts';
import { folderUri, showLesson, showNewLesson } from './lessons.ts';

const CHOICE: HandOutWish['choice'] = {
  kinds: ['pdf', 'midi', 'text'],
  editions: 'own',
  page: { paper: 'a4', print: 'normal' },
  look: { ink: 'light', halo: true },
  pictures: ['svg'],
};

function handOut(lesson: vscode.TextEditor, to: vscode.Uri, choice = CHOICE): Thenable<HandedOut> {
  const wish: HandOutWish = { lessons: [lesson.document.uri], choice, to };
  return vscode.commands.executeCommand<HandedOut>('handspan.handOut', wish);
}

/** Handing out in whatever host the editor gives: a process with a disk, or a worker with a folder that is on none. */
export const handOutCases: readonly HostCase[] = [
  {
    name: 'a lesson is handed out into a folder, and a second time nothing is written',
    async run() {
      const lesson = await showLesson('lanterns.lesson');
      const to = vscode.Uri.joinPath(folderUri(), 'handed-out');
      const first = await handOut(lesson, to);
      same([...first.notes], []);
      holds(first.finished && first.written.includes('lanterns/lanterns.pdf'), first.written.join());
      const pdf = await vscode.workspace.fs.readFile(vscode.Uri.joinPath(to, 'lanterns', 'lanterns.pdf'));
      same(new TextDecoder('latin1').decode(pdf.slice(0, 8)), '%PDF-1.7');
      const names = (await vscode.workspace.fs.readDirectory(vscode.Uri.joinPath(to, 'lanterns'))).map(
        ([name]) => name,
      );
      same(names.sort(), first.written.map((name) => name.replace('lanterns/', '')).sort());
      const again = await handOut(lesson, to);
      same([...again.written], []);
      same(again.asBefore, first.written.length);
    },
  },
  {
    name: 'pictures for the video are handed out',
    async run() {
      const lesson = await showLesson('lanterns.lesson');
      const to = vscode.Uri.joinPath(folderUri(), 'handed-out-pictures');
      const { written, notes } = await handOut(lesson, to, { ...CHOICE, kinds: ['pictures'] });
      same([...notes], []);
      holds(written.length > 4 && written.every((name) => name.endsWith('.svg')), written.join());
    },
  },
  {
    name: 'a lesson with an error is handed out without it, and that is said',
    async run() {
      const sound = (await showLesson('lanterns.lesson')).document.getText();
      const text = `${sound}\nexercise Broken\n  play  nothing-of-that-name\n`;
      const lesson = await showNewLesson('half-broken.lesson', text);
      const { written, notes } = await handOut(lesson, vscode.Uri.joinPath(folderUri(), 'handed-out-half'));
      holds(written.length > 0 && !written.some((name) => name.includes('Broken')), written.join());
      holds(
        notes.some((note) => note.includes('Broken was left out')),
        notes.join(),
      );
    },
  },
];
