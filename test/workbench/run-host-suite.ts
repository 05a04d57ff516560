import { SUITE_DEADLINE_MS, within } from './deadline.ts';
import type { HostResult } from './host-suite/check.ts';
import { readHostReport } from './host-suite-report.ts';
import { openSession, type WebEditor } from './session.ts';
import { HOST_SUITE } from './staged-extensions.mjs';
import type { Editor } from './which-editor.ts';

/** Runs the suite inside the editor's extension host and answers with what it wrote into the opened folder. */
export async function runHostSuite(editor: Editor): Promise<readonly HostResult[]> {
  if (editor === 'desktop') return (await import('../desktop/run-in-desktop.ts')).runInDesktop();
  if (editor === 'node-host') return (await import('../node-host/run-in-node-host.ts')).runInNodeHost();
  return runInWeb(editor);
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
    const code = await within(SUITE_DEADLINE_MS, 'the suite', finished);
    if (code !== 0) throw new Error(`the suite could not run:\n${said.join('\n')}`);
    return await readHostReport(session.lessons);
  } catch (error) {
    await session.keepPicture('host-suite');
    throw error;
  } finally {
    await session.close();
  }
}
