import { existsSync } from 'node:fs';
import { realpath } from 'node:fs/promises';
import { availableParallelism } from 'node:os';
import { dirname, join } from 'node:path';
import { HAND_OUT_KINDS, PICTURE_FORMATS } from '../../shared/export/hand-out/hand-out-choice.ts';
import type { Desk } from '../hand-out/desk.ts';
import { deskThread } from '../hand-out/desk-threads.ts';
import { choiceAsked } from './build/build-asked.ts';
import { type BuiltTerm, buildTerm, type TermBuild } from './build/build-term.ts';
import { findLessons } from './build/find-lessons.ts';
import { OutputFolder } from './build/output-folder.ts';
import { buildAsJson, counted, lessonLines, summaryLine } from './build/tell-build.ts';
import { nextChange } from './build/watch-folders.ts';
import { readWords } from './read-words.ts';
import { type Command, type ExitCode, type Terminal, UsageError } from './terminal.ts';

/** More threads than this gain nothing for a term, and each takes memory of its own. */
const MOST_THREADS = 8;

export const build: Command = {
  usage:
    'handspan build PATH… --to DIR [--as KINDS] [--edition all|NAME] [--paper a4|letter] [--print SIZE] [--ink light|dark] [--watch] [--json]',
  summary: 'hand out lessons as sheets, music files and pictures',
  details: `Each PATH is a lesson, or a folder with all lessons in it. Every lesson gets a folder of its own in DIR.
  --to       where the files go; the folder is made where it is not there
  --as       what is made, parted by commas: ${HAND_OUT_KINDS.join(',')};
             all of them where nothing is said
  --edition  all, or the name of one; the lesson's own where nothing is said
  --paper    a4 or letter; a4 where nothing is said
  --print    normal, large or one-page; normal where nothing is said
  --ink      pictures in light ink with a dark edge, or in dark ink with a light one; light where nothing is said
  --watch    go on, and make again what changes, until Ctrl-C
  --json     print {to, finished, lessons: [{file, written, unchanged, removed, older, errors, leftOut, remarks}], removed, complaints}
Only what has changed is written, each file in one step. DIR/.handspan-build.json says which files were made here: those of an
exercise or a lesson that is no more are removed, and nothing else in DIR is touched. What earlier calls made and this one does not
ask for stays, and is told where the lesson has changed since. A page of all editions and one of a single edition differ in name. What has an error is left out and listed.
Exit status: 0 all made, 1 lessons with errors, 2 wrong call, or something that cannot be read or written.`,

  async run(words, terminal) {
    const text = { type: 'string' } as const;
    const options = {
      ...{ to: text, as: text, edition: text, paper: text, print: text, ink: text },
      watch: { type: 'boolean' },
      json: { type: 'boolean' },
    } as const;
    const { values, positionals } = readWords(words, options);
    if (positionals.length === 0) throw new UsageError('name at least one lesson, or a folder of lessons');
    if (values.to === undefined || values.to === '') throw new UsageError('say where to: --to DIR');
    if (values.watch === true && values.json === true) throw new UsageError('say --watch or --json, not both');
    // It does not come with the packed extension.
    const paints = existsSync(join(__dirname, 'rasteriser.wasm'));
    const pictures = PICTURE_FORMATS.filter((format) => format !== 'png' || paints);
    const asked = { paths: positionals, to: new OutputFolder(values.to), choice: choiceAsked(values, { pictures }) };
    if (!paints && asked.choice.kinds.includes('pictures'))
      terminal.complain('pictures are written as SVG alone: rasteriser.wasm does not come with this copy of Handspan');
    const stop = new AbortController();
    const interrupt = (): void => stop.abort();
    process.once('SIGINT', interrupt).once('SIGTERM', interrupt);
    const threads = Math.min(availableParallelism(), MOST_THREADS);
    const desks = Array.from({ length: threads }, () => lazyDesk(() => deskThread(__dirname)));
    try {
      if (values.watch === true) return await watchTerm(asked, desks, stop.signal, terminal);
      const term = await buildOnce(asked, desks, stop.signal);
      if (values.json === true) terminal.out(buildAsJson(term, asked.to.root));
      return tell(term, asked, terminal, { quiet: values.json === true });
    } finally {
      await Promise.all(desks.map((desk) => desk.end()));
      process.off('SIGINT', interrupt).off('SIGTERM', interrupt);
    }
  },
};

/** A thread that is started with its first question: nothing is to be made where nothing has changed. */
function lazyDesk(start: () => Desk): Desk {
  let desk: Desk | undefined;
  const started = (): Desk => {
    desk ??= start();
    return desk;
  };
  return {
    list: (job) => started().list(job),
    make: (job, name) => started().make(job, name),
    end: async () => desk?.end(),
  };
}

async function buildOnce(asked: TermBuild, desks: readonly Desk[], stop: AbortSignal): Promise<BuiltTerm> {
  const progress = progressOn(process.stderr);
  try {
    return await buildTerm(asked, {
      desks,
      stop,
      progress: (done, all, { file, written }) => {
        progress.show(`${done} of ${counted(all, 'lesson')}: ${file}, ${counted(written.length, 'file')} written`);
      },
    });
  } finally {
    progress.clear();
  }
}

/** On a terminal one line that is written over; elsewhere a line each. */
function progressOn(stream: NodeJS.WriteStream): { show(line: string): void; clear(): void } {
  if (!stream.isTTY) return { show: (line) => void stream.write(`${line}\n`), clear: () => undefined };
  return {
    show: (line) => void stream.write(`\r\x1b[K${line.slice(0, Math.max(10, (stream.columns ?? 80) - 1))}`),
    clear: () => void stream.write('\r\x1b[K'),
  };
}

function tell(term: BuiltTerm, { to, choice }: TermBuild, terminal: Terminal, { quiet }: { quiet: boolean }): ExitCode {
  if (!quiet) {
    terminal.out(term.lessons.flatMap(lessonLines).join(''));
    if (term.lessons.length > 0) terminal.out(summaryLine(term, to.root));
  }
  for (const complaint of term.complaints) terminal.complain(complaint);
  if (!term.finished) {
    if (term.complaints.length === 0) terminal.complain('stopped before all was made; what is written is whole');
    return 2;
  }
  const { editions } = choice;
  if (typeof editions === 'object' && term.lessons.length > 0 && !term.lessons.some(({ hasEdition }) => hasEdition)) {
    terminal.complain(`--edition: no lesson has an edition called ${editions.name}`);
    return 2;
  }
  if (term.complaints.length > 0) return 2;
  return term.lessons.some(({ told }) => told.errors.length > 0) ? 1 : 0;
}

/** Builds, and builds again with each change, until it is stopped: that is its regular end. */
async function watchTerm(
  asked: TermBuild,
  desks: readonly Desk[],
  stop: AbortSignal,
  terminal: Terminal,
): Promise<ExitCode> {
  for (;;) {
    // Watched from before, so that no change falls between. What is handed out into a watched folder is as good as unchanged then.
    const { folders, lessons } = await findLessons(asked.paths, await realpath(asked.to.root).catch(() => undefined));
    const watched = new Set([...folders, ...lessons.map(({ real }) => dirname(real))]);
    const change = nextChange([...watched], (name) => name.startsWith('.'), stop);
    const term = await buildOnce(asked, desks, stop);
    if (stop.aborted) return 0;
    const code = tell(term, asked, terminal, { quiet: false });
    if (watched.size === 0) return code;
    terminal.out('Watching for changes; Ctrl-C ends.\n');
    await change;
    if (stop.aborted) return 0;
  }
}
