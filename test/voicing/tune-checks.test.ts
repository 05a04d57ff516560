import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { problemsOf } from '../../shared/lesson/check/problems.ts';
import { openDocument } from '../../shared/lesson/document.ts';
import { diatonicChords } from '../../shared/theory/key.ts';
import { CONTOURS } from '../../shared/voicing/tune/line.ts';
import { proposeTune } from '../../shared/voicing/tune/propose-tune.ts';
import { scaleOfKey } from '../../shared/voicing/tune/scale.ts';
import type { TuneRequest } from '../../shared/voicing/tune/tune-problem.ts';
import { printChords, printTune } from '../../shared/voicing/tune/tune-text.ts';
import { instrument } from '../neck/playing.ts';
import { key, SEED } from '../theory/reading.ts';
import { groundOf, groundOfBars, lessonWith } from './tunes.ts';

const NECKS = ['tenor ukulele', 'baritone ukulele'].map(instrument);
const KEYS = ['C major', 'G major', 'E minor', 'F major', 'A minor', 'D major', 'Bb major', 'D minor'];

/** Progressions of two to six chords of a key, with sevenths and without. */
const arbitraryRequest = fc
  .record({
    neck: fc.constantFrom(...NECKS),
    home: fc.constantFrom(...KEYS),
    degrees: fc.array(fc.nat(13), { minLength: 2, maxLength: 6 }),
    contour: fc.constantFrom(...CONTOURS),
    ring: fc.constantFrom<readonly number[]>([], [], [1], [2], [4]),
    beats: fc.constantFrom(60, 80, 100),
  })
  .map(({ neck, home, degrees, contour, ring, beats }): TuneRequest => {
    const chords = diatonicChords(key(home));
    const names = degrees.map((degree) => chords[degree]?.text ?? 'C');
    const ground = groundOf(names.join(' '), { instrument: neck, scale: scaleOfKey(key(home)), ring });
    return { ...ground, contour, secondsPerCount: 60 / beats };
  });

/** Bars as a lesson writes them: with a pickup, other meters, and without a chord here and there. */
const arbitraryBars = fc
  .record({
    home: fc.constantFrom(...KEYS),
    pickup: fc.constantFrom(undefined, undefined, 4, 3, 2),
    bars: fc.array(
      fc.record({
        degree: fc.nat(6),
        meter: fc.constantFrom('', '', '', '2/4 ', '3/4 ', '6/8 ', '4/4 '),
        form: fc.constantFrom('chord', 'chord', 'chord', 'chord', 'silence', 'again', 'shared'),
        other: fc.nat(6),
      }),
      { minLength: 3, maxLength: 7 },
    ),
    contour: fc.constantFrom(...CONTOURS),
  })
  .map(({ home, pickup, bars, contour }) => {
    const chords = diatonicChords(key(home)).map(({ text }) => text);
    const written = bars.map(({ degree, meter, form, other }, at) => {
      const name = chords[degree];
      // Three beats and a pickup cannot be shared evenly.
      const isShared = form === 'shared' && at > 0 && !bars.some((bar) => bar.meter === '3/4 ');
      const items =
        form === 'silence' ? 'NC' : form === 'again' && at > 1 ? '%' : isShared ? `${name} ${chords[other]}` : name;
      return `${at > 0 || pickup === undefined ? meter : ''}${items}`;
    });
    const text = `${pickup === undefined ? '' : `count ${pickup}\n`}| ${written.join(' | ')} |`;
    return { home, text, contour };
  });

/** What a teacher would have to mend, told of the tune; what its chords alone draw is not the tune's. */
function faultsOf(lesson: string): readonly string[] {
  return problemsOf(openDocument(lesson))
    .filter(({ severity, code }) => severity !== 'hint' || code.startsWith('reach.'))
    .map(({ severity, code, message }) => `${severity} ${code}: ${message}`);
}

/** How many tunes are proposed, after each was written into a lesson and found to have nothing to mend. */
function checkedTunes(request: TuneRequest, written?: string): number {
  const found = proposeTune(request);
  if (!found.ok) return 0;
  const chords = printChords(found.chords);
  const own = faultsOf(lessonWith(request, { text: 'melody  new-tune\n  tune  1:0\n', chords }, written));
  for (const { notes } of found.tunes) {
    const lesson = lessonWith(request, { text: printTune('new-tune', request, notes), chords }, written);
    const faults = faultsOf(lesson).filter((fault) => !own.includes(fault));
    expect(faults, lesson).toEqual([]);
  }
  return found.tunes.length;
}

describe('nothing is found wrong with any tune that is proposed, once it is text of a lesson', () => {
  test('over many progressions', () => {
    const requests = fc.sample(arbitraryRequest, { seed: SEED, numRuns: 200 });
    const tunes = requests.reduce((sum, request) => sum + checkedTunes(request), 0);
    expect(tunes).toBeGreaterThan(400);
  });

  test('over bars that are not all alike', () => {
    const requests = fc.sample(arbitraryBars, { seed: SEED, numRuns: 100 });
    let tunes = 0;
    for (const { home, text, contour } of requests) {
      const ground = groundOfBars(text, { scale: scaleOfKey(key(home)) });
      if (ground.bars.every(({ chords }) => chords.every(({ chord }) => chord === undefined))) continue;
      tunes += checkedTunes({ ...ground, contour, secondsPerCount: 1 }, text);
    }
    expect(tunes).toBeGreaterThan(150);
  });

  test('where a barre has to lift, because the neck is long', () => {
    const ground = groundOf('Cmaj7 Am7 Dm7 G7', { instrument: instrument('baritone ukulele') });
    expect(checkedTunes({ ...ground, contour: 'arch', secondsPerCount: 60 / 72 })).toBe(3);
  });
});
