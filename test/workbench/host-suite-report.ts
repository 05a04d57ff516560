import { watch } from 'node:fs';
import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { HostResult } from './host-suite/check.ts';

const REPORT = 'host-suite-report.json';

/** Reads what the suite wrote into the folder that the editor was opened on. */
export async function readHostReport(lessons: string): Promise<readonly HostResult[]> {
  return JSON.parse(await readFile(path.join(lessons, REPORT), 'utf8'));
}

/** Waits until the suite has written its report, whole. */
export function hostReportWritten(lessons: string): Promise<void> {
  return new Promise((resolve) => {
    const watching = watch(lessons, async () => {
      const complete = await readHostReport(lessons).then(
        () => true,
        () => false,
      );
      if (!complete) return;
      watching.close();
      resolve();
    });
  });
}
