import { describe, expect, test } from 'vitest';
import { errorsIn, playedIn, read, remarksIn } from './reading.ts';
import { TAB_TEXTS } from './tab-texts.ts';

describe('tab from mails and comments', () => {
  test.each(TAB_TEXTS)('$name', ({ text, asked, plays, remarks = [], saysRhythm = false }) => {
    const reading = read(text, asked);
    expect(playedIn(reading)).toBe(plays);
    expect(remarksIn(reading)).toEqual(expect.arrayContaining([...remarks]));
    expect(errorsIn(reading, asked)).toEqual([]);
    expect(reading.rhythmIsGuess).toBe(!saysRhythm);
    expect(reading.text.includes('// A guess:')).toBe(!saysRhythm);
  });
});
