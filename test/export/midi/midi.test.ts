import tone from '@tonejs/midi';
import { parseMidi, writeMidi } from 'midi-file';
import { describe, expect, test } from 'vitest';
import type { ExportedExercise } from '../../../shared/export/exported-exercise.ts';
import { midiFileOf } from '../../../shared/export/midi/midi-file.ts';
import { exerciseOf, exercisesOf, generatedExercises, samples } from '../exported-lessons.ts';
import { type ExpectedSound, expectedKnocks, expectedLength, expectedSounds } from './expected-sounds.ts';

const { Midi } = tone;

const PPQ = 960;
const GENERATED = 200;

describe('a reader finds what the timeline says (@tonejs/midi)', () => {
  test.each(samples)('in %s, on every edition', (_name, text) => {
    const ends = exercisesOf(text).map((exercise) => check(exercise, exercise.title));
    expect(Math.max(...ends)).toBeGreaterThan(10);
  });

  test('in lessons made by chance', () => {
    let ends = 0;
    for (const { seed, exercise } of generatedExercises(GENERATED)) ends += check(exercise, `seed ${seed}`);
    expect(ends).toBeGreaterThan(GENERATED);
  });
});

/** The number of notes whose end was compared. */
function check(exercise: ExportedExercise, name: string): number {
  const midi = new Midi(midiFileOf(exercise));
  expect(midi.header.ppq).toBe(PPQ);
  expect(midi.name).toBe(exercise.title);

  let checked = 0;
  for (const layer of ['accompaniment', 'tune'] as const) {
    const notes = notesOf(midi, layer);
    const all = expectedSounds(exercise);
    const expected = all.filter((sound) => sound.layer === layer);
    expect(notes.length > 0, name).toBe(expected.length > 0);
    const read = notes.map(({ ticks, durationTicks, midi: key }) => ({ ticks, end: ticks + durationTicks, key }));
    // Everything that is struck begins in the file at its tick, strokes within their spread.
    const unmatched = [...read];
    for (const sound of expected) {
      const tick = Math.round(sound.start * PPQ);
      const key = isHarmonic(sound) ? undefined : sound.key;
      const most = tick + spreadTicks(sound);
      const at = unmatched.findIndex(
        (note) => note.ticks >= tick && note.ticks <= most && (key === undefined || note.key === key),
      );
      // Two strings of one pitch in one stroke are one key.
      const isShared = read.some(
        (note) => (key === undefined || note.key === key) && note.ticks >= tick && note.ticks <= most,
      );
      if (at >= 0) unmatched.splice(at, 1);
      else expect(isShared, `${name}: ${sound.key} at ${sound.start}`).toBe(true);
    }
    if (!moves(exercise)) expect(unmatched, name).toEqual([]);
    checked += checkEnds(expected, all, read, name);
  }

  const knocks = midi.tracks.find(({ name: called }) => called === 'Percussion')?.notes ?? [];
  const struck = [
    ...new Set(expectedKnocks(exercise).map(({ at, kind }) => `${Math.round(at * PPQ)} ${KEYS[kind]}`)),
  ].sort();
  expect([...new Set(knocks.map(({ ticks, midi: key }) => `${ticks} ${key}`))].sort(), name).toEqual(struck);
  const last = Math.max(
    0,
    ...parseMidi(midiFileOf(exercise)).tracks.map((track) => track.reduce((sum, { deltaTime }) => sum + deltaTime, 0)),
  );
  expect(last).toBeGreaterThanOrEqual(Math.round(expectedLength(exercise) * PPQ));
  return checked;
}

/** Channels, from 0: what is bent or shaken has one of its own. */
const LAYER_CHANNELS = { accompaniment: [0, 2], tune: [1, 3] } as const;

/** The reader makes a track of each channel. */
function notesOf(midi: InstanceType<typeof Midi>, layer: 'accompaniment' | 'tune') {
  const channels: readonly number[] = LAYER_CHANNELS[layer];
  return midi.tracks.filter(({ channel }) => channels.includes(channel)).flatMap(({ notes }) => notes);
}

/** Which key of the percussion map of General MIDI 1 (RP-003) stands for what. */
const KEYS: Readonly<Record<string, number>> = { thumb: 37, palm: 64, nails: 75, body: 77, chunk: 62, damped: 69 };

/** A sound that no other takes over ends at its tick, or where its string is struck anew, within the spread of that stroke. */
function checkEnds(
  expected: readonly ExpectedSound[],
  all: readonly ExpectedSound[],
  read: readonly { readonly ticks: number; readonly end: number; readonly key: number }[],
  name: string,
): number {
  let checked = 0;
  for (const sound of expected) {
    if (
      sound.event.kind !== 'notes' ||
      sound.event.notes.some(({ techniques, arrivesBy }) => techniques.length > 0 || arrivesBy !== undefined)
    )
      continue;
    // Another string with the same pitch would take the key over.
    if (
      expected.some(
        (other) =>
          other !== sound && other.key === sound.key && other.start < sound.end + 0.5 && other.end > sound.start,
      )
    )
      continue;
    const note = read.find(({ ticks, key }) => ticks === Math.round(sound.start * PPQ) && key === sound.key);
    const end = Math.round(sound.end * PPQ);
    const later = all.filter(({ start }) => Math.round(start * PPQ) === end).map(spreadTicks);
    expect(note, name).toBeDefined();
    expect(note?.end, `${name}: ${sound.key} at ${sound.start}`).toBeGreaterThanOrEqual(end);
    expect(note?.end, `${name}: ${sound.key} at ${sound.start}`).toBeLessThanOrEqual(end + Math.max(0, ...later));
    checked += 1;
  }
  return checked;
}

/** A stroke takes no more than a quarter of its length, half where it is spread; picking is exact. */
function spreadTicks({ event }: ExpectedSound): number {
  if (event.kind !== 'strum' && event.kind !== 'roll') return 0;
  const share = event.kind === 'roll' || (event.kind === 'strum' && event.slow) ? 1 / 2 : 1 / 4;
  return Math.ceil((event.length.numerator / event.length.denominator) * 4 * PPQ * share);
}

function isHarmonic({ event }: ExpectedSound): boolean {
  return (
    event.kind === 'notes' &&
    event.notes.some(
      ({ techniques, arrivesBy }) => arrivesBy === 'harmonic' || techniques.some(({ kind }) => kind === 'harmonic'),
    )
  );
}

/** True where hands make sounds that are no events of their own: quick moves of the left one, and the fingers of a roll. */
function moves({ score }: ExportedExercise): boolean {
  return score.passes.some(({ bars }) =>
    bars.some(({ events }) =>
      events.some(
        (event) =>
          event.kind === 'roll' ||
          (event.kind === 'notes' && event.notes.some(({ techniques }) => techniques.some((one) => 'fret' in one))),
      ),
    ),
  );
}

const HEAD = 'lesson Lamps\nkey Eb\ntempo 120\nchord C 0-0-0-3\nchord G 0-2-3-2\n';

function snippet(rows: string, { bars = '| C |', header = '' } = {}): ExportedExercise {
  return exerciseOf(
    `${HEAD}${header}melody q\n  ${rows.split('; ').join('\n  ')}\nprogression v\n  ${bars}\nexercise Größe ♯1\n  play v\n  with q`,
  );
}

/** `tick+length key` of a track. */
function played(exercise: ExportedExercise, track: string): readonly string[] {
  const midi = new Midi(midiFileOf(exercise));
  const notes = notesOf(midi, track === 'Tune' ? 'tune' : 'accompaniment');
  return notes.map(({ ticks, durationTicks, midi: key }) => `${ticks}+${durationTicks} ${key}`);
}

describe('what stands in the file', () => {
  test('tempo, meter, key and names, in UTF-8', () => {
    const bytes = midiFileOf(snippet('count 1 2 3 4; pick 1 2 3 4'));
    const { header, tracks } = parseMidi(bytes);
    expect(header).toMatchObject({ format: 1, ticksPerBeat: PPQ, numTracks: 2 });
    const midi = new Midi(bytes);
    expect(midi.header.tempos[0]?.bpm).toBeCloseTo(120, 6);
    expect(midi.header.timeSignatures[0]?.timeSignature).toEqual([4, 4]);
    expect(midi.header.keySignatures[0]).toMatchObject({ key: 'Eb', scale: 'major' });
    const title = tracks[0]?.find(({ type }) => type === 'trackName');
    const text = title !== undefined && 'text' in title ? String(title.text) : '';
    // The reader gives bytes as characters or has read them as UTF-8.
    expect([text, Buffer.from(text, 'latin1').toString('utf8')]).toContain('Größe ♯1');
    expect(midi.tracks.at(-1)?.instrument.number).toBe(24);
  });

  // Common practice, no source: where no sign says otherwise, note values keep their length over a change of meter.
  test('another meter in the course of the music is told, and quarters stay as long', () => {
    const { header } = new Midi(midiFileOf(snippet('count 1 2 3 4; pick 1 2 3 4', { bars: '| C | 6/8 C | 5/8 C |' })));
    expect(header.timeSignatures.map(({ timeSignature }) => timeSignature.join('/'))).toEqual(['4/4', '6/8', '5/8']);
    expect(header.tempos.map(({ bpm }) => Math.round(bpm))).toEqual([120]);
  });

  test('a guitar with steel strings', () => {
    const exercise = snippet('count 1 2 3 4; tune 1:0 1:2 1:3 1:5', { header: 'for steel-string guitar\n' });
    expect(new Midi(midiFileOf(exercise)).tracks.at(-1)?.instrument.number).toBe(25);
  });

  test('swing, two to one: the second eighth comes at two thirds of the beat', () => {
    const exercise = snippet('count 1 & 2 3 4; ring none; pick 1 2 1 2 1', { header: 'feel swing\n' });
    expect(played(exercise, 'Accompaniment').slice(0, 3)).toEqual(['0+640 72', '640+320 64', '960+960 72']);
  });

  test('triplets come out whole', () => {
    const exercise = snippet('count 1 la li 2 3 4; ring none; pick 1 2 1 2 1 2');
    expect(played(exercise, 'Accompaniment').slice(0, 3)).toEqual(['0+320 72', '320+320 64', '640+320 72']);
  });

  test('what rings ends when its string is struck again', () => {
    const exercise = snippet('count 1 2 3 4; pick 4 3 4 3');
    expect(played(exercise, 'Accompaniment')).toEqual(['0+1920 67', '960+1920 60', '1920+1920 67', '2880+960 60']);
  });

  test('repeats are played out', () => {
    const exercise = snippet('count 1-4; ring none; pick 1', { bars: '|: C | 1st C :| 2nd G ||' });
    expect(played(exercise, 'Accompaniment').map((note) => note.split(' ')[1])).toEqual(['72', '72', '72', '71']);
  });

  test('a stroke is spread in the order in which the hand meets the strings', () => {
    const exercise = snippet('count 1 2 3 4; strum D . U .');
    const keys = played(exercise, 'Accompaniment').map((note) => Number(note.split(' ')[1]));
    expect(keys).toEqual([67, 60, 64, 72, 72, 64, 60, 67]);
    const starts = played(exercise, 'Accompaniment').map((note) => Number(note.split('+')[0]));
    expect(starts[0]).toBe(0);
    expect(starts[3]).toBeGreaterThan(starts[2] ?? 0);
    // 120 beats a minute: 500 ms a beat, of which a stroke over four strings takes 25. Unit: ticks, 1.92 a ms.
    expect(starts[3]).toBe(48);
  });

  test('quick moves, trills, bends, vibrato and harmonics', () => {
    expect(played(snippet('count 1 2 3 4; tune 1:5h7 . . .'), 'Tune')).toEqual(['0+120 74', '120+3720 76']);
    const trill = played(snippet('count 1 2 3 4; tune 1:5t7 . stop .'), 'Tune');
    expect(trill.length).toBeGreaterThan(6);
    expect(new Set(trill.map((note) => note.split(' ')[1]))).toEqual(new Set(['74', '76']));
    expect(played(snippet('count 1 2 3 4; tune 1:12* 1:7* . .'), 'Tune').map((note) => note.split(' ')[1])).toEqual([
      '81',
      '88',
    ]);
    const bent = new Midi(midiFileOf(snippet('count 1 2 3 4; tune 1:5b . . .'))).tracks.find(
      ({ name }) => name === 'Tune',
    );
    expect(Math.max(...(bent?.pitchBends ?? []).map(({ value }) => value))).toBeCloseTo(0.5, 2);
    expect(bent?.pitchBends.at(-1)?.value).toBe(0);
    const shaken = new Midi(midiFileOf(snippet('count 1 2 3 4; tune 1:5v . . .'))).tracks.find(
      ({ name }) => name === 'Tune',
    );
    expect(shaken?.controlChanges[1]?.map(({ value }) => value > 0)).toEqual([true, false]);
  });

  test('accents are louder and what the left hand makes is softer', () => {
    const velocities = new Midi(midiFileOf(snippet('count 1 2 3 4; tune 1:5 1:7! p5 .'))).tracks
      .at(-1)
      ?.notes.map(({ velocity }) => velocity);
    const [plain = 0, accent = 0, pulled = 0] = velocities ?? [];
    expect(accent).toBeGreaterThan(plain);
    expect(pulled).toBeLessThan(plain);
  });

  test('a pickup and a change of meter have signatures of their own', () => {
    const exercise = snippet('count 4 | 1 2 3 4; tune 1:0 | 1:2 1:3 1:5 1:7', { bars: 'count 4\n  | C | C | 3/4 G |' });
    const signatures = new Midi(midiFileOf(exercise)).header.timeSignatures;
    expect(signatures.map(({ ticks, timeSignature }) => [ticks / PPQ, ...timeSignature])).toEqual([
      [0, 1, 4],
      [1, 4, 4],
      [5, 3, 4],
    ]);
  });

  test('words are sung in time, the second verse the second time round', () => {
    const text = `${HEAD}pattern s\n  strum D D D D\nprogression v\n  |: C G :|\n  words Lan- terns\n  words 2 Mü- de\nexercise e\n  play v\n  with s`;
    const { tracks } = parseMidi(midiFileOf(exerciseOf(text)));
    let tick = 0;
    const sung = (tracks[1] ?? []).flatMap((event) => {
      tick += event.deltaTime;
      return event.type === 'lyrics' ? [`${tick / PPQ} ${Buffer.from(event.text, 'latin1').toString('utf8')}`] : [];
    });
    expect(sung).toEqual(['0 Lan-', '2 terns', '4 Mü-', '6 de']);
  });

  test('the same lesson gives the same bytes', () => {
    const rows = 'count 1 2 3 4; strum D U chunk U; hit . . . body';
    expect(midiFileOf(snippet(rows))).toEqual(midiFileOf(snippet(rows)));
  });

  test('a long track is the one that the library writes at once', () => {
    for (const [, text] of samples)
      for (const exercise of exercisesOf(text)) {
        const bytes = midiFileOf(exercise);
        expect(Uint8Array.from(writeMidi(parseMidi(bytes)))).toEqual(bytes);
      }
  });

  test('twice as many bars with words take twice the work', () => {
    // The library joins what it has written with what comes: what it copies in doing so is its work.
    const copied = (lines: number): number => {
      const song = `${'  | C | C |\n  words  one two | three and a long long word\n'.repeat(lines)}`;
      const lesson = `chord C 0003\nprogression song\n${song}pattern beat\n  strum D D D D\nexercise One\n  play song\n  with beat\n`;
      const exercise = exerciseOf(lesson);
      const { concat } = Array.prototype;
      let sum = 0;
      Array.prototype.concat = function (this: unknown[], ...added: unknown[]) {
        sum += this.length;
        return concat.apply(this, added as never);
      };
      try {
        midiFileOf(exercise);
      } finally {
        Array.prototype.concat = concat;
      }
      return sum;
    };
    const once = copied(100);
    expect(once).toBeGreaterThan(0);
    expect(copied(200)).toBeLessThan(2.2 * once);
  });
});
