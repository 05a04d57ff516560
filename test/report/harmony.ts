import { spellPitchClass } from '../../shared/theory/key.ts';
import { pitchClass, printNote } from '../../shared/theory/note.ts';
import { nameSounding } from '../../shared/voicing/naming.ts';
import { HIGH_G, instrument } from '../neck/playing.ts';
import { readerDisagreements, readerFigures } from '../theory/reader-comparison.ts';
import { GUITAR_SHAPES, type LabelledShape, soundsOf, UKULELE_SHAPES } from '../voicing/data-set.ts';
import { finderOutcomes, type Outcome } from '../voicing/finder-figures.ts';
import { type NamingFigures, namingFigures } from '../voicing/naming-figures.ts';
import { share, table } from './markdown.ts';

/** What naming and finding do on the open data set of shapes, and where readers of chord names disagree: Markdown. */
export function harmonyReport(): string {
  const files: readonly (readonly [string, NamingFigures])[] = [
    ['ukulele', namingFigures(UKULELE_SHAPES)],
    ['guitar', namingFigures(GUITAR_SHAPES)],
  ];
  return [
    '# Harmony, measured',
    'Made by `npm run report:harmony`; a test fails when it is out of date or a figure falls below what is promised.',
    'Shapes and labels: @tombatossals/chords-db 0.5.1 (MIT). The set is a net, not a judge: what contradicts itself is listed below. Its label “alt” is read as (♭5), because all its shapes sound root, third and lowered fifth alone; three guitar shapes of “7sg”, which nobody knows, are left out.',
    '## Names',
    namesTable(files),
    'The key or cadence that decides: a major chord at home, a minor one at home; whatever has a minor seventh, and an augmented chord, before the chord a fifth below; a diminished chord before the chord a semitone above; a suspension before its own chord; a chord over a stroke between two of its plain chord; a minor eleventh at home.',
    '## Shapes that fall short, by label',
    ...files.flatMap(([name, figures]) => shortTable(name, figures)),
    '## Errors of the set: shapes with a note that their label does not have',
    table(
      ['file', 'label and number', 'sounds', 'foreign', 'best name here'],
      files.flatMap(([name, { contradicting }]) => contradicting.map((shape) => contradiction(name, shape))),
    ),
    '## Shapes found',
    'Every shape of the set is looked for under its label: at most five neighbouring frets, four fingers, the whole neck, silent strings anywhere.',
    findingTable(),
    '## Readers of chord names',
    'Two independent readers, `tonal` 6.4.3 and `chord-symbol` 4.0.0, read the same spellings; compared are the notes, not the letters.',
    table(
      ['reader', 'spellings', 'knows', 'hears the same notes'],
      readerFigures().map(({ reader, spellings, read, agreed }) => [reader, spellings, read, share(agreed, read)]),
    ),
    '### Where they hear other notes, and why',
    table(['reader', 'why', 'spellings'], disagreementRows()),
  ].join('\n\n');
}

function findingTable(): string {
  const outcomes = [
    finderOutcomes(HIGH_G, UKULELE_SHAPES),
    finderOutcomes(instrument('guitar'), GUITAR_SHAPES),
  ] as const;
  const kinds = [...new Set(outcomes.flatMap((each) => Object.keys(each) as Outcome[]))];
  return table(
    ['what became of it', 'ukulele', 'guitar'],
    kinds.map((kind) => [kind, ...outcomes.map((each) => each[kind] ?? 0)]),
  );
}

/** A row for each reason of each reader, with all spellings that it explains. */
function disagreementRows(): readonly (readonly string[])[] {
  const rows = new Map<string, { reader: string; reason: string; spellings: Set<string> }>();
  for (const { reader, spelling, reason = 'nobody has looked yet' } of readerDisagreements()) {
    const place = `${reader} ${reason}`;
    const row = rows.get(place) ?? { reader, reason, spellings: new Set() };
    rows.set(place, row);
    row.spellings.add(spelling);
  }
  return [...rows.values()].map(({ reader, reason, spellings }) => [reader, reason, [...spellings].join(', ')]);
}

function namesTable(files: readonly (readonly [string, NamingFigures])[]): string {
  const [first] = files;
  const rows = (first?.[1].measures ?? []).map(({ what, least }, index) => [
    what,
    least === undefined ? '' : `${least * 100} %`,
    ...files.map(([, figures]) => {
      const measure = figures.measures[index];
      return measure === undefined ? '' : share(measure.held, measure.of);
    }),
  ]);
  return table(['what', 'promised', ...files.map(([name, { shapes }]) => `${name}, ${shapes} shapes`)], rows);
}

function shortTable(name: string, { measures }: NamingFigures): readonly string[] {
  const rows = measures
    .filter(({ least, short }) => least !== undefined && short.length > 0)
    .map(({ what, short }) => [what, byLabel(short)]);
  return rows.length === 0 ? [] : [`### ${name}`, table(['what', 'labels, with the number of shapes'], rows)];
}

/** `C6 12` for twelve shapes of the label on any root. */
function byLabel(shapes: readonly LabelledShape[]): string {
  const counts = new Map<string, number>();
  for (const { entry } of shapes) {
    const label = entry.split(' ')[1] ?? entry;
    counts.set(label, (counts.get(label) ?? 0) + 1);
  }
  return [...counts].map(([label, count]) => `${label} (${count})`).join(', ');
}

function contradiction(file: string, { entry, label, midi }: LabelledShape): readonly string[] {
  const sounds = soundsOf(label);
  const notes = midi.map((note) => spellPitchClass(note % 12));
  const foreign = new Set(notes.filter((note) => !sounds.has(pitchClass(note))).map((note) => printNote(note)));
  const best = nameSounding(midi)[0]?.text ?? '';
  return [file, entry, notes.map((note) => printNote(note)).join(' '), [...foreign].join(' '), best];
}
