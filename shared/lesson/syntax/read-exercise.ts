import { completed } from '../../text/begun.ts';
import { reportValue } from './begun-values.ts';
import { readEnding } from './read-bars.ts';
import { readMembers } from './read-names.ts';
import { blockSpan } from './read-progression.ts';
import { readProse } from './read-prose.ts';
import { isVideoTime, readMeter, readMinutes, readRing, readTempo } from './read-values.ts';
import {
  afterLine,
  asksFor,
  type BlockLine,
  phraseOf,
  type Reading,
  report,
  reportUnfinished,
  titleOf,
  type WordLine,
} from './reading.ts';
import type { AtDirective, ExerciseStatement, Members, Prose } from './statement.ts';
import { keywordOf, unknownLine } from './unknown-line.ts';

type Found = { -readonly [K in keyof ExerciseStatement]?: ExerciseStatement[K] };

/** `exercise Roll the changes`, then what is played, with what, how fast and how long. */
export function readExercise(reading: Reading, line: WordLine, body: readonly BlockLine[]): ExerciseStatement {
  const title = titleOf(reading, line.rest);
  if (title === undefined)
    report(
      reading,
      'hint',
      'exercise.no-title',
      afterLine(line),
      'Give the exercise a title; it stands above the music.',
    );
  const found: Found = {};
  const passes: Members[] = [];
  const at: AtDirective[] = [];
  const prose: Prose[] = [];
  for (const said of body) {
    if (said.kind === 'prose') {
      prose.push(readProse(reading, [said.line]));
      continue;
    }
    const word = keywordOf(reading, said, 'exercise');
    if (word === 'with') passes.push(readList(reading, said));
    else if (word === 'at') at.push(...readAt(reading, said));
    else readDirective(reading, said, word, found);
  }
  return {
    ...found,
    kind: 'exercise',
    keyword: line.keyword,
    span: blockSpan(line, body),
    with: passes,
    at,
    prose,
    ...(title !== undefined ? { title } : {}),
  };
}

/** What is asked quietly behind a keyword that stands alone. */
const QUESTIONS: Readonly<Record<string, string>> = {
  restart: 'At each chord, or at each bar? restart chord, restart bar',
  tempo: 'How many beats a minute? tempo 80, or tempo 60 to 92 by 4',
  repeat: 'How often? repeat 2',
  minutes: 'How many minutes? minutes 5',
  meter: 'Which meter? meter 3/4',
  ring: 'Which strings ring on? ring all, ring none, or ring 1 2',
  video: 'Where in the film? video 3:25',
};

function readDirective(reading: Reading, line: WordLine, word: string, found: Found): void {
  const question = QUESTIONS[word];
  if (question !== undefined && asksFor(reading, line, question)) return;
  const value = phraseOf(reading, line.rest);
  const span = value?.span ?? line.span;
  const text = value?.text ?? '';
  const written = { text, span };
  switch (word) {
    case 'play':
    case 'over':
    case 'each':
      if (found[word] !== undefined)
        report(
          reading,
          'warning',
          'exercise.twice',
          line.span,
          `${word} is said twice; this line is the one that counts.`,
        );
      found[word] = readList(reading, line);
      return;
    case 'restart':
      if (text === 'chord' || text === 'bar') found.restart = { at: text, span };
      else
        reportValue(
          reading,
          'restart',
          written,
          'Patterns restart at each chord or at each bar: restart chord, restart bar.',
        );
      return;
    case 'tempo': {
      const tempo = readTempo(text);
      if (typeof tempo === 'string') reportValue(reading, 'tempo', written, tempo);
      else found.tempo = { tempo, span };
      return;
    }
    case 'repeat':
      if (/^\d{1,3}$/.test(text) && Number(text) > 0) found.repeat = { times: Number(text), span };
      else report(reading, 'error', 'repeat.unreadable', span, 'How often? Write a number: repeat 2.');
      return;
    case 'minutes': {
      const minutes = readMinutes(text);
      if (minutes === undefined)
        reportValue(reading, 'minutes', written, 'How long? Write a number of minutes: minutes 5.');
      else found.minutes = { minutes, span };
      return;
    }
    case 'aim': {
      const aim = titleOf(reading, line.rest);
      if (aim !== undefined) found.aim = aim;
      return;
    }
    case 'meter': {
      const meter = readMeter(text);
      if (typeof meter === 'string') reportValue(reading, 'meter', written, meter);
      else found.meter = { meter, span };
      return;
    }
    case 'ring': {
      const ring = readRing(line.rest.filter((piece) => piece.kind === 'word').map((piece) => piece.text));
      if (typeof ring === 'string') reportValue(reading, 'ring', written, ring);
      else found.ring = { ring, span };
      return;
    }
    case 'video':
      if (value !== undefined && isVideoTime(text)) found.video = value;
      else reportValue(reading, 'video', written, 'A place in the video is minutes and seconds: video 3:25.');
      return;
    default:
      unknownLine(reading, line, 'exercise');
  }
}

function readList(reading: Reading, line: WordLine): Members {
  const members = readMembers(reading, line.rest);
  if (members.length === 0)
    report(reading, 'hint', 'list.empty', afterLine(line), `${line.keyword.text} what? Write a name.`);
  return { members, span: line.span };
}

const AT_PLACES = ['bar 4', 'st', 'nd', 'rd', 'th'];

/** `at bar 4 8  roll-end`, `at 2nd  roll-end`: bars by number in the progression written out once. */
function readAt(reading: Reading, line: WordLine): readonly AtDirective[] {
  const bars: number[] = [];
  const endings: number[] = [];
  let index = 0;
  for (; index < line.rest.length; index++) {
    const piece = line.rest[index];
    if (piece === undefined) break;
    if (piece.kind === 'comma' || /^bars?$/.test(piece.text)) continue;
    const ending = readEnding(piece);
    if (ending !== undefined) endings.push(...ending.numbers);
    else if (/^\d{1,3}$/.test(piece.text)) bars.push(Number(piece.text));
    else break;
  }
  const members = readMembers(reading, line.rest.slice(index));
  if (members.length === 0) {
    report(reading, 'hint', 'at.empty', afterLine(line), 'In which bar, and what is played there? at bar 4 roll-end');
    return [];
  }
  if (bars.length === 0 && endings.length === 0) {
    const message = 'Say which bar or ending, then what to play there: at bar 4 8 roll-end, at 2nd roll-end.';
    const [only, more] = line.rest;
    const isPlace = (text: string) => /^bar|^\d(st|nd|rd|th)$/.test(text);
    const begun = only === undefined || more !== undefined ? undefined : completed(only.text, AT_PLACES, isPlace);
    if (begun === undefined) report(reading, 'error', 'at.unreadable', line.span, message);
    else reportUnfinished(reading, 'at.unreadable', line.span, message);
    return [];
  }
  return [{ span: line.span, bars, endings, members }];
}
