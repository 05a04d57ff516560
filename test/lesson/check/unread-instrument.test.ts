import { expect, test } from 'vitest';
import { faultsIn, problemsIn } from './checking.ts';

/** Right on a baritone ukulele (D3 G3 B3 E4), and on no ukulele that is tuned in C. */
const BARITONE = [
  'chord G 0-0-0-3\nchord Em7 0-0-0-0\nchord C 2-0-1-0\nchord D7 0-2-1-2\nchord Bm 4-4-3-2',
  'progression v\n  | G | Em7 | C | D7 | Bm |\n',
].join('\n');

test.each([
  ['a slip that is nearly a name', 'for bariton ukulele', 'error instrument.unknown "bariton ukulele"'],
  ['words that say nothing behind a name', 'for baritone ukulele, zzqqy', 'error instrument.unknown-tuning "zzqqy"'],
  ['nothing like a name', 'for zzqqy', 'error instrument.unknown "zzqqy"'],
])('%s: an instrument that cannot be read is told once, and nothing of the frets', (_, line, fault) => {
  expect(faultsIn(`for baritone ukulele\n${BARITONE}`)).toEqual([]);
  const text = `${line}\n${BARITONE}`;
  expect(faultsIn(text)).toEqual([fault]);
  expect(problemsIn(text)).toHaveLength(1);
});

test('with no instrument known, what is wrong on any instrument is told all the same', () => {
  const text = 'for zzqqy\nchord C 0-0-z-3\nprogression v\n  | C | Fqq |\nexercise A\n  play w\n';
  expect(faultsIn(text)).toEqual([
    'error instrument.unknown "zzqqy"',
    'error shape.unreadable-fret "z"',
    'error chord.unreadable "qq"',
    'error name.unknown "w"',
  ]);
});
