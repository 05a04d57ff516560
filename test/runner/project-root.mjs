import path from 'node:path';
import { fileURLToPath } from 'node:url';

/** The folder that holds package.json. */
export const PROJECT_ROOT = path.resolve(path.dirname(fileURLToPath(import.meta.url)), '..', '..');

/** Where every run leaves what it made: reports, screenshots, logs. Git does not see it. */
export const OUTPUT = path.join(PROJECT_ROOT, 'test', 'output');
