import type { PaperChoice } from '../../../shared/engrave/block.ts';
import {
  HAND_OUT_KINDS,
  type HandOutChoice,
  type HandOutKind,
} from '../../../shared/export/hand-out/hand-out-choice.ts';
import { nearest } from '../../../shared/text/nearest.ts';
import { UsageError } from '../terminal.ts';

/** The words of a call that say what is made. */
export interface ChoiceWords {
  readonly as?: string | undefined;
  readonly edition?: string | undefined;
  readonly paper?: string | undefined;
  readonly print?: string | undefined;
  readonly ink?: string | undefined;
}

const PAPERS: readonly PaperChoice['paper'][] = ['a4', 'letter'];
const PRINTS: readonly PaperChoice['print'][] = ['normal', 'large', 'one-page'];
const INKS = ['light', 'dark'] as const;

/** What is asked for; a `UsageError` for a word that means nothing. */
export function choiceAsked(
  { as, edition, paper, print, ink }: ChoiceWords,
  { pictures }: Pick<HandOutChoice, 'pictures'>,
): HandOutChoice {
  return {
    kinds: as === undefined ? HAND_OUT_KINDS : kindsAsked(as),
    editions: edition === undefined ? 'own' : edition.toLowerCase() === 'all' ? 'all' : { name: edition.trim() },
    page: {
      paper: oneOf('--paper', PAPERS, paper ?? 'a4'),
      print: oneOf('--print', PRINTS, print ?? 'normal'),
    },
    look: { ink: oneOf('--ink', INKS, ink ?? 'light'), halo: true },
    pictures,
  };
}

function kindsAsked(text: string): readonly HandOutKind[] {
  const words = text.split(/[\s,]+/).filter((word) => word !== '');
  if (words.length === 0) throw new UsageError(`--as: say what to make: ${HAND_OUT_KINDS.join(',')}`);
  const kinds = new Set(words.map((word) => oneOf('--as', HAND_OUT_KINDS, word)));
  // Always in the same order, however they are asked for.
  return HAND_OUT_KINDS.filter((kind) => kinds.has(kind));
}

function oneOf<T extends string>(option: string, choices: readonly T[], word: string): T {
  const found = choices.find((choice) => choice === word.toLowerCase());
  if (found !== undefined) return found;
  const meant = nearest(word, choices);
  const hint = meant === undefined ? `there is ${choices.join(', ')}` : `did you mean ${meant}?`;
  throw new UsageError(`${option}: "${word}" is not known; ${hint}`);
}
