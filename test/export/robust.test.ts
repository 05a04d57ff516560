import { describe, expect, test } from 'vitest';
import type { ExportedExercise } from '../../shared/export/exported-exercise.ts';
import { midiFileOf } from '../../shared/export/midi/midi-file.ts';
import { musicXmlOf } from '../../shared/export/musicxml/music-xml.ts';
import { textTabOf } from '../../shared/export/text-tab/text-tab.ts';
import { timelineJsonOf } from '../../shared/export/timeline-json.ts';
import { exercisesOf, generatedExercises, samples } from './exported-lessons.ts';
import { faultOf } from './musicxml/schema.ts';

/** What is wrong with any of an exercise's files. */
function faultsOf(exercise: ExportedExercise): readonly string[] {
  const xml = musicXmlOf(exercise);
  const tab = textTabOf(exercise);
  const json = timelineJsonOf(exercise);
  const midi = midiFileOf(exercise);
  const fault = faultOf(xml);
  return [
    ...(fault === undefined ? [] : [fault]),
    ...[xml, tab, json].flatMap((text) => (/\bundefined\b|\bNaN\b/.test(text) ? ['a value is missing'] : [])),
    ...tab.split('\n').filter((line) => line.length > 72),
    ...(midi.length > 40 ? [] : ['the MIDI file is empty']),
  ];
}

describe('every exercise has its files', () => {
  test('lessons made by chance', () => {
    for (const { seed, exercise } of generatedExercises(150)) expect(faultsOf(exercise), `seed ${seed}`).toEqual([]);
  });

  test.each(samples)('%s half typed', (_name, text) => {
    for (let part = 1; part < 12; part += 1) {
      const typed = text.slice(0, Math.floor((text.length * part) / 12));
      for (const exercise of exercisesOf(typed)) expect(faultsOf(exercise), exercise.title).toEqual([]);
    }
  });

  test('titles and words that no format likes', () => {
    const nasty = 'a & <b> "c" \u0001 \uD800 ]]> -- \u{1F3B5}';
    const text = `lesson ${nasty}\nby ${nasty}\nchord C 0-0-0-3\nmelody q\n  count 1 2\n  tune 1:0 1:2\n  words <&> ]]>\n  say "!" \u0002\nexercise ${nasty}\n  aim ${nasty}\n  over C\n  each q`;
    const [exercise] = exercisesOf(text);
    expect(exercise === undefined ? ['no exercise'] : faultsOf(exercise)).toEqual([]);
  });

  test('an exercise that plays nothing has none', () => {
    expect(exercisesOf('lesson Empty\nexercise Nothing yet\n  play verse\n  with roll')).toEqual([]);
    expect(exercisesOf('lesson Empty\nexercise')).toEqual([]);
  });

  test('nobody plays: chords alone, silence, a chord with every string muted', () => {
    const lessons = [
      'lesson Chords\nchord C 0-0-0-3\nprogression v\n  | C | NC |\nexercise e\n  play v',
      'lesson Silence\nchord C 0-0-0-3\npattern q\n  count 1 2 3 4\n  strum stop . . .\nexercise e\n  over C\n  each q',
      'lesson Muted\nchord C x-x-x-x\npattern q\n  strum D chunk roll s\nexercise e\n  over C\n  each q',
    ];
    for (const text of lessons) for (const exercise of exercisesOf(text)) expect(faultsOf(exercise), text).toEqual([]);
  });
});
