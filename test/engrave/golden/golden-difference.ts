/** A drawing as the golden file has it. */
interface Section {
  readonly name: string;
  readonly title: string;
  readonly entries: readonly Entry[];
}

/** One line: what it is, and the numbers behind it. */
interface Entry {
  readonly what: string;
  readonly numbers: readonly number[];
}

/** Most changes that are told of one drawing. */
const MOST_TOLD = 8;

/** Rounding may move a place by so much without anything having moved. Unit: mm. */
const ROUNDING_MM = 0.15;

/** How a drawing differs from the golden one, in sentences; nothing where no reader could see a difference. */
export function goldenDifference(golden: string, drawn: string): readonly string[] {
  const before = sectionsOf(golden);
  const after = sectionsOf(drawn);
  const names = [...new Set([...before, ...after].map(({ name }) => name))];
  return names.flatMap((name) => {
    const old = before.find((section) => section.name === name);
    const now = after.find((section) => section.name === name);
    if (old === undefined) return [`${name} (${now?.title ?? ''}) is new`];
    if (now === undefined) return [`${name} (${old.title}) is gone`];
    const changes = [...titleChange(old, now), ...changesOf(old.entries, now.entries)];
    const told = changes.slice(0, MOST_TOLD).map((change) => `${name} (${now.title}): ${change}`);
    return changes.length > MOST_TOLD ? [...told, `${name}: and ${changes.length - MOST_TOLD} more changes`] : told;
  });
}

function titleChange(old: Section, now: Section): readonly string[] {
  return old.title === now.title ? [] : [`was “${old.title}”`];
}

function changesOf(old: readonly Entry[], now: readonly Entry[]): readonly string[] {
  const kinds = [...new Set([...old, ...now].map(({ what }) => what))];
  return kinds.flatMap((what) => {
    const before = old.filter((entry) => entry.what === what);
    const after = now.filter((entry) => entry.what === what);
    const [left, added] = withoutCommon(before, after);
    return Array.from({ length: Math.max(left.length, added.length) }, (_, index): string => {
      const from = left[index];
      const to = added[index];
      if (from === undefined) return `${what} is new at ${told(to)}`;
      if (to === undefined) return `${what} is gone from ${told(from)}`;
      return `${what} went from ${told(from)} to ${told(to)}`;
    });
  });
}

/** What is left of both lists when all that stands where it stood is taken away. */
function withoutCommon(
  before: readonly Entry[],
  after: readonly Entry[],
): readonly [left: readonly Entry[], added: readonly Entry[]] {
  const left = [...before];
  const added = after.filter((entry) => {
    const at = left.findIndex((old) => isSame(old, entry));
    if (at === -1) return true;
    left.splice(at, 1);
    return false;
  });
  return [left, added];
}

function isSame(a: Entry, b: Entry): boolean {
  return (
    a.numbers.length === b.numbers.length &&
    a.numbers.every((value, index) => Math.abs(value - (b.numbers[index] ?? Number.NaN)) < ROUNDING_MM)
  );
}

function told(entry: Entry | undefined): string {
  return entry === undefined ? '' : entry.numbers.join(' ');
}

function sectionsOf(text: string): readonly Section[] {
  return text
    .split(/^== /m)
    .slice(1)
    .map((part) => {
      const [head = '', ...lines] = part.split('\n').filter((line) => line !== '');
      const [name = '', ...title] = head.split(': ');
      return { name, title: title.join(': '), entries: lines.map(entryOf) };
    });
}

function entryOf(line: string): Entry {
  const match = /^(.*?) at (-?[\d.]+) (-?[\d.]+)(?: size ([-\d. ]+))?$/.exec(line);
  if (match === null || line.startsWith('say ')) return { what: line, numbers: [] };
  const [, what = '', x = '', y = '', size = ''] = match;
  return { what, numbers: [x, y, ...size.split(' ').filter((word) => word !== '')].map(Number) };
}
