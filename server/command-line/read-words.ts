import { type ParseArgsConfig, parseArgs } from 'node:util';
import { nearest } from '../../shared/text/nearest.ts';
import { UsageError } from './terminal.ts';

type Options = NonNullable<ParseArgsConfig['options']>;

/** The options and other words of a call; a `UsageError` in plain words for an option that does not exist, lacks its value or comes twice. */
export function readWords<T extends Options>(words: readonly string[], options: T) {
  const args = words.flatMap((word, at) => withItsNumber(word, words[at - 1], words[at + 1], options));
  const read = parsed(args, options);
  const said = new Set<string>();
  for (const token of read.tokens) {
    if (token.kind !== 'option') continue;
    const { name, value } = token;
    const option = options[name];
    if (option?.type !== 'string') continue;
    if (value?.trim() === '') throw new UsageError(`--${name}: its value is empty; say one, or leave --${name} out`);
    if (said.has(name) && option.multiple !== true) throw new UsageError(`--${name} is said twice`);
    said.add(name);
  }
  return read;
}

function parsed<T extends Options>(args: string[], options: T) {
  try {
    return parseArgs({ args, options, allowPositionals: true, strict: true, tokens: true });
  } catch (thrown) {
    if (!(thrown instanceof TypeError)) throw thrown;
    throw new UsageError(faultOf(thrown.message, Object.keys(options)));
  }
}

/** `--max -3` says a number, though a wrong one, and no option: the two words become one. */
function withItsNumber(
  word: string,
  before: string | undefined,
  after: string | undefined,
  options: Options,
): string[] {
  if (isOption(before, options) && isBelowZero(word)) return [];
  return isOption(word, options) && after !== undefined && isBelowZero(after) ? [`${word}=${after}`] : [word];
}

function isOption(word: string | undefined, options: Options): boolean {
  return word?.startsWith('--') === true && options[word.slice(2)]?.type === 'string';
}

function isBelowZero(word: string): boolean {
  return /^-\d/.test(word);
}

/** The library explains at length, in its own words; what it is about stands in quotes. */
function faultOf(message: string, names: readonly string[]): string {
  const option = /'(-[^' ]*)/.exec(message)?.[1] ?? '';
  if (message.startsWith('Unknown option')) {
    const near = nearest(option.replace(/^-+/, ''), names);
    return `there is no option ${option}${near === undefined ? '' : `; did you mean --${near}?`}`;
  }
  if (message.includes('does not take an argument')) return `${option} takes no value`;
  return option === '' ? 'the options make no sense' : `${option} lacks its value`;
}
