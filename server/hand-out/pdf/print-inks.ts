import type { Ink } from '../../../shared/engrave/drawing.ts';

/** Colours on paper, those that the preview shows its pages in. */
const PATHS: Readonly<Record<Ink, string>> = {
  strong: '#1c1a17',
  soft: '#6b665f',
  faint: '#bdb8b0',
  paper: '#ffffff',
  accent: '#8a3512',
};

/** Lines may be paler than letters. */
const SOFT_LETTERS = '#4c4843';

export function pathInk(ink: Ink): string {
  return PATHS[ink];
}

export function textInk(ink: Ink): string {
  return ink === 'soft' || ink === 'faint' ? SOFT_LETTERS : PATHS[ink];
}
