import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, test } from 'vitest';
import { problemsOf } from '../../shared/lesson/check/problems.ts';
import { type LessonDocument, openDocument } from '../../shared/lesson/document.ts';
import { lessonOf } from '../../shared/lesson/model/lesson.ts';
import { ALL_CONSTRUCTS, constructsIn } from './constructs.ts';

const folder = new URL('../../client/samples/', import.meta.url);

interface Sample {
  readonly file: string;
  readonly document: LessonDocument;
}
const samples: readonly Sample[] = readdirSync(folder)
  .filter((file) => file.endsWith('.lesson'))
  .map((file) => ({ file, document: openDocument(readFileSync(new URL(file, folder), 'utf8')) }));

/** `2-river-steps.lesson:14 warning reach.stretched: A stretch …` for everything that is more than advice. */
function faultsIn({ file, document }: Sample): readonly string[] {
  return problemsOf(document)
    .filter(({ severity }) => severity === 'error' || severity === 'warning')
    .map(({ severity, code, message, span }) => {
      const line = document.text.slice(0, span.start).split('\n').length;
      return `${file}:${line} ${severity} ${code}: ${message}`;
    });
}

test('the term is seven lessons in order', () => {
  expect(samples.map(({ file }) => file[0])).toEqual(['1', '2', '3', '4', '5', '6', '7']);
});

test('the term is for the instruments and meters that it says', () => {
  const facts = samples.map(({ document }) => {
    const { instrument, meter } = lessonOf(document).settings;
    return `${instrument.name} ${meter.counts}/${meter.unit}`;
  });
  expect(facts).toEqual([
    'tenor ukulele, high G 4/4',
    'tenor ukulele, low G 4/4',
    'baritone ukulele 4/4',
    'tenor ukulele, high G 6/8',
    'tuned G4 C4 E4 A4 scale 380 mm frets 15 3/4',
    'guitar, capo 2 4/4',
    'tenor ukulele, high G 4/4',
  ]);
});

describe('no lesson has an error', () => {
  test.each(samples.map((sample) => [sample.file, sample] as const))('%s', (_file, sample) => {
    expect(faultsIn(sample).filter((fault) => fault.includes(' error '))).toEqual([]);
  });
});

test('the term has one warning, a stretch, and a remark above it says why', () => {
  const faults = samples.flatMap((sample) => faultsIn(sample).map((fault) => ({ fault, sample })));
  expect(faults.map(({ fault }) => fault.replace(/:\d+ /, ' ').replace(/: .*/, ''))).toEqual([
    '6-last-tram.lesson warning reach.stretched',
  ]);
  const [only] = faults;
  const line = Number(/:(\d+) /.exec(only?.fault ?? '')?.[1]);
  expect(only?.sample.document.text.split('\n')[line - 2]).toMatch(/^\/\/ /);
});

test('the lessons use every construct of the language between them', () => {
  const used = new Set(samples.flatMap(({ document }) => [...constructsIn(document)]));
  expect(ALL_CONSTRUCTS.filter((construct) => !used.has(construct))).toEqual([]);
});

test.each(samples.map((sample) => [sample.file, sample] as const))(
  '%s gives the caution that belongs to a stretch',
  (_file, { document }) => {
    const prose = document.text
      .split('\n')
      .filter((line) => line.trimStart().startsWith('>'))
      .join(' ');
    expect(prose).toMatch(/warm/i);
    expect(prose).toMatch(/hurts?|pain/i);
    expect(prose).toMatch(/stop/i);
  },
);

test.each(samples.map((sample) => [sample.file, sample] as const))(
  'every chord, pattern and tune of %s is used',
  (_file, { document }) => {
    const { definitions } = lessonOf(document);
    const names = [
      ...definitions.chords.keys(),
      ...definitions.progressions.keys(),
      ...definitions.patterns.keys(),
      ...[...definitions.melodies].filter(([, [first]]) => first?.statement.inside === undefined).map(([name]) => name),
    ];
    const unused = names.filter((name) => document.text.split(/[\s,@|:]+/).filter((word) => word === name).length < 2);
    expect(unused).toEqual([]);
  },
);
