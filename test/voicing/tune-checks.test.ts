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
import { groundOf, lessonWith } from './tunes.ts';

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

/** What a teacher would have to mend, told of the tune; what its chords alone draw is not the tune's. */
function faultsOf(lesson: string): readonly string[] {
  return problemsOf(openDocument(lesson))
    .filter(({ severity, code }) => severity !== 'hint' || code.startsWith('reach.'))
    .map(({ severity, code, message }) => `${severity} ${code}: ${message}`);
}

/** How many tunes are proposed, after each was written into a lesson and found to have nothing to mend. */
function checkedTunes(request: TuneRequest): number {
  const found = proposeTune(request);
  if (!found.ok) return 0;
  const chords = printChords(found.chords);
  const own = faultsOf(lessonWith(request, { text: 'melody  new-tune\n  tune  1:0\n', chords }));
  for (const { notes } of found.tunes) {
    const lesson = lessonWith(request, { text: printTune('new-tune', request, notes), chords });
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

  test('where a barre has to lift, because the neck is long', () => {
    const ground = groundOf('Cmaj7 Am7 Dm7 G7', { instrument: instrument('baritone ukulele') });
    expect(checkedTunes({ ...ground, contour: 'arch', secondsPerCount: 60 / 72 })).toBe(3);
  });
});
