import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { HostResult } from './host-suite/check.ts';
import { openSession, type WebEditor } from './session.ts';
import type { Editor } from './which-editor.ts';

export const HOST_SUITE = 'test/workbench/host-suite/main.ts';
const REPORT = 'host-suite-report.json';

/** Runs the suite inside the editor's extension host and answers with what it wrote into the opened folder. */
export async function runHostSuite(editor: Editor): Promise<readonly HostResult[]> {
  if (editor === 'desktop') return (await import('../desktop/run-in-desktop.ts')).runInDesktop();
  if (editor === 'node-host') return (await import('../node-host/run-in-node-host.ts')).runInNodeHost();
  return runInWeb(editor);
}

export async function readHostReport(lessons: string): Promise<readonly HostResult[]> {
  return JSON.parse(await readFile(path.join(lessons, REPORT), 'utf8'));
}

async function runInWeb(editor: WebEditor): Promise<readonly HostResult[]> {
  let finish: (code: number) => void = () => undefined;
  const finished = new Promise<number>((resolve) => {
    finish = resolve;
  });
  const said: string[] = [];
  const session = await openSession({
    editor,
    suite: HOST_SUITE,
    // The two names that the editor's test host calls.
    async prepare(page) {
      await page.exposeFunction('codeAutomationLog', (_type: string, args: readonly unknown[]) => {
        said.push(args.map(String).join(' '));
      });
      await page.exposeFunction('codeAutomationExit', (code: number) => finish(code));
    },
  });
  try {
    const code = await finished;
    if (code !== 0) {
      await session.keepPicture('host-suite');
      throw new Error(`the suite could not run:\n${said.join('\n')}`);
    }
    return await readHostReport(session.lessons);
  } finally {
    await session.close();
  }
}
