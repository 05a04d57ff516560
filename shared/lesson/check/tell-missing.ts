import { printRole, type Role } from '../../theory/role.ts';

/** Tones that a shape lacks: `without its root and fifth`. */
export function without(roles: readonly Role[]): string {
  const words = roles.map(roleInWords);
  const last = words.pop();
  return `without its ${words.length > 0 ? `${words.join(', ')} and ` : ''}${last ?? 'other tones'}`;
}

const DEGREES: Readonly<Record<number, string>> = {
  1: 'root',
  2: 'second',
  3: 'third',
  4: 'fourth',
  5: 'fifth',
  6: 'sixth',
  7: 'seventh',
  9: 'ninth',
  11: 'eleventh',
  13: 'thirteenth',
};

function roleInWords(role: Role): string {
  return DEGREES[role.degree] ?? printRole(role);
}
