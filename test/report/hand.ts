import { fingerList } from '../../shared/hand/finger.ts';
import { printHand } from '../../shared/hand/hand.ts';
import {
  type BeyondReach,
  type Difference,
  type DifferenceKind,
  FIGURES,
  type FingeringFigures,
} from '../hand/fingering-figures.ts';
import { share, table } from './markdown.ts';

const KINDS: readonly (readonly [DifferenceKind, string])[] = [
  ['strained', 'the set stretches this hand; our first does not, or not as far'],
  ['more-barres', 'the set lays more fingers flat; ours are tips'],
  ['fewer-barres', 'the set uses tips; ours lays a finger flat'],
  ['other-barres', 'as many fingers flat, across other strings'],
  ['other-fingers', 'the same places, other fingers'],
];

/** How many differences of one kind are shown. */
const SHOWN = 4;

/** Our fingerings against an open data set's, as Markdown. A test keeps the checked-in copy beside this module up to date. */
export function handReport(): string {
  return [
    '# Fingerings, measured',
    'Made by `npm run report:hand`; a test fails when it is out of date or a figure falls below what is promised.',
    'Shapes and fingers: @tombatossals/chords-db 0.5.1 (MIT). Fingers are in chart order, 0 where no finger is; x is a muted ' +
      'string. “First” means that none of our fingerings is better than the set’s; one of equal cost may stand beside it. ' +
      'Shapes whose fingers in the set are not possible count as missed. Reach is an estimate for a typical hand.',
    table(
      ['what', 'promised', ...FIGURES.map(({ name, shapes }) => `${name}, ${shapes} shapes`)],
      [
        ['the set’s fingering is our first', '75 %', ...FIGURES.map(({ first, shapes }) => share(first, shapes))],
        ['it is among our first three', '90 %', ...FIGURES.map(({ amongThree, shapes }) => share(amongThree, shapes))],
      ],
    ),
    ...FIGURES.flatMap(sectionOf),
  ].join('\n\n');
}

function sectionOf(figures: FingeringFigures): readonly string[] {
  const { name, instrument, hand, differences, impossible } = figures;
  return [
    `## ${name}: ${printHand(hand)} hand, scale of ${instrument.scaleLengthMm} mm`,
    '### Where our first fingering is another',
    table(
      ['difference', 'shapes', 'fourth or later', 'for instance'],
      KINDS.map(([kind, meaning]) => {
        const those = differences.filter((difference) => difference.kind === kind);
        return [meaning, those.length, those.filter(({ before }) => before >= 3).length, examplesOf(those)];
      }),
    ),
    '### Fingers of the set that hands cannot place',
    table(
      ['shape', 'frets', 'fingers', 'why'],
      impossible.map(({ entry, shape, fingers, why }) => [entry, shape, fingers, why]),
    ),
    '### Out of reach',
    ...reachParts(figures),
  ];
}

/** The first shapes whose fingers differ in a way that was not shown yet. */
function examplesOf(differences: readonly Difference[]): string {
  const shown = new Map<string, string>();
  for (const { shape, theirs, ours } of differences) {
    const fingers = `${theirs}, ours ${ours}`;
    if (shown.size < SHOWN && !shown.has(fingers)) shown.set(fingers, `${shape} with ${fingers}`);
  }
  return [...shown.values()].join('; ');
}

function reachParts({ hand, beyond, beyondLarge, tooManyFingers }: FingeringFigures): readonly string[] {
  const most = tooManyFingers.map(({ entry, shape }) => `${entry} (${shape})`);
  return [
    ...(beyondLarge.length === 0 ? ['For a large hand: none.'] : ['For a large hand:', reachTable(beyondLarge)]),
    ...(beyond.length === 0
      ? [`For a ${printHand(hand)} hand: none.`]
      : [`For a ${printHand(hand)} hand, with the fingering that comes nearest:`, reachTable(beyond)]),
    ...(most.length === 0 ? [] : [`More than four fingers for any hand: ${most.join(', ')}.`]),
  ];
}

function reachTable(beyond: readonly BeyondReach[]): string {
  return table(
    ['shape', 'frets', 'fingers', 'pair', 'mm', 'limit, mm'],
    beyond.map(({ entry, shape, fingers, widest: { pair, reachMm, limit } }) => [
      entry,
      shape,
      fingers,
      fingerList(pair),
      reachMm.toFixed(1),
      limit.greatestMm.toFixed(1),
    ]),
  );
}
