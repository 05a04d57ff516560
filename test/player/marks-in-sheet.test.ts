import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { sheetOf } from '../../shared/engrave/sheet.ts';
import { openDocument } from '../../shared/lesson/document.ts';
import { even, performancesIn } from '../score/performing.ts';

// What the player tells of bars, moments and chords must be found in the markup of the sheet, or nothing could be marked.

const FOLDER = path.join(import.meta.dirname, '..', '..', 'client', 'samples');
const SAMPLES = readdirSync(FOLDER).filter((name) => name.endsWith('.lesson'));

/** The markup of each exercise, from its title to the next. */
function exercisesOf(text: string, widthMm: number): readonly string[] {
  const { blocks } = sheetOf(openDocument(text), { widthMm, leftHanded: false });
  const exercises: string[] = [];
  let own = false;
  for (const { kind, markup } of blocks) {
    if (kind === 'exercise') exercises.push('');
    own = kind === 'exercise' || (own && kind !== 'heading');
    if (own) exercises[exercises.length - 1] += markup;
  }
  return exercises;
}

/** A fraction of a whole note, in ticks. */
function ticks(fraction: string, perWhole: number): number {
  const [numerator = 0, denominator = 1] = fraction.split('/').map(Number);
  return (numerator * perWhole) / denominator;
}

test.each(SAMPLES.flatMap((name) => [60, 180].map((widthMm) => [name, widthMm] as const)))(
  '%s, %d mm wide: every bar, every moment and every chord that is heard has its place',
  (name, widthMm) => {
    const text = readFileSync(path.join(FOLDER, name), 'utf8');
    const drawn = exercisesOf(text, widthMm);
    const performances = performancesIn(text);
    expect(drawn).toHaveLength(performances.length);
    performances.forEach((performance, exercise) => {
      const { perWhole, bars, sounds, chords } = performance;
      const markup = drawn[exercise] ?? '';
      const moments = new Map<string, Set<number>>();
      for (const [, bar = '', told = ''] of markup.matchAll(/data-bar="([^"]+)" data-moments="([^"]*)"/g)) {
        const known = moments.get(bar) ?? new Set();
        for (const pair of told.split(' ')) known.add(ticks(pair.split(':')[0] ?? '', perWhole));
        moments.set(bar, known);
      }
      const keyOf = (bar: number): string => `${bars[bar]?.pass}.${bars[bar]?.written}`;
      bars.forEach((_, bar) => {
        expect([...moments.keys()], performance.title).toContain(keyOf(bar));
      });
      for (const { at, bar, kind } of sounds) {
        // What the left hand adds at once has no place of its own.
        if (kind === 'hammer-on' || kind === 'pull-off' || kind === 'slide') continue;
        const moment = even(at) - even(bars[bar]?.at ?? 0);
        expect([...(moments.get(keyOf(bar)) ?? [])], `${performance.title}, bar ${keyOf(bar)}`).toContain(moment);
      }
      const held = new Set([...markup.matchAll(/data-held="([^"]+)"/g)].map(([, text]) => text));
      for (const chord of chords) {
        if (chord.held !== undefined)
          expect([...held].join(' '), performance.title).toContain(chord.held.replaceAll('"', '&quot;'));
      }
    });
  },
);
