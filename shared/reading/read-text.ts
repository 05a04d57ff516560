import { openDocument } from '../lesson/document.ts';
import { formatDocument } from '../lesson/format.ts';
import type { Instrument } from '../neck/instrument.ts';
import { COMMON_TIME, type Meter, parseMeter } from '../theory/meter.ts';
import type { RhythmWish } from './passage.ts';
import { printPiece } from './piece-text.ts';
import { printSong } from './progression-text.ts';
import { groupsOf } from './text-groups.ts';
import { type LineFate, type TextItem, textLines } from './text-lines.ts';

/** What a text is read as. */
export type BlockKind = 'melody' | 'pattern' | 'progression';

export interface ReadingWish {
  /** Reads only this from the text; everything it holds where nothing is said. */
  readonly as?: BlockKind;
  /** For tab that does not say its rhythm; by columns where nothing is said. */
  readonly rhythm?: RhythmWish;
  /** What the lesson is for. */
  readonly instrument?: Instrument;
  /** The lesson's meter; 4/4 where nothing is said. */
  readonly meter?: Meter;
  /** What the first block is called. */
  readonly name?: string;
  /** Names that the lesson has already. */
  readonly taken?: ReadonlySet<string>;
}

export interface TextReading {
  /** Lines of a lesson, the last one ended. Nothing but remarks where nothing was understood. */
  readonly text: string;
  readonly blocks: readonly { readonly kind: BlockKind; readonly name: string }[];
  /** True where a tab does not say its rhythm, so that another `rhythm` gives another text. */
  readonly rhythmIsGuess: boolean;
  /** What a teacher should know: other strings, another meter. */
  readonly told: readonly string[];
  /** For each line of the text. */
  readonly fates: readonly LineFate[];
}

/** What blocks are called where nobody says. */
const USUAL_NAMES: Readonly<Record<BlockKind, string>> = {
  melody: 'pasted-tune',
  pattern: 'pasted-picking',
  progression: 'pasted-song',
};

/**
 * Reads what somebody wrote in a mail or a comment, tab or chords over words, as lines of a lesson. Whatever is not understood stands
 * in a remark at its place. Never fails; work grows with the text.
 */
export function readText(text: string, wish: ReadingWish = {}): TextReading {
  const reads = { tab: wish.as !== 'progression', chords: wish.as === undefined || wish.as === 'progression' };
  const { items, fates } = textLines(text, {
    reads,
    ...(wish.instrument === undefined ? {} : { instrument: wish.instrument }),
  });
  const meter = meterSaid(items) ?? wish.meter ?? COMMON_TIME;
  const blocks: { kind: BlockKind; name: string }[] = [];
  const taken = new Set(wish.taken ?? []);
  const numbers = new Map<string, number>();
  const nameOf = (kind: BlockKind, called = USUAL_NAMES[kind]): string => {
    const wanted = blocks.length === 0 && wish.name !== undefined ? wish.name : called;
    let number = numbers.get(wanted) ?? 1;
    let name = number === 1 ? wanted : `${wanted}-${number}`;
    for (; taken.has(name); name = `${wanted}-${number}`) number += 1;
    numbers.set(wanted, number);
    taken.add(name);
    blocks.push({ kind, name });
    return name;
  };
  const told: string[] = [];
  let rhythmIsGuess = false;
  const parts = groupsOf(items).map((group): readonly string[] => {
    if (group.kind === 'remarks') return group.written.map((written) => `// ${written}`);
    if (group.kind === 'song') {
      return printSong(group, wish.meter ?? COMMON_TIME, (called) => nameOf('progression', called));
    }
    const { rhythm = { kind: 'columns' as const }, instrument, as } = wish;
    const piece = printPiece(
      { systems: group.systems, kept: group.kept },
      {
        rhythm,
        meter: wish.meter ?? COMMON_TIME,
        ...(meter === (wish.meter ?? COMMON_TIME) ? {} : { saidMeter: meter }),
        ...(instrument === undefined ? {} : { instrument }),
        ...(as === 'melody' || as === 'pattern' ? { as } : {}),
      },
      nameOf,
    );
    rhythmIsGuess ||= piece.isGuess;
    told.push(...piece.told);
    return [...piece.above, ...piece.lines];
  });
  const written = parts.map((lines) => `${lines.join('\n')}\n`).join('\n');
  return { text: laidOut(written), blocks, rhythmIsGuess, told: [...new Set(told)], fates };
}

/** A meter that a line of the text names: `Time: 3/4`. */
function meterSaid(items: readonly TextItem[]): Meter | undefined {
  for (const item of items) {
    if (item.kind !== 'kept' || item.written.length > 80) continue;
    const match = /(?:^|[\s(:])((?:[2-7]|9|12)\/[48])(?=$|[\s),.;])/.exec(item.written);
    if (match?.[1] !== undefined) return parseMeter(match[1]);
  }
  return undefined;
}

/** The text with its columns under each other, as the editor lays lessons out. */
function laidOut(text: string): string {
  let laid = '';
  let at = 0;
  const edits = [...formatDocument(openDocument(text))].sort((one, other) => one.span.start - other.span.start);
  for (const { span, text: written } of edits) {
    laid += text.slice(at, span.start) + written;
    at = span.end;
  }
  return laid + text.slice(at);
}
