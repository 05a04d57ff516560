#!/usr/bin/env node
import { version } from '../../package.json';
import { nearest } from '../../shared/text/nearest.ts';
import { build } from './build.ts';
import { check } from './check.ts';
import { family } from './family.ts';
import { format } from './format.ts';
import { name } from './name.ts';
import { read } from './read-text.ts';
import { serve } from './serve.ts';
import { shapes } from './shapes.ts';
import { type Command, type ExitCode, type Terminal, UsageError } from './terminal.ts';
import { tune } from './tune.ts';

const COMMANDS: ReadonlyMap<string, Command> = new Map([
  ['check', check],
  ['name', name],
  ['shapes', shapes],
  ['family', family],
  ['tune', tune],
  ['read', read],
  ['build', build],
  ['format', format],
  ['serve', serve],
]);

const terminal: Terminal = {
  out: (text) => void process.stdout.write(text),
  complain: (sentence) => void process.stderr.write(`handspan: ${sentence.replaceAll(/\s*\n\s*/g, ' ')}\n`),
};

// Whoever reads our output may stop reading (`| head`): that is no fault, and there is nobody left to tell.
for (const stream of [process.stdout, process.stderr]) {
  stream.on('error', (error: NodeJS.ErrnoException) => {
    process.exit(error.code === 'EPIPE' ? process.exitCode : 2);
  });
}

void run(process.argv.slice(2)).then((code) => {
  // Not `exit()`, which would cut off output that a pipe has not taken yet.
  if (code !== undefined) process.exitCode = code;
});

async function run(words: readonly string[]): Promise<ExitCode | undefined> {
  const [first, ...rest] = words;
  if (first === undefined) {
    terminal.complain('say what to do; handspan --help lists the commands');
    return 2;
  }
  if (first === '--help' || first === '-h' || first === 'help') return print(overview());
  if (first === '--version') return print(`${version}\n`);
  const command = COMMANDS.get(first);
  if (command === undefined) {
    const near = nearest(first, [...COMMANDS.keys()]);
    terminal.complain(
      `there is no command ${first}; ${near === undefined ? 'see handspan --help' : `did you mean ${near}?`}`,
    );
    return 2;
  }
  if (rest.includes('--help') || rest.includes('-h')) return print(helpOn(command));
  return runCommand(command, rest);
}

async function runCommand(command: Command, words: readonly string[]): Promise<ExitCode | undefined> {
  try {
    return await command.run(words, terminal);
  } catch (thrown) {
    if (thrown instanceof UsageError) {
      terminal.complain(`${thrown.message}${/[?!.]$/.test(thrown.message) ? '' : '.'} Usage: ${command.usage}`);
    } else {
      terminal.complain(`a fault in Handspan itself: ${thrown instanceof Error ? thrown.message : String(thrown)}`);
    }
    return 2;
  }
}

function print(text: string): ExitCode {
  terminal.out(text);
  return 0;
}

function helpOn(command: Command): string {
  return `Usage: ${wrapped(command.usage, '         ')}\n\n${command.details}\n`;
}

/** What must be said to each command, and what it does; its options come with its own help. */
function overview(): string {
  const commands = [...COMMANDS.values()].map(({ usage, summary }) => ({ short: withoutOptions(usage), summary }));
  const widest = Math.max(...commands.map(({ short }) => short.length));
  const lines = commands.map(({ short, summary }) => `  ${short.padEnd(widest)}   ${summary}`);
  return `Handspan: lessons for fretted instruments, written as text.\n\n${lines.join('\n')}\n\n  handspan COMMAND --help   its options\n  handspan --version        the version\n`;
}

/** `handspan shapes CHORD [--on …]` without what may be left out. */
function withoutOptions(usage: string): string {
  return usage.replace(/ \[--.*$/, '');
}

/** Broken between options, since each of them is read as one. */
function wrapped(usage: string, indent: string): string {
  const parts = usage.match(/\[[^\]]*\]|\S+/g) ?? [];
  // Letters in a line.
  const most = 78;
  const lines: string[] = [];
  for (const part of parts) {
    const line = lines.at(-1);
    if (line !== undefined && indent.length + line.length + 1 + part.length <= most)
      lines[lines.length - 1] = `${line} ${part}`;
    else lines.push(part);
  }
  return lines.join(`\n${indent}`);
}
