import { expect, test } from 'vitest';
import { type Block, KEYWORDS } from '../../shared/lesson/syntax/keywords.ts';
import { SPELLINGS } from '../theory/spellings.ts';
import { loadLessonGrammar, type Scoped, tokenize } from './tokenize.ts';

const grammar = await loadLessonGrammar();

/** The stretches between ⟦ and ⟧, of which the lesson holds one pair. */
function marked(lesson: string): readonly Scoped[] {
  const start = lesson.indexOf('⟦');
  const end = lesson.indexOf('⟧') - 1;
  const text = lesson.replace(/[⟦⟧]/g, '');
  let offset = 0;
  const found: Scoped[] = [];
  for (const line of tokenize(grammar, text)) {
    for (const piece of line) {
      if (offset < end && offset + piece.text.length > start)
        found.push({ ...piece, text: piece.text.slice(Math.max(0, start - offset), end - offset) });
      offset += piece.text.length;
    }
    offset += 1;
  }
  expect(found.map((piece) => piece.text).join('')).toBe(text.slice(start, end));
  return found;
}

function checkScope(lesson: string, scope: string): void {
  for (const piece of marked(lesson)) {
    const innermost = piece.scopes.at(-1) ?? '';
    expect(`${piece.text} is ${innermost}`).toBe(`${piece.text} is ${scope}.handspan`);
  }
}

const inPattern = (row: string): string => `pattern  roll\n  count  1 & 2 &\n  ${row}`;
const inMelody = (row: string): string => `melody  climb\n  ${row}`;
const inExercise = (line: string): string => `exercise  Roll\n  ${line}`;

test.each([
  ['a keyword at the margin', '⟦lesson⟧  Paper Lanterns', 'keyword.control.statement'],
  ['the title', 'lesson  ⟦Paper Lanterns⟧', 'entity.name.section'],
  ['a part', 'part  ⟦Second week⟧', 'entity.name.section'],
  ['a teacher', 'by  ⟦Ada Fenn⟧', 'string.unquoted.value'],
  ['an instrument', 'for  ⟦tenor ukulele⟧, high G', 'support.type.instrument'],
  ['a tuning word', 'for  tenor ukulele, ⟦high⟧ G', 'keyword.other.link'],
  ['a tuning note', 'for  tenor ukulele, high ⟦G⟧', 'constant.other.note'],
  ['a written tuning', 'for  four strings, tuned ⟦G4⟧ C4 E4 A4 scale 432 mm frets 19', 'constant.other.note'],
  ['a scale length', 'for  four strings, tuned G4 C4 E4 A4 scale ⟦432⟧ mm frets 19', 'constant.numeric'],
  ['what an edition keeps', 'also  baritone ukulele, ⟦same shapes⟧, called bari', 'keyword.other.link'],
  ['what an edition is called', 'also  baritone ukulele, same shapes, called ⟦bari⟧', 'entity.name.function'],
  ['a key', 'key  ⟦F# minor⟧', 'constant.other.key'],
  ['a meter', 'meter  ⟦6/8⟧', 'constant.numeric.meter'],
  ['a feel', 'feel  ⟦swing⟧ 3 to 2', 'constant.language.feel'],
  ['a tempo', 'tempo  60 to ⟦92⟧ by 4', 'constant.numeric'],
  ['a tempo’s way', 'tempo  60 to 92 ⟦by⟧ 4 every 2', 'keyword.other.link'],
  ['a tempo’s unit', 'tempo  180 ⟦eighths⟧', 'constant.language.unit'],
  ['a level', 'level  ⟦2⟧ second term', 'constant.numeric.level'],
  ['a hand', 'hand  ⟦small⟧', 'constant.language.hand'],
  ['a hand in millimetres', 'hand  ⟦95⟧ mm', 'constant.numeric'],
  ['a page turn', '⟦page⟧', 'keyword.control.statement'],
  ['a chord that is shown', 'show  ⟦Em⟧ roll', 'entity.name.type.chord'],
  ['a pattern that is shown', 'show  Em ⟦roll⟧', 'entity.name.function'],
  ['a chord’s name', 'chord  ⟦F#m7b5⟧  4-2-0-0', 'entity.name.type.chord'],
  ['a chord with brackets', 'chord  ⟦C(add9,omit3)⟧  0-2-3-3', 'entity.name.type.chord'],
  ['a chord in real signs', 'chord  ⟦B♭△7⟧  3-2-1-0', 'entity.name.type.chord'],
  ['a chord’s label', 'chord  Em.⟦high⟧  9-7-7-7', 'entity.name.type.label'],
  ['a fret', 'chord  Em  0-⟦4⟧-3-2', 'constant.numeric.fret'],
  ['frets run together', 'chord  Em  ⟦0432⟧', 'constant.numeric.fret'],
  ['frets with typographic dashes', 'chord  Em  0–⟦4⟧–3–2', 'constant.numeric.fret'],
  ['a string that is not played', 'chord  F  ⟦x⟧-0-1-0', 'constant.language.muted'],
  ['the word fingers', 'chord  Em  0-4-3-2  ⟦fingers⟧ 0-3-2-1', 'keyword.other.link'],
  ['a left-hand finger', 'chord  Em  0-4-3-2  fingers 0-⟦3⟧-2-1', 'constant.numeric.finger'],
  ['a progression’s name', 'progression  ⟦verse⟧', 'entity.name.function'],
  ['a repeat', 'progression  verse\n  ⟦|:⟧ Em | C :|', 'keyword.control.repeat'],
  ['a bar line', 'progression  verse\n  |: Em ⟦|⟧ C :|', 'keyword.operator.bar'],
  ['a chord that touches its bar line', 'progression  verse\n  |⟦Em⟧|C|', 'entity.name.type.chord'],
  ['a closing repeat that touches its chord', 'progression  verse\n  |: Em | C⟦:|⟧', 'keyword.control.repeat'],
  ['times', 'progression  verse\n  |: Em | C :| ⟦x3⟧', 'constant.numeric.times'],
  ['an ending', 'progression  verse\n  |: Em | ⟦1st+2nd⟧ C :| 3rd D ||', 'keyword.control.ending'],
  ['a beat', 'progression  verse\n  | Em ⟦/⟧ / C |', 'keyword.operator.beat'],
  ['a chord over a bass', 'progression  verse\n  | ⟦G/B⟧ |', 'entity.name.type.chord'],
  ['the bar before', 'progression  verse\n  | Em | ⟦%⟧ |', 'keyword.operator.same'],
  ['no chord', 'progression  verse\n  | Em | ⟦NC⟧ |', 'constant.language.no-chord'],
  ['a meter in a bar', 'progression  verse\n  | ⟦2/4⟧ C |', 'constant.numeric.meter'],
  ['bars behind the name', 'progression  verse  | ⟦Em⟧ | C |', 'entity.name.type.chord'],
  ['a syllable', 'progression  verse\n  | Em | C |\n  words  ⟦Lan-terns⟧ go | down', 'string.unquoted.syllable'],
  ['a second verse', 'progression  verse\n  | Em | C |\n  words ⟦2⟧  Lan-terns go | down', 'constant.numeric.verse'],
  ['a pickup', 'progression  verse\n  count  ⟦4⟧\n  | Em |', 'constant.numeric.count'],
  ['a row’s name', inPattern('⟦pick⟧  4p 2i'), 'keyword.other.row'],
  ['another meter in a count', 'pattern  roll\n  count  1 2 3 4 | ⟦2/4⟧ 1 2', 'constant.numeric.meter'],
  ['a count', 'pattern  roll\n  count  ⟦1⟧ & 2 &', 'constant.numeric.count'],
  ['two counts in one', 'pattern  roll\n  count  ⟦1-2⟧ la li', 'constant.numeric.count'],
  ['between the counts', 'pattern  roll\n  count  1 ⟦&⟧ 2 &', 'constant.language.count'],
  ['a repeat in a count', 'pattern  roll\n  count  |: 1 & ⟦:|⟧', 'keyword.control.repeat'],
  ['a string number', inPattern('pick  ⟦4⟧p 2i'), 'constant.numeric.stringnumber'],
  ['a right-hand finger', inPattern('pick  4⟦p⟧ 2i'), 'variable.parameter.finger'],
  ['a finger before its string', inPattern('pick  ⟦p⟧4 i2'), 'variable.parameter.finger'],
  ['a bass string', inPattern('pick  ⟦R⟧p 2i'), 'constant.language.bass'],
  ['strings together', inPattern('pick  4p⟦+⟧1m'), 'keyword.operator.together'],
  ['the second of two together', inPattern('pick  4p+⟦1⟧m'), 'constant.numeric.stringnumber'],
  ['a second voice', inPattern('pick ⟦2⟧  4p .'), 'constant.numeric.voice'],
  ['a pick row for one chord', inPattern('pick ⟦C⟧  3p .'), 'entity.name.type.chord'],
  ['a hold', inPattern('pick  4p ⟦.⟧ 3p'), 'punctuation.separator.hold'],
  ['a hold written as a dash', inPattern('pick  4p ⟦-⟧ 3p'), 'punctuation.separator.hold'],
  ['a kept mark', inPattern('pick  ⟦=⟧ 3p'), 'keyword.operator.keep'],
  ['a stop', inPattern('pick  4p ⟦stop⟧'), 'keyword.control.stop'],
  ['a stopped string', inPattern('pick  4p stop⟦3⟧'), 'constant.numeric.stringnumber'],
  ['an accent', inPattern('pick  4p⟦!⟧'), 'keyword.operator.accent'],
  ['a rest stroke', inPattern('pick  4p⟦^⟧'), 'keyword.operator.accent'],
  ['a down stroke', inPattern('strum  ⟦D⟧ . U'), 'support.function.stroke'],
  ['a slow stroke', inPattern('strum  D⟦~⟧ . U'), 'keyword.operator.stroke'],
  ['a damped stroke', inPattern('strum  D⟦x⟧ . U'), 'keyword.operator.stroke'],
  ['the strings of a stroke', inPattern('strum  D⟦43⟧ . U'), 'constant.numeric.stringnumber'],
  ['a light stroke', inPattern('strum  (⟦U⟧)'), 'support.function.stroke'],
  ['a chunk', inPattern('strum  ⟦chunk⟧ D'), 'support.function.stroke'],
  ['a rolled chord', inPattern('strum  ⟦roll⟧ D'), 'support.function.stroke'],
  ['a slid shape', inPattern('strum  ⟦s⟧ D'), 'support.function.stroke'],
  ['a hit', inPattern('hit  . ⟦thumb⟧4 palm'), 'support.function.hit'],
  ['the string that is hit', inPattern('hit  . thumb⟦4⟧ palm'), 'constant.numeric.stringnumber'],
  ['a chord on the grid', inPattern('chord  . . . ⟦C⟧'), 'entity.name.type.chord'],
  ['a left-hand finger in a row', inPattern('fingers  ⟦1⟧ . T'), 'constant.numeric.finger'],
  ['what is called out', inPattern('say  ⟦down⟧ . up'), 'string.unquoted.syllable'],
  ['a pattern that is taken over', inPattern('like  ⟦roll-end⟧'), 'entity.name.function'],
  ['a planted finger', inPattern('plant  ⟦p⟧4 i3'), 'variable.parameter.finger'],
  ['strings that ring', inPattern('ring  ⟦1⟧ 2'), 'constant.numeric.stringnumber'],
  ['all strings ring', inPattern('ring  ⟦all⟧'), 'constant.language.ring'],
  ['a tune row', inMelody('⟦tune⟧  1:5 .'), 'keyword.other.row'],
  ['a fret of a tune', inMelody('tune  1:⟦5⟧ .'), 'constant.numeric.fret'],
  ['a string of a tune', inMelody('tune  ⟦1⟧:5 .'), 'constant.numeric.stringnumber'],
  ['a row over a chord', inMelody('⟦D(add9)⟧  1:5 .'), 'entity.name.type.chord'],
  ['a hammer-on', inMelody('tune  1:5⟦h⟧7 .'), 'keyword.operator.technique'],
  ['where it arrives', inMelody('tune  1:5h⟦7⟧ .'), 'constant.numeric.fret'],
  ['a pull-off in its own column', inMelody('tune  1:7 ⟦p⟧5 .'), 'keyword.operator.technique'],
  ['a harmonic', inMelody('tune  1:12⟦*⟧'), 'keyword.operator.technique'],
  ['a tune that is asked for', inMelody('inside  ⟦verse⟧'), 'entity.name.function'],
  ['its contour', inMelody('⟦rise⟧'), 'keyword.other.directive'],
  ['an exercise’s title', 'exercise  ⟦Roll the changes⟧', 'entity.name.section'],
  ['a progression that is played', inExercise('play  ⟦verse⟧'), 'entity.name.function'],
  ['a chord that is played over', inExercise('over  ⟦D(add9)⟧, C6'), 'entity.name.type.chord'],
  ['a label in a list', inExercise('over  Em.⟦high⟧, C6'), 'entity.name.type.label'],
  ['times in a list', inExercise('each  roll ⟦x2⟧, climb'), 'constant.numeric.times'],
  ['two at once', inExercise('with  roll ⟦+⟧ climb'), 'keyword.operator.together'],
  ['a bar number', inExercise('at bar ⟦4⟧ 8  roll-end'), 'constant.numeric.bar'],
  ['an ending to play in', inExercise('at ⟦2nd⟧  roll-end'), 'keyword.control.ending'],
  ['where a pattern restarts', inExercise('restart  ⟦chord⟧'), 'constant.language.restart'],
  ['minutes', inExercise('minutes  ⟦5⟧'), 'constant.numeric'],
  ['an aim', inExercise('aim  ⟦Even thumbs⟧'), 'string.unquoted.value'],
  ['a place in the video', inExercise('video  ⟦3:25⟧'), 'constant.numeric.time'],
  ['a family’s source', 'family  drone\n  from  ⟦verse⟧', 'entity.name.function'],
  ['a fret of its range', 'family  drone\n  within  0 to ⟦10⟧', 'constant.numeric.fret'],
  ['an addition', 'family  drone\n  allow  add9 ⟦6/9⟧', 'constant.other.addition'],
  ['a chord that is kept', 'family  drone\n  keep  ⟦D⟧ 7-6-0-0', 'entity.name.type.chord'],
  ['frets that are kept', 'family  drone\n  keep  D ⟦7⟧-6-0-0', 'constant.numeric.fret'],
  ['an edition', 'edition  ⟦bari⟧', 'entity.name.function'],
  ['another name on an edition', 'edition  bari\n  chord  G as ⟦D⟧  0-2-3-2', 'entity.name.type.chord'],
  ['a pattern of an edition', 'edition  bari\n  pattern  ⟦roll⟧\n    pick  4p 3i', 'entity.name.function'],
  ['a row of an edition’s pattern', 'edition  bari\n  pattern  roll\n    pick  4⟦p⟧ 3i', 'variable.parameter.finger'],
  ['a capo', 'edition  bari\n  capo  ⟦2⟧', 'constant.numeric'],
  ['a remark', '//⟦ week 3⟧', 'comment.line.double-slash'],
  ['prose', '> ⟦Warm up⟧ first.', 'string.unquoted.prose'],
  ['prose in a block', 'exercise  Roll\n  > ⟦Plant i and m.⟧', 'string.unquoted.prose'],
  ['strong words', '> Do **⟦not⟧** hurry.', 'markup.bold'],
  ['stressed words', '> Do *⟦not⟧* hurry.', 'markup.italic'],
  ['a mention', '> Hold @⟦D(add9)⟧.', 'entity.name.tag.mention'],
  ['a shape that is mentioned', '> Hold @⟦2-1-0-0⟧.', 'entity.name.tag.mention'],
  ['a pattern that is mentioned', '> Play @⟦roll-end⟧, slowly.', 'entity.name.tag.mention'],
])('%s', (_name, lesson, scope) => checkScope(lesson, scope));

test.each([
  ['C# is no remark', '  | ⟦C#m⟧ |', 'other'],
  ['a remark in a block', '  ⟦// C#⟧', 'comment'],
  ['a remark at the margin does not end the block', '// C#\n  | ⟦Em⟧ |', 'other'],
  ['prose', '  > ⟦the C# chord⟧', 'string'],
  // A mention is the one place in prose where suggestions are wanted.
  ['a mention in prose', '  > the @⟦Em⟧ chord', 'other'],
  ['a string number is no string of letters', '\npattern  roll\n  pick  ⟦4⟧p', 'other'],
] as const)('suggestions know where they are: %s', (_name, snippet, tokenType) => {
  for (const piece of marked(`progression  verse\n${snippet}`)) expect(piece.tokenType).toBe(tokenType);
});

test('a chord is coloured whole in any spelling that stands in one piece: in bars, in a list and behind @', () => {
  const written = SPELLINGS.flatMap(([, , spellings]) => spellings).filter((spelling) => !/[\s,]/.test(spelling));
  expect(written.length).toBeGreaterThan(700);
  for (const name of written) {
    checkScope(`progression  verse\n  | ⟦${name}⟧ | G |`, 'entity.name.type.chord');
    checkScope(`show  ⟦${name}⟧`, 'entity.name.type.chord');
    checkScope(`> Hold @⟦${name}⟧.`, 'entity.name.tag.mention');
  }
});

test('a block ends at the next statement, not at an empty line or a remark at the margin', () => {
  checkScope('pattern  roll\n  pick  4p\n\n// a remark\n  strum  ⟦D⟧ U', 'support.function.stroke');
  for (const piece of marked('pattern  roll\nkey  C\n  ⟦strum⟧  D')) expect(piece.scopes).toEqual(['text.handspan']);
});

test('an address is no mention', () => {
  for (const piece of marked('> Write to ada⟦@fenn⟧.example'))
    expect(piece.scopes.at(-1)).toBe('string.unquoted.prose.handspan');
});

const MARGIN_KEYWORDS = new Set(['lesson']);
const everyKeyword = Object.entries(KEYWORDS).flatMap(([block, keywords]) =>
  keywords.map(({ word }) => ({ block: block as Block, word })),
);

test.each(everyKeyword)('$word is a keyword in $block', ({ block, word }) => {
  const lesson = MARGIN_KEYWORDS.has(block) ? `⟦${word}⟧ x` : `${block}  x\n  ⟦${word}⟧`;
  for (const piece of marked(lesson))
    expect(piece.scopes.at(-1)).toMatch(/^keyword\.(control\.statement|other\.(row|directive))\.handspan$/);
});

test('every scope is one that themes know, by its first part', () => {
  const roots = new Set([
    'text',
    'meta',
    'comment',
    'constant',
    'entity',
    'keyword',
    'markup',
    'punctuation',
    'string',
    'support',
    'variable',
  ]);
  const sample = everyKeyword
    .map(({ block, word }) => (MARGIN_KEYWORDS.has(block) ? `${word}  C 0-0-0-3` : `${block}  x\n  ${word}  4p D 1:5`))
    .join('\n');
  const used = new Set(tokenize(grammar, sample).flatMap((line) => line.flatMap((piece) => piece.scopes)));
  for (const scope of used) expect(roots).toContain(scope.split('.')[0]);
});
