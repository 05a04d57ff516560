import { mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { OUTPUT } from './project-root.mjs';

const REPORTS = path.join(OUTPUT, 'reports');

/**
 * What one runner found, as it stands in test/output/reports.
 *
 * @typedef {{ readonly name: string, readonly ok: boolean, readonly message?: string }} Case
 * @typedef {{ readonly runner: string, readonly cases: readonly Case[], readonly skipped: readonly string[] }} Report
 */

export async function clearReports() {
  await rm(REPORTS, { recursive: true, force: true });
  await mkdir(REPORTS, { recursive: true });
}

/** @param {string} name */
export function rawReportPath(name) {
  return path.join(REPORTS, `${name}.vitest.json`);
}

/** @param {Report} report */
export async function writeReport(report) {
  await writeFile(path.join(REPORTS, `${report.runner}.json`), `${JSON.stringify(report, null, 2)}\n`);
}

/**
 * Reads vitest's own report. A file that could not even be loaded has no tests but counts as one failure, and so does
 * a run that left no report, or an empty one.
 *
 * @param {string} runner
 * @param {number} exitCode
 * @returns {Promise<Report>}
 */
export async function reportOfVitest(runner, exitCode) {
  const text = await readFile(rawReportPath(runner), 'utf8').catch(() => undefined);
  if (text === undefined) {
    return { runner, cases: [{ name: runner, ok: false, message: 'the runner left no report' }], skipped: [] };
  }
  /** @type {{ testResults: { name: string, status: string, message: string, assertionResults: { fullName: string, status: string, failureMessages: string[] | null }[] }[] }} */
  const raw = JSON.parse(text);
  /** @type {Case[]} */
  const cases = [];
  /** @type {string[]} */
  const skipped = [];
  for (const file of raw.testResults) {
    const name = path.basename(file.name);
    for (const one of file.assertionResults) {
      const fullName = `${name}: ${one.fullName}`;
      if (one.status === 'passed') cases.push({ name: fullName, ok: true });
      else if (one.status === 'failed') {
        cases.push({ name: fullName, ok: false, message: (one.failureMessages ?? []).join('\n') });
      } else skipped.push(fullName);
    }
    const anyFailed = file.assertionResults.some((one) => one.status === 'failed');
    if (file.status === 'failed' && !anyFailed) cases.push({ name, ok: false, message: file.message });
  }
  if (cases.length === 0) cases.push({ name: runner, ok: false, message: 'nothing ran' });
  // An error outside of every test fails the run although each test passed.
  if (exitCode !== 0 && cases.every((one) => one.ok)) {
    cases.push({ name: runner, ok: false, message: `the runner ended with exit code ${exitCode}` });
  }
  return { runner, cases, skipped };
}

/**
 * Adds up what the runners wrote down.
 *
 * @returns {Promise<{ readonly passed: number, readonly failures: readonly string[], readonly skipped: readonly string[] }>}
 */
export async function sumOfReports() {
  const names = (await readdir(REPORTS)).filter((name) => name.endsWith('.json') && !name.endsWith('.vitest.json'));
  /** @type {Report[]} */
  const reports = await Promise.all(
    names.map(async (name) => JSON.parse(await readFile(path.join(REPORTS, name), 'utf8'))),
  );
  return {
    passed: reports.flatMap((report) => report.cases.filter((one) => one.ok)).length,
    failures: reports.flatMap((report) =>
      report.cases.filter((one) => !one.ok).map((one) => `${report.runner}: ${one.name}`),
    ),
    skipped: reports.flatMap((report) => report.skipped.map((name) => `${report.runner}: ${name}`)),
  };
}
