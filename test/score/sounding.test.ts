import { describe, expect, test } from 'vitest';
import { soundingNotes } from '../../shared/score/sounding.ts';
import { barsOf, inQuarters } from './scoring.ts';

// How long a string sounds is physics and common practice, no source; the first case is a player's question.

const SHAPES = 'chord C 0-0-0-3\nchord Am 2-0-0-0\nchord F 2-0-1-0\nchord G x-2-3-2\n';

/** `string:fret from–to`, in quarters from the start of the music. */
function sounding(lesson: string): readonly string[] {
  return soundingNotes(barsOf(lesson)).map(
    ({ string, fret, start, end }) => `${string}:${fret} ${inQuarters(start)}–${inQuarters(end)}`,
  );
}

function lesson(rows: string, bars = '| C |', exercise = ''): string {
  return `${SHAPES}melody q\n  ${rows.split('; ').join('\n  ')}\nprogression v\n  ${bars}\nexercise e\n  play v\n  with q${exercise}`;
}

describe('let ring (C-13 should)', () => {
  test('hold C, strings 4 3 2 1 twice in eighths: each sounds until it is plucked again', () => {
    expect(sounding(lesson('count 1 & 2 & 3 & 4 &; ring all; pick 4 3 2 1 4 3 2 1'))).toEqual([
      '4:0 0–2',
      '3:0 1/2–5/2',
      '2:0 1–3',
      '1:3 3/2–7/2',
      '4:0 2–4',
      '3:0 5/2–4',
      '2:0 3–4',
      '1:3 7/2–4',
    ]);
  });

  test('the chord changes its fret: what the new chord holds too rings on, the rest ends', () => {
    // From C to Am string 4 goes to fret 2 and string 1 is let go; strings 3 and 2 stay open.
    expect(
      sounding(lesson('count 1 2 3 4; pick 4 3 2 1', '| C | Am |').replace('with q', 'with q\n  at bar 2 q')),
    ).toEqual(['4:0 0–4', '3:0 1–5', '2:0 2–6', '1:3 3–4', '4:2 4–8', '3:0 5–8', '2:0 6–8', '1:0 7–8']);
  });

  test('a chord ahead of the beat ends it there', () => {
    const notes = sounding(lesson('count 1 2 3 4; pick 1 . 2 .; chord . . . Am'));
    expect(notes).toEqual(['1:3 0–3', '2:0 2–4']);
  });

  test('a string that the next chord leaves out is silenced', () => {
    expect(sounding(lesson('count 1-4; pick 4', '| C | G |'))).toEqual(['4:0 0–4']);
  });

  test.each([
    ['ring none: as written', 'ring none; ', ['4:0 0–1', '1:3 1–4']],
    ['ring all, the usual for picking', '', ['4:0 0–4', '1:3 1–4']],
    ['single strings', 'ring 1; ', ['4:0 0–1', '1:3 1–4']],
  ])('%s', (_name, ring, expected) => expect(sounding(lesson(`count 1 2 3 4; ${ring}pick 4 1 . .`))).toEqual(expected));

  test('a tune ends as written, over the bar line too, and rings where it is told', () => {
    const rows = 'count 1 2 3 4 | 1 2 3 4; tune . . 1:5 . . 2:3 stop .';
    expect(sounding(lesson(rows, '| C | C |'))).toEqual(['1:5 2–5', '2:3 5–6']);
    expect(sounding(lesson(`ring all; ${rows}`, '| C | C |'))).toEqual(['1:5 2–6', '2:3 5–6']);
  });

  test('what the exercise says of ringing goes before the pattern’s own', () => {
    expect(sounding(lesson('count 1 2 3 4; ring all; pick 4 1 . .', '| C |', '\n  ring none'))).toEqual([
      '4:0 0–1',
      '1:3 1–4',
    ]);
  });
});

describe('what silences a string', () => {
  test.each([
    ['a stop of all', 'pick 4 1 stop .', ['4:0 0–2', '1:3 1–2']],
    ['a stop of one string', 'pick 4 1 stop4 .', ['4:0 0–2', '1:3 1–4']],
    ['a hammer-on makes a new sound on its string', 'ring all; tune 1:3 h5 . .', ['1:3 0–1', '1:5 1–4']],
    ['a thumb slap', 'pick 4 1 . .; hit . . thumb .', ['4:0 0–2', '1:3 1–2']],
    ['a palm', 'pick 4 1 . .; hit . . palm .', ['4:0 0–2', '1:3 1–2']],
    ['nails and body do not', 'pick 4 1 . .; hit . . nails body', ['4:0 0–4', '1:3 1–4']],
    ['a tune goes on through a slap of the thumb', 'tune 1:5 . . .; hit . . thumb .', ['1:5 0–4']],
    ['but not through a palm', 'tune 1:5 . . .; hit . . palm .', ['1:5 0–2']],
  ])('%s', (_name, rows, expected) => expect(sounding(lesson(`count 1 2 3 4; ${rows}`))).toEqual(expected));

  test('C-8 should: a chunk, a damped stroke and silence end what sounds, and none of them has a note of its own', () => {
    for (const mark of ['chunk', 'Dx', 'stop'])
      expect(sounding(lesson(`count 1 2 3 4; strum D . ${mark} .`))).toEqual([
        '4:0 0–2',
        '3:0 0–2',
        '2:0 0–2',
        '1:3 0–2',
      ]);
  });

  test('where no chord is played strokes and picking end', () => {
    expect(sounding(lesson('count 1-4; pick 3', '| C NC | C |'))).toEqual(['3:0 0–2', '3:0 4–8']);
  });

  test('C-12 must: what is held is one attack whose times add', () => {
    expect(sounding(lesson('count 1 2 3 4; tune 1:3 . 1:3 .'))).toEqual(['1:3 0–2', '1:3 2–4']);
    expect(sounding(lesson('count 1 2 3 4; tune 1:3 . . .'))).toEqual(['1:3 0–4']);
  });
});

describe('tune and picking', () => {
  test('a tune note has its string to itself until its row’s next mark, while picking goes on', () => {
    expect(sounding(lesson('count 1 2 3 4; tune 1:5 . . stop; pick 4 1 3 1'))).toEqual([
      '4:0 0–4',
      '1:5 0–3',
      '3:0 2–4',
      '1:3 3–4',
    ]);
  });

  test('a strum meets the tune’s string at the tune’s fret', () => {
    expect(
      sounding(lesson('count 1 2 3 4; tune 1:5 . . .; strum D . D .')).filter((note) => note.startsWith('1:')),
    ).toEqual(['1:5 0–2', '1:5 2–4']);
  });

  test('a note with a fret of its own stands', () => {
    expect(sounding(lesson('count 1 2 3 4; tune 1:5 . . .; pick 4 1:3 3 .'))).toContain('1:3 1–4');
  });
});

describe('in playing order', () => {
  test('a repeat sounds again, and a string rings over the seam until it is plucked', () => {
    expect(sounding(lesson('count 1 2 3 4; pick . 1 . .', '|: C :|'))).toEqual(['1:3 1–5', '1:3 5–8']);
  });

  test('each note knows the mark that it comes from', () => {
    const notes = soundingNotes(barsOf(lesson('count 1 2 3 4; pick 4p 3i 2m 1a')));
    expect(notes.map(({ source: { entry, span } }) => entry.text.slice(span.start, span.end))).toEqual([
      '4p',
      '3i',
      '2m',
      '1a',
    ]);
  });

  test('a roll and a slide of the shape sound the chord', () => {
    expect(sounding(lesson('count 1 2 3 4; strum roll . s .', '| C |'))).toHaveLength(8);
  });
});
