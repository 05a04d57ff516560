import * as vscode from 'vscode';
import { answerCases } from './answer-cases.ts';
import { runCase } from './check.ts';
import { editingCases } from './editing-cases.ts';
import { handOutCases } from './hand-out-cases.ts';
import { folderUri } from './lessons.ts';
import { openingCases } from './opening-cases.ts';

/** Called by the editor. The report goes into the opened folder, a way out that every kind of host has. */
export async function run(): Promise<void> {
  const results = [];
  for (const one of [...openingCases, ...answerCases, ...editingCases, ...handOutCases])
    results.push(await runCase(one));
  const report = new TextEncoder().encode(JSON.stringify(results));
  await vscode.workspace.fs.writeFile(vscode.Uri.joinPath(folderUri(), 'host-suite-report.json'), report);
}
