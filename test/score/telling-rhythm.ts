import { rhythmOf } from '../../shared/score/rhythm.ts';
import type { RhythmEntry, RhythmLine } from '../../shared/score/rhythm-line.ts';
import { barsOf } from './scoring.ts';

/**
 * The rhythm of each bar as a person would spell it. `8.` is a dotted eighth, `r4` a quarter rest, `-8` an eighth that is tied to the
 * note before, `[8 8]` beamed, `(3:2 …)` a tuplet that its beam holds together, `<3:2 …>` one with a bracket. Two lines are parted by
 * `/`, the upper one first.
 */
export function rhythmIn(lesson: string): readonly string[] {
  return barsOf(lesson).map((bar) => rhythmOf(bar).map(tellLine).join(' / '));
}

/** A pattern played once over bars of the chord C. Lines of the grid are parted by `;`. */
export function gridLesson(meter: string, grid: string, bars = '| C |', kind = 'pattern'): string {
  const rows = grid.split(';').map((row) => `  ${row.trim()}`);
  const shapes = 'chord C 0-0-0-3\nchord F 2-0-1-0\nchord G7 0-2-1-2';
  return `meter ${meter}\n${shapes}\n${kind} q\n${rows.join('\n')}\nprogression v\n  ${bars}\nexercise e\n  play v\n  with q`;
}

function tellLine(line: RhythmLine): string {
  return line.entries
    .map((entry, index) => `${openings(line, index)}${tellEntry(entry)}${closings(line, index)}`)
    .join(' ');
}

function tellEntry({ kind, value, dots, wholeBar }: RhythmEntry): string {
  if (wholeBar === true) return 'empty';
  const sign = kind === 'rest' ? 'r' : kind === 'tied' ? '-' : '';
  return `${sign}${value}${'.'.repeat(dots)}`;
}

function openings({ beams, tuplets }: RhythmLine, index: number): string {
  const tuplet = tuplets.find(({ first }) => first === index);
  const beam = beams.some(({ first }) => first === index) ? '[' : '';
  if (tuplet === undefined) return beam;
  const name = `${tuplet.count}:${tuplet.inTimeOf} `;
  return tuplet.bracket ? `<${name}${beam}` : `(${name}${beam}`;
}

function closings({ beams, tuplets }: RhythmLine, index: number): string {
  const tuplet = tuplets.find(({ last }) => last === index);
  const beam = beams.some(({ last }) => last === index) ? ']' : '';
  return `${beam}${tuplet === undefined ? '' : tuplet.bracket ? '>' : ')'}`;
}
