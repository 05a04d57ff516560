import { freeName } from '../lesson/model/free-name.ts';
import { overNames } from '../lesson/model/over-names.ts';
import type { FamilyStatement } from '../lesson/syntax/statement.ts';
import { CHORD_STYLES } from '../theory/chord-style.ts';
import { type ChordSymbol, parseChordSymbol, printChordSymbol } from '../theory/chord-symbol.ts';
import type { Family, FamilyChord } from '../voicing/family/request.ts';
import { type ChordLine, spokenLine } from './chord-line.ts';
import { printFingers } from './hold-lines.ts';
import { shapeNames } from './written-names.ts';
import { laidOutText, remarked, sentencesOf, type WrittenPlace, type WrittenText } from './written-place.ts';

/**
 * A family as a teacher would write it: a `chord` line for each shape that is new, with its fingers, and the progression once more over
 * the new names. Words that are sung and sentences stay with the progression that they belong to.
 */
export function writtenFamily(place: WrittenPlace, statement: FamilyStatement, { chords, why }: Family): WrittenText {
  const { document, scope } = place;
  const wanted = statement.name?.text ?? UNNAMED;
  const names = shapeNames(document, scope, wanted.replace(/[^A-Za-z0-9-]/g, '') || UNNAMED);
  const nameOf = new Map<string, string>();
  const lines: string[] = [];
  const usual: ChordLine[] = [];
  for (const one of chords) {
    const asked = printChordSymbol(one.chord);
    if (nameOf.has(asked)) continue;
    const written = names.nameFor(symbolOf(one, document.chordStyle), one.shape);
    nameOf.set(asked, written.text);
    if (written.line !== undefined) lines.push(`${spokenLine(written.line)}${fingersOf(one)}`);
    if (written.usual !== undefined) usual.push(written.usual);
  }
  const progression = scope.progression(statement.from?.text ?? '');
  const name = freeName(scope, wanted, ['progression']);
  const inOrder = chords.map((one) => nameOf.get(printChordSymbol(one.chord)) ?? '');
  const text = laidOutText(place, [
    ...remarked(place),
    `// Found: ${why}.`,
    ...lines,
    ...(lines.length === 0 ? [] : ['']),
    ...(progression === undefined ? [] : overNames(scope, progression, name, inOrder)),
    ...sentencesOf(place),
  ]);
  return { text, usual };
}

/** What a family without a name of its own is called. */
const UNNAMED = 'family';

/** The honest name, written as the teacher likes names; a chord that is what it was keeps the name that the progression has for it. */
function symbolOf({ chord, as }: FamilyChord, style: keyof typeof CHORD_STYLES): ChordSymbol {
  if (as === printChordSymbol(chord)) return chord;
  const symbol = parseChordSymbol(as);
  if (!symbol.ok) return chord;
  const styled = parseChordSymbol(printChordSymbol(symbol.value, CHORD_STYLES[style]));
  return styled.ok ? styled.value : symbol.value;
}

function fingersOf({ fingering }: FamilyChord): string {
  return fingering === undefined || fingering.presses.length === 0 ? '' : `  fingers ${printFingers(fingering)}`;
}
