import { spellPitchClass } from '../../shared/theory/key.ts';
import { pitchClass, printNote } from '../../shared/theory/note.ts';
import { nameSounding } from '../../shared/voicing/naming.ts';
import { GUITAR_SHAPES, type LabelledShape, soundsOf, UKULELE_SHAPES } from '../voicing/data-set.ts';
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
  ].join('\n\n');
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
