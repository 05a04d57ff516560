/** How a reader likes to see pages, whatever lesson is on them. */
export interface Wishes {
  readonly leftHanded: boolean;
  /** 1 for normal print. */
  readonly print: number;
  /** Empty where the page goes by the device. */
  readonly colours: '' | 'light' | 'dark';
}

const NAME = 'handspan-page';
const PRINTS = [1, 1.25, 1.5];

/** What was kept when a page was read before. A browser may keep nothing for files, or refuse: then the usual things hold. */
export function readWishes(): Wishes {
  const kept = parsed();
  const print = Number(kept.print);
  const { colours } = kept;
  return {
    leftHanded: kept.leftHanded === true,
    print: PRINTS.includes(print) ? print : 1,
    colours: colours === 'light' || colours === 'dark' ? colours : '',
  };
}

export function keepWishes(wishes: Wishes): void {
  try {
    localStorage.setItem(NAME, JSON.stringify(wishes));
  } catch {
    // They hold for as long as the page is open.
  }
}

function parsed(): Record<string, unknown> {
  try {
    const value: unknown = JSON.parse(localStorage.getItem(NAME) ?? '{}');
    return typeof value === 'object' && value !== null ? { ...value } : {};
  } catch {
    return {};
  }
}
