import fc from 'fast-check';
import { expect, test } from 'vitest';
import { instrumentSuggestions, parseInstrument, withCapo } from '../../shared/neck/instruments.ts';
import { lowestSounding, midiAt, soundingMidi, soundingPitches } from '../../shared/neck/pitches.ts';
import { midiNumber, printPitch } from '../../shared/theory/note.ts';
import { SEED } from '../theory/reading.ts';
import { BARITONE, HIGH_G, instrument, LOW_G, shape } from './playing.ts';

/**
 * Open strings as MIDI numbers, highest-numbered string first. Sources: Wikipedia "Ukulele" (copies of 2011 and 2015), "Tenor
 * guitar" (copy of 2009); Pō Mahina Ukulele; ukulele.space wiki "Tuning"; J. Wildwood 2012; Hobgoblin "Tenor guitar FAQ".
 */
const TUNINGS: readonly (readonly [string, readonly number[]])[] = [
  ['soprano ukulele', [67, 60, 64, 69]],
  ['concert ukulele, high G', [67, 60, 64, 69]],
  ['tenor ukulele, low G', [55, 60, 64, 69]],
  ['baritone ukulele', [50, 55, 59, 64]],
  ['baritone ukulele, high D', [62, 55, 59, 64]],
  ['tenor ukulele, D tuning', [69, 62, 66, 71]],
  ['tenor ukulele, low A', [57, 62, 66, 71]],
  ['tenor ukulele, Eb tuning', [70, 63, 67, 72]],
  ['tenor ukulele, slack key', [67, 60, 64, 67]],
  ['guitalele', [45, 50, 55, 60, 64, 69]],
  ['guitar', [40, 45, 50, 55, 59, 64]],
  ['tenor guitar', [48, 55, 62, 69]],
  ['tenor guitar, Chicago', [50, 55, 59, 64]],
  ['mandolin', [55, 62, 69, 76]],
];
test.each(TUNINGS)('%s', (name, midi) => {
  expect(instrument(name).openStrings.map(midiNumber)).toEqual(midi);
});

/** Unit: inches, with the width of what builders say. Sources: New England Luthiers table; Pō Mahina; Georgia Luthier Supply; Metalute. */
test.each([
  ['soprano ukulele', 13.5, 14],
  ['concert ukulele', 14.75, 15],
  ['tenor ukulele', 17, 17.5],
  ['baritone ukulele', 19, 20],
  ['guitalele', 17, 20],
  ['guitar', 25.4, 26],
  ['electric guitar', 24.75, 25.52],
  ['tenor guitar', 21, 23],
  ['mandolin', 13.75, 14],
])('the scale of a %s lies between %f and %f inches', (name, least, most) => {
  const inches = instrument(name).scaleLengthMm / 25.4;
  expect(inches).toBeGreaterThanOrEqual(least - 0.01);
  expect(inches).toBeLessThanOrEqual(most + 0.01);
});

test('a guitalele is a guitar with a capo at 5, and a baritone a low-G ukulele 5 semitones lower', () => {
  const open = (name: string) => instrument(name).openStrings.map(midiNumber);
  expect(open('guitalele')).toEqual(open('guitar').map((midi) => midi + 5));
  expect(open('baritone ukulele')).toEqual(open('tenor ukulele, low G').map((midi) => midi - 5));
});

test.each([
  ['tenor ukulele, low G, capo 2', 'tenor ukulele, low G, capo 2'],
  ['ukulele', 'tenor ukulele, high G'],
  ['baritone', 'baritone ukulele'],
  ['Tenor Ukulele low g', 'tenor ukulele, low G'],
  ['tuned G4 C4 E4 A4 scale 432 mm frets 19', 'tuned G4 C4 E4 A4 scale 432 mm frets 19'],
  ['guitar tuned D2 A2 D3 G3 B3 E4', 'guitar, tuned D2 A2 D3 G3 B3 E4'],
  ['concert ukulele scale 38.1cm', 'concert ukulele, high G, scale 381 mm'],
  ['tenor ukulele, scale 17 in, capo 1', 'tenor ukulele, high G, scale 431.8 mm, capo 1'],
])('%s is %s, and reads back as itself', (written, name) => {
  const read = instrument(written);
  expect(read.name).toBe(name);
  expect(instrument(read.name)).toEqual(read);
});

test('every suggestion reads as itself', () => {
  for (const { label, detail } of instrumentSuggestions()) {
    const read = instrument(label);
    expect(read.name).toBe(label);
    expect(read.openStrings.map((pitch) => printPitch(pitch)).join(' ')).toBe(detail);
  }
});

test.each([
  ['tenor ukelele, high G', 'tenor ukulele, high G', 'tenor ukelele'],
  ['tenor ukulele, hig G', 'tenor ukulele, high G', 'hig G'],
  ['tenr ukulele, low G', 'tenor ukulele, low G', 'tenr ukulele'],
  ['guitr', 'guitar', 'guitr'],
  ['guitar, drp D', 'guitar, drop D', 'drp D'],
])('%s is answered with %s', (written, instead, marked) => {
  const read = parseInstrument(written);
  if (read.ok) throw new Error('was read');
  expect(read.problem.instead).toBe(instead);
  expect(written.slice(read.problem.span.start, read.problem.span.end)).toBe(marked);
});

test.each([
  '',
  'banjolele of my aunt',
  'tuned G4 C4 E4',
  'scale 432 mm',
  'tenor ukulele, capo',
  'tenor ukulele frets 200',
  'soprano ukulele capo 13',
])('"%s" is refused', (written) => expect(parseInstrument(written).ok).toBe(false));

test('the capo raises what sounds and leaves the frets as the hand counts them', () => {
  const capoed = withCapo(HIGH_G, 2);
  expect(capoed.name).toBe('tenor ukulele, high G, capo 2');
  expect(soundingMidi(capoed, shape('0003'))).toEqual([69, 62, 66, 74]);
  expect(withCapo(capoed, 0)).toEqual(HIGH_G);
});

test('the lowest sounding string is found by pitch, not by place', () => {
  // High-G C major: C4 on string 3 is lowest; low-G: G3 on string 4. Strength: must.
  expect(lowestSounding(HIGH_G, shape('0003'))).toEqual({ stringIndex: 1, midi: 60 });
  expect(lowestSounding(LOW_G, shape('0003'))).toEqual({ stringIndex: 0, midi: 55 });
  // Sliding a minor shape up under the open A string until the open string is lowest.
  expect(lowestSounding(HIGH_G, shape('12 12 11 0'))).toEqual({ stringIndex: 3, midi: 69 });
  expect(lowestSounding(HIGH_G, ['muted', 'muted', 'muted', 'muted'])).toBeUndefined();
});

// Same frets on a baritone: strings 3 to 1 sound 5 semitones lower than high G, string 4 sounds 17 lower. Strength: must.
test.each(['0003', '2000', '2010', '0232'])('%s on a baritone', (frets) => {
  const high = soundingMidi(HIGH_G, shape(frets));
  const low = soundingMidi(LOW_G, shape(frets));
  const baritone = soundingMidi(BARITONE, shape(frets));
  expect(baritone).toEqual(low.map((midi) => (midi ?? 0) - 5));
  expect(baritone).toEqual(high.map((midi, index) => (midi ?? 0) - (index === 0 ? 17 : 5)));
});

// A tune that starts on G3: only a low fourth string has it, and the notes up to B3 with it. Strength: must.
test('notes that only low G has', () => {
  const lowest = (of: typeof HIGH_G) => Math.min(...of.openStrings.map(midiNumber));
  expect(lowest(HIGH_G)).toBe(60);
  const fourth = [0, 1, 2, 3, 4].flatMap((fret) => soundingPitches(LOW_G, [fret])[0] ?? []);
  expect(fourth.map((pitch) => printPitch(pitch)).join(' ')).toBe('G3 Ab3 A3 Bb3 B3');
});

// C4 E4 G4 C5 lies on strings 3, 2, 4, 1 in high G; in low G the same chord is 5433. Strength: must.
test('pitches are found on their strings whatever their order', () => {
  expect(soundingMidi(HIGH_G, shape('0003'))).toEqual([67, 60, 64, 72]);
  expect(soundingMidi(LOW_G, shape('5433'))).toEqual([60, 64, 67, 72]);
  expect(midiAt(LOW_G, 0, 0)).toBe(55);
  expect(midiAt(HIGH_G, 4, 0)).toBeUndefined();
});

test('reading an instrument never fails by exception, and a fault lies inside the text', () => {
  const words = fc.constantFrom(
    'tenor',
    'ukulele',
    ',',
    'high',
    'G',
    'tuned',
    'G4',
    'scale',
    '432',
    'mm',
    'capo',
    '2',
    'frets',
    'Bb3',
  );
  const text = fc.oneof(
    fc.string(),
    fc.array(words, { maxLength: 9 }).map((parts) => parts.join(' ')),
  );
  fc.assert(
    fc.property(text, (written) => {
      const read = parseInstrument(written);
      if (read.ok) expect(parseInstrument(read.value.name)).toEqual(read);
      else expect(read.problem.span.start >= 0 && read.problem.span.end <= written.length).toBe(true);
    }),
    { seed: SEED, numRuns: 2000 },
  );
});
