import fc from 'fast-check';
import { expect, test } from 'vitest';
import { SEED } from '../../theory/reading.ts';
import { editionsIn, rowsThere } from './on-edition.ts';

// Common practice, no source: while a shape is in the hand, a higher fret of a string is never played by a lower finger than a lower fret
// of it, unless the hand has gone up a whole position, which is four frets.

/** `2:3 by 4, 2:5 by 3`: pairs of a row whose fingers are crossed. */
function crossedIn(notes: string, fingers: string): readonly string[] {
  const fingered = fingers.split(' ');
  const stopped = notes.split(' ').flatMap((note, at) => {
    const [, string, fret] = /^(\d+):(\d+)/.exec(note) ?? [];
    const finger = Number(fingered[at]);
    return fret === undefined || fret === '0' || !(finger > 0) ? [] : [{ string, fret: Number(fret), finger }];
  });
  return stopped.flatMap((low) =>
    stopped
      .filter(({ string, fret, finger }) => string === low.string && fret > low.fret && finger < low.finger)
      .filter(({ fret, finger }) => fret - (finger - 1) - (low.fret - (low.finger - 1)) < 4)
      .map((high) => `${low.string}:${low.fret} by ${low.finger}, ${high.string}:${high.fret} by ${high.finger}`),
  );
}

const SHAPES = ['C 0-0-0-3', 'F 2-0-1-0', 'G 0-2-3-2', 'Am 2-0-0-0', 'D 2-2-2-0', 'Bb 3-2-1-1', 'Em 0-4-3-2'];

const arbitraryLesson = fc
  .record({
    shape: fc.constantFrom(...SHAPES),
    also: fc.constantFrom('baritone ukulele', 'guitar', 'tenor ukulele, low G'),
    notes: fc.array(fc.tuple(fc.integer({ min: 1, max: 3 }), fc.nat(7)), { minLength: 8, maxLength: 8 }),
  })
  .map(({ shape, also, notes }) => {
    const row = notes.map(([string, fret]) => `${string}:${fret}`).join(' ');
    const [chord] = shape.split(' ');
    return `for tenor ukulele, high G\nalso ${also}, same key, called other\nchord ${shape}\nmelody m\n  count 1 & 2 & 3 & 4 &\n  ${chord} ${row}\n  fingers ${notes.map(() => 'x').join(' ')}\n`;
  })
  // The lesson's own fingers are not what is asked here: any number stands for them.
  .map((lesson) => lesson.replace(/x(?= |\n)/g, '1'));

test('fingers of a tune that is moved to another instrument are chosen together, and not crossed', () => {
  let pairs = 0;
  for (const lesson of fc.sample(arbitraryLesson, { seed: SEED, numRuns: 300 })) {
    const [own, other] = editionsIn(lesson);
    const [notes = '', fingers = ''] = rowsThere(other, 'melody', 'm');
    // What has not moved keeps the finger that was only made up here.
    if (
      rowsThere(own, 'melody', 'm')[0]
        ?.split(' ')
        .some((note, at) => note === notes.split(' ')[at])
    )
      continue;
    expect(crossedIn(notes, fingers), lesson).toEqual([]);
    pairs += 1;
  }
  expect(pairs).toBeGreaterThan(50);
});
