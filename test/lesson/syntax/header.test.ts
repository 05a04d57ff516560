import { describe, expect, test } from 'vitest';
import { fixed, kindsOf, read } from './reading.ts';

describe('what a header line says', () => {
  test.each([
    ['lesson  Lamps on the Quay', { kind: 'lesson', value: 'Lamps on the Quay' }],
    ['lesson  “Lamps” – again', { kind: 'lesson', value: '“Lamps” – again' }],
    ['by  Ada Fenn', { kind: 'by', value: 'Ada Fenn' }],
    ['dated  3 March', { kind: 'dated', value: '3 March' }],
    ['corrected  bar 7 of Plucked: was F, is G7', { kind: 'corrected', value: 'bar 7 of Plucked: was F, is G7' }],
    ['part  Second week', { kind: 'part', value: 'Second week' }],
    ['page', { kind: 'page' }],
    ['meter  6/8', { kind: 'meter', value: '6/8', meter: { counts: 6, unit: 8 } }],
    ['meter  3 / 4', { kind: 'meter', value: '3 / 4', meter: { counts: 3, unit: 4 } }],
    ['meter  ４/４', { kind: 'meter', value: '4/4', meter: { counts: 4, unit: 4 } }],
    ['feel  straight', { kind: 'feel', value: 'straight', feel: { kind: 'straight' } }],
    // Plain swing is two to one (C-3).
    ['feel  swing', { kind: 'feel', value: 'swing', feel: { kind: 'swing', long: 2, short: 1, unit: 8 } }],
    [
      'feel  swing 3 to 2',
      { kind: 'feel', value: 'swing 3 to 2', feel: { kind: 'swing', long: 3, short: 2, unit: 8 } },
    ],
    [
      'feel  swing sixteenths',
      { kind: 'feel', value: 'swing sixteenths', feel: { kind: 'swing', long: 2, short: 1, unit: 16 } },
    ],
    ['tempo  80', { kind: 'tempo', value: '80', tempo: { from: 80, to: 80 } }],
    ['tempo  60 to 92', { kind: 'tempo', value: '60 to 92', tempo: { from: 60, to: 92 } }],
    ['tempo  60 to 92 by 4', { kind: 'tempo', value: '60 to 92 by 4', tempo: { from: 60, to: 92, by: 4 } }],
    [
      'tempo  60 to 92 by 4 every 2',
      { kind: 'tempo', value: '60 to 92 by 4 every 2', tempo: { from: 60, to: 92, by: 4, everyPasses: 2 } },
    ],
    [
      'tempo  60 to 92 by 4 every 2 passes',
      { kind: 'tempo', value: '60 to 92 by 4 every 2 passes', tempo: { from: 60, to: 92, by: 4, everyPasses: 2 } },
    ],
    ['tempo  180 eighths', { kind: 'tempo', value: '180 eighths', tempo: { from: 180, to: 180, unit: 8 } }],
    ['level  2 second term', { kind: 'level', value: '2 second term', level: 2 }],
    ['hand  small', { kind: 'hand', value: 'small', hand: 'small' }],
    ['language  pt-BR', { kind: 'language', value: 'pt-BR', language: 'pt-BR' }],
    // Source: RFC 5646, 2.1.1: what case is usual where.
    ['language  SR-latn-rs', { kind: 'language', language: 'sr-Latn-RS' }],
    ['language  es-419', { kind: 'language', language: 'es-419' }],
    ['hand  205 mm', { kind: 'hand', value: '205 mm', hand: { spanMm: 205 } }],
    ['key  E minor', { kind: 'key', value: 'E minor', key: { tonic: { letter: 'E', accidental: 0 }, mode: 'minor' } }],
    ['key  B♭', { kind: 'key', value: 'B♭', key: { tonic: { letter: 'B', accidental: -1 }, mode: 'major' } }],
  ])('%s', (line, says) => {
    expect(read(line)).toMatchObject({ says, problems: [] });
  });

  test.each([
    ['for tenor ukulele, high G', 'tenor ukulele, high G', [67, 60, 64, 69]],
    ['for tenor ukulele, low G, capo 2', 'tenor ukulele, low G, capo 2', [55, 60, 64, 69]],
    ['for guitar', 'guitar', [40, 45, 50, 55, 59, 64]],
  ])('%s', (line, name, midi) => {
    const { statement } = read(line).entry;
    const instrument = statement.kind === 'for' ? statement.instrument : undefined;
    expect(instrument?.name).toBe(name);
    // MIDI note numbers of the usual tunings: facts of the trade, C4 = 60.
    const steps = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
    expect(
      instrument?.openStrings.map(({ letter, accidental, octave }) => 12 * (octave + 1) + steps[letter] + accidental),
    ).toEqual(midi);
  });

  test.each([
    ['also baritone ukulele', { keeps: 'shapes', value: 'baritone ukulele' }],
    ['also baritone ukulele, same shapes, called bari', { keeps: 'shapes', called: 'bari', value: 'baritone ukulele' }],
    ['also guitar ,   called big', { keeps: 'shapes', called: 'big', value: 'guitar' }],
    ['also guitar, called big, same key', { keeps: 'key', called: 'big', value: 'guitar' }],
  ])('%s', (line, says) => expect(read(line)).toMatchObject({ says: { kind: 'also', ...says }, problems: [] }));
});

describe('a header line that is half typed asks quietly', () => {
  test.each([
    'lesson',
    'by',
    'dated',
    'part',
    'for',
    'also',
    'key',
    'meter',
    'feel',
    'tempo',
    'level',
    'hand',
    'language',
  ])('%s', (word) => {
    expect(read(word).problems).toEqual([`hint ${word}.empty ""`]);
  });
  test('a chord without a name, and one without frets', () => {
    expect(read('chord').problems).toEqual(['hint chord.no-name "chord"']);
    expect(read('chord Em').problems).toEqual(['hint chord.no-frets "Em"']);
  });
});

describe('slips in a header', () => {
  test.each([
    ['meter 4/5', 'error meter.unreadable "4/5"'],
    ['feel swung', 'error feel.unreadable "swung"'],
    ['feel swing 1 to 2', 'error feel.unreadable "swing 1 to 2"'],
    ['tempo fast', 'error tempo.unreadable "fast"'],
    ['tempo 5', 'error tempo.unreadable "5"'],
    ['tempo 60 to 90 by 0', 'error tempo.unreadable "60 to 90 by 0"'],
    ['tempo 60 crotchets', 'error tempo.unreadable "60 crotchets"'],
    ['level 11', 'error level.unreadable "11"'],
    ['hand huge', 'error hand.unreadable "huge"'],
    ['page 2', 'hint page.value "2"'],
    ['patern roll', 'error keyword.unknown "patern"'],
    ['strum D U', 'error keyword.place "strum"'],
    ['Key C', 'hint keyword.case "Key"'],
  ])('%s', (line, problem) => expect(read(line).problems).toEqual([problem]));

  test.each([
    ['patern roll', 'pattern roll'],
    ['Key C', 'key C'],
    ['key e minor', 'key E minor'],
  ])('%s is mended to %s', (line, mended) => expect(fixed(line)).toBe(mended));

  test('a line that makes no sense does not disturb the next', () => {
    expect(kindsOf('?!\nkey C\n  deeper\nmeter 3/4')).toEqual(['unknown', 'key', 'meter']);
  });
});
