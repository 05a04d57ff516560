import { expect, test } from 'vitest';
import { family } from '../../server/command-line/family.ts';

async function shapesOf(chords: string): Promise<readonly string[]> {
  let out = '';
  await family.run([chords, '--count', '1', '--json'], {
    out: (text) => {
      out += text;
    },
    complain: () => undefined,
  });
  const { solutions } = JSON.parse(out) as { solutions: { shapes: { chord: string }[] }[] };
  return (solutions[0]?.shapes ?? []).map(({ chord }) => chord);
}

test.each([
  ['| F | Dm |'],
  ['F | Dm |'],
  ['|: F | Dm :|'],
  ['||: F / / Dm | % :||'],
  ['count 4 | F | 2/4 Dm ||'],
  ['F | 1st Dm :| 2nd NC |'],
])('takes bars as they stand in a lesson: %s', async (bars) => {
  expect(await shapesOf(bars)).toEqual(['F', 'Dm']);
});

test('what is no chord is still told', async () => {
  await expect(shapesOf('F H')).rejects.toThrow(/^CHORDS: The note below C is called B/);
});
