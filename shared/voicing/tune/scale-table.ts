import { MODES } from '../../theory/modes.ts';
import type { Role } from '../../theory/role.ts';

/** A scale by the name that stands behind its home note. */
export interface ScaleFacts {
  readonly name: string;
  readonly roles: readonly Role[];
}

function scale(name: string, ...steps: readonly (readonly [degree: number, alter: number])[]): ScaleFacts {
  return { name, roles: steps.map(([degree, alter]) => ({ degree, alter })) };
}

/** Every scale that a tune may keep to: those that keys are named after, and these. Source: definitions, any theory primer. */
export const SCALES: readonly ScaleFacts[] = [
  ...MODES.map(({ mode, roles }) => ({ name: mode, roles })),
  scale('major pentatonic', [1, 0], [2, 0], [3, 0], [5, 0], [6, 0]),
  scale('minor pentatonic', [1, 0], [3, -1], [4, 0], [5, 0], [7, -1]),
  scale('blues', [1, 0], [3, -1], [4, 0], [5, -1], [5, 0], [7, -1]),
  scale('harmonic minor', [1, 0], [2, 0], [3, -1], [4, 0], [5, 0], [6, -1], [7, 0]),
  // As it rises; falling it is the natural minor.
  scale('melodic minor', [1, 0], [2, 0], [3, -1], [4, 0], [5, 0], [6, 0], [7, 0]),
];
