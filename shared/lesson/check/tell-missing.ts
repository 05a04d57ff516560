import { type Role, roleInWords } from '../../theory/role.ts';

/** Tones that a shape lacks: `without its root and fifth`. */
export function without(roles: readonly Role[]): string {
  const words = roles.map(roleInWords);
  const last = words.pop();
  return `without its ${words.length > 0 ? `${words.join(', ')} and ` : ''}${last ?? 'other tones'}`;
}
