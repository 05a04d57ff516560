import { describe, expect, test } from 'vitest';
import { textTabOf } from '../../shared/export/text-tab/text-tab.ts';
import { readText } from '../../shared/reading/read-text.ts';
import { exercisesOf, samples } from '../export/exported-lessons.ts';

describe('what this program hands out as text tab is read back without a question', () => {
  test.each(samples)('%s', (_name, text) => {
    const exercises = exercisesOf(text);
    expect(exercises.length).toBeGreaterThan(0);
    for (const exercise of exercises) {
      const meter = exercise.score.passes[0]?.bars[0]?.meter;
      const strings = exercise.instrument.openStrings.length;
      const tab = textTabOf(exercise);
      const reading = readText(tab, { instrument: exercise.instrument, ...(meter === undefined ? {} : { meter }) });
      expect(reading.blocks.length, tab).toBeGreaterThan(0);
      expect({ tab, isGuess: reading.rhythmIsGuess }).toEqual({ tab, isGuess: false });
      // Every figure that stands on a string is in the lesson, in its order: quick moves of the left hand as notes of their own.
      expect(fretsOfLesson(reading.text, strings), tab).toEqual(fretsOfTab(tab, strings));
    }
  });
});

/** Frets on each string from the highest, read from the text by eye's simplest rule: figures on the lines of a string. */
function fretsOfTab(tab: string, strings: number): readonly string[] {
  const lines = tab.split('\n').filter((line) => /^[A-Ga-g][#b]?\s*\|/.test(line) || /^[A-Ga-g][#b]?-/.test(line));
  return Array.from({ length: strings }, (_, string) =>
    lines
      .filter((_line, index) => index % strings === string)
      .flatMap((line) =>
        [
          ...line
            .replace(/ x\d+$/, '')
            .replace(/^[A-Ga-g][#b]?/, '')
            .matchAll(/\d+/g),
        ].map(([fret]) => fret),
      )
      .join(' '),
  );
}

/** The same from the rows of the lesson. A technique alone goes on from the last string of its row. */
function fretsOfLesson(text: string, strings: number): readonly string[] {
  const frets = Array.from({ length: strings }, (): string[] => []);
  const last = new Map<string, number>();
  const add = (string: number, fret: string): void => {
    frets[string - 1]?.push(fret);
  };
  for (const line of text.split('\n')) {
    const row = /^\s+((?:tune|pick)(?: [2-9](?= ))?)\s+(.*)$/.exec(line);
    if (row?.[1] === undefined || row[2] === undefined) continue;
    for (const cell of row[2].split(/\s+/)) {
      const alone = /^[hps](\d+)$/.exec(cell);
      if (alone?.[1] !== undefined) add(last.get(row[1]) ?? 0, alone[1]);
      for (const [, string, fret = '', signs = ''] of cell.matchAll(/(\d):(\d+)([^+]*)/g)) {
        add(Number(string), fret);
        for (const [, target = ''] of signs.matchAll(/[hpst](\d+)/g)) add(Number(string), target);
        last.set(row[1], Number(string));
      }
    }
  }
  return frets.map((played) => played.join(' '));
}
