import type { PieceText } from './cut-bars.ts';
import type { SongLine, SongSection } from './progression-text.ts';
import { sectionName, timesOfSection } from './section-heading.ts';
import type { SystemText, TextItem } from './text-lines.ts';

/** Items of a text that make music together. */
export type TextGroup =
  | { readonly kind: 'remarks'; readonly written: readonly string[] }
  | { readonly kind: 'song'; readonly sections: readonly SongSection[]; readonly order: readonly number[] }
  | ({ readonly kind: 'piece' } & PieceText);

interface OpenSong {
  readonly kind: 'song';
  readonly sections: { name?: string; lines: SongLine[] }[];
  /** Numbers of sections as they are sung. */
  readonly order: number[];
}

interface OpenPiece {
  readonly kind: 'piece';
  readonly systems: SystemText[];
  readonly kept: { before: number; written: string }[];
}

/**
 * Items that make one song or one piece of tab; lines that are kept stand inside it where music of its kind goes on behind them. A
 * heading or an empty line begins a new section of a song; a heading alone has the section sung again that it names.
 */
export function groupsOf(items: readonly TextItem[]): readonly TextGroup[] {
  const gapsPart = haveStanzas(items);
  const groups: TextGroup[] = [];
  let open: OpenSong | OpenPiece | undefined;
  let waiting: string[] = [];
  let isBehindGap = false;
  const close = (): void => {
    if (open?.kind === 'song') for (const written of waiting) singAgain(open, written);
    if (open !== undefined) groups.push(open);
    open = undefined;
    if (waiting.length > 0) groups.push({ kind: 'remarks', written: waiting });
    waiting = [];
  };
  for (const item of items) {
    if (item.kind === 'gap') {
      isBehindGap = true;
      continue;
    }
    if (item.kind === 'kept') {
      waiting.push(item.written);
      continue;
    }
    if (item.kind === 'chords') {
      if (open?.kind !== 'song') {
        // A heading right above the chords is the first line of the song.
        const from = waiting.findLastIndex((written) => sectionName(written) !== undefined);
        const heading = from >= 0 && waiting.length - from <= MOST_BELOW_HEADING ? waiting.splice(from) : [];
        close();
        waiting = heading;
        open = { kind: 'song', sections: [], order: [] };
      }
      addChords(open, item, waiting, isBehindGap && gapsPart);
    } else {
      if (open?.kind !== 'piece' || open.systems[0]?.system.lines.length !== item.system.lines.length) {
        close();
        open = { kind: 'piece', systems: [], kept: [] };
      }
      for (const written of waiting) open.kept.push({ before: open.systems.length, written });
      open.systems.push(item);
    }
    waiting = [];
    isBehindGap = false;
  }
  close();
  return groups;
}

/** A heading and what may stand between it and its chords: `(softly)`. Unit: lines. */
const MOST_BELOW_HEADING = 2;

function addChords(
  song: OpenSong,
  { chords, words }: Extract<TextItem, { kind: 'chords' }>,
  waiting: readonly string[],
  isBehindGap: boolean,
): void {
  const above = [...waiting, ...chords.beside];
  const heading = above.findLastIndex((written) => sectionName(written) !== undefined);
  const name = sectionName(above[heading] ?? '');
  const isNew = song.sections.length === 0 || heading >= 0 || isBehindGap;
  const before = isNew && song.sections.length > 0 ? above.slice(0, Math.max(0, heading)) : [];
  for (const text of before) {
    song.sections.at(-1)?.lines.push({ kind: 'remark', text });
    singAgain(song, text);
  }
  if (isNew) {
    sing(song, song.sections.length, above[heading]);
    song.sections.push({ lines: [], ...(name === undefined ? {} : { name }) });
  }
  const lines = song.sections.at(-1)?.lines;
  for (const text of above.slice(before.length)) lines?.push({ kind: 'remark', text });
  lines?.push({ kind: 'chords', chords, ...(words === undefined ? {} : { words }) });
}

/** A heading without chords of its own: that section is sung again. */
function singAgain(song: OpenSong, written: string): void {
  const name = sectionName(written);
  const known = name === undefined ? -1 : song.sections.findIndex((section) => section.name === name);
  if (known >= 0) sing(song, known, written);
}

function sing(song: OpenSong, section: number, heading: string | undefined): void {
  const times = heading === undefined ? 1 : timesOfSection(heading);
  song.order.push(...Array.from({ length: times }, () => section));
}

/** False where an empty line stands between any two lines of chords: then it parts nothing. */
function haveStanzas(items: readonly TextItem[]): boolean {
  let hasGap = true;
  for (const { kind } of items) {
    if (kind === 'gap' || kind === 'system') hasGap = true;
    if (kind !== 'chords') continue;
    if (!hasGap) return true;
    hasGap = false;
  }
  return false;
}
