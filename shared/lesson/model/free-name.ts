import type { NameKind, Scope } from './scope.ts';

/** The wanted name, or with a number behind it where one of these kinds is called so. */
export function freeName(scope: Scope, wanted: string, kinds: readonly NameKind[]): string {
  for (let number = 1; ; number += 1) {
    const name = number === 1 ? wanted : `${wanted}-${number}`;
    if (!kinds.some((kind) => scope.knows(kind, name))) return name;
  }
}
