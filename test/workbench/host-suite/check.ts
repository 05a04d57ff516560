import * as vscode from 'vscode';

/** One thing that holds inside the editor's extension host. */
export interface HostCase {
  readonly name: string;
  run(): Promise<void>;
}

/** What a case found; the whole list is the suite's report. */
export interface HostResult {
  readonly name: string;
  readonly ok: boolean;
  readonly message?: string;
}

/** How long one case may hang before it is called failed. Nothing waits for this time when all is well. */
const CASE_DEADLINE_MS = 20_000;

export async function runCase({ name, run }: HostCase): Promise<HostResult> {
  let timer: ReturnType<typeof setTimeout> | undefined;
  const deadline = new Promise<never>((_resolve, reject) => {
    timer = setTimeout(() => reject(new Error(`no end within ${CASE_DEADLINE_MS} ms`)), CASE_DEADLINE_MS);
  });
  try {
    await Promise.race([run(), deadline]);
    return { name, ok: true };
  } catch (error) {
    return { name, ok: false, message: error instanceof Error ? (error.stack ?? error.message) : String(error) };
  } finally {
    clearTimeout(timer);
  }
}

export function holds(condition: boolean, otherwise: string): void {
  if (!condition) throw new Error(otherwise);
}

export function same<T>(actual: T, expected: T): void {
  const [left, right] = [JSON.stringify(actual), JSON.stringify(expected)];
  holds(left === right, `got ${left}, expected ${right}`);
}

/** Waits for events until the condition holds; looks once before the first. */
export function until<T>(event: vscode.Event<T>, condition: () => boolean): Promise<void> {
  if (condition()) return Promise.resolve();
  return new Promise((resolve) => {
    const listening = event(() => {
      if (!condition()) return;
      listening.dispose();
      resolve();
    });
  });
}

/** Waits until the lesson's problems are as wanted. */
export function untilProblems(
  uri: vscode.Uri,
  wanted: (problems: readonly vscode.Diagnostic[]) => boolean,
): Promise<void> {
  return until(vscode.languages.onDidChangeDiagnostics, () => wanted(vscode.languages.getDiagnostics(uri)));
}
