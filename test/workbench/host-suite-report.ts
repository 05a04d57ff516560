import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { HostResult } from './host-suite/check.ts';

/** Reads what the suite wrote into the folder that the editor was opened on. */
export async function readHostReport(lessons: string): Promise<readonly HostResult[]> {
  return JSON.parse(await readFile(path.join(lessons, 'host-suite-report.json'), 'utf8'));
}
