import { listed } from '../../text/counted.ts';
import { rolesOfParts } from '../../theory/chord-parts.ts';
import { chordTones, parseChordSymbol, printChordSymbol, type Tone } from '../../theory/chord-symbol.ts';
import { pitchClass, printNote } from '../../theory/note.ts';
import { type Role, roleInWords, sameRole } from '../../theory/role.ts';
import type { FamilyChord } from './request.ts';

/**
 * What a shape lacks, by whose tones they are. Of the asked chord, or of the name that it got instead: a Bm7 without its fifth is heard
 * as one, but the C that stands for an Am7 lacks nothing, though the Am7 has no root.
 */
interface Loss {
  /** Tones that the new name promises, too. */
  readonly ofName: readonly Role[];
  /** Tones of the asked chord that the new name does not promise, and does not tell by itself. */
  readonly ofAsked: readonly Tone[];
}

function lossOf({ chord, as, omits }: Pick<FamilyChord, 'chord' | 'as' | 'omits'>): Loss {
  const tones = chordTones(chord).filter(({ role }) => omits.some((lost) => sameRole(lost, role)));
  const name = parseChordSymbol(as);
  if (!name.ok || pitchClass(name.value.root) !== pitchClass(chord.root)) return { ofName: [], ofAsked: tones };
  const promised = rolesOfParts(name.value);
  const isPromised = ({ role }: Tone) => promised.some((one) => sameRole(one, role));
  // `sus4`, `5` and `no3` say themselves that there is no third.
  const tellsItself = ({ role }: Tone) =>
    (role.degree === 3 && !promised.some(({ degree }) => degree === 3)) ||
    name.value.omissions.some(({ degree }) => degree === role.degree);
  return {
    ofName: tones.filter(isPromised).map(({ role }) => role),
    ofAsked: tones.filter((tone) => !isPromised(tone) && !tellsItself(tone)),
  };
}

/** What the names of some chords do not tell of tones that are missing: `Bm7 and Em7 have no fifth`, `for Am7 its root A is missing`. */
export function tellLosses(chords: readonly Pick<FamilyChord, 'chord' | 'as' | 'omits'>[]): readonly string[] {
  const byLoss = new Map<string, string[]>();
  const ofAsked: string[] = [];
  for (const one of chords) {
    const loss = lossOf(one);
    const lost = listed(loss.ofName.map(roleInWords));
    if (lost !== '') byLoss.set(lost, [...(byLoss.get(lost) ?? []), one.as]);
    if (loss.ofAsked.length === 0) continue;
    const are = loss.ofAsked.length === 1 ? 'is' : 'are';
    ofAsked.push(`for ${printChordSymbol(one.chord)} its ${listed(loss.ofAsked.map(toneInWords))} ${are} missing`);
  }
  const ofNames = [...byLoss].map(
    ([tones, names]) => `${listed(names)} ${names.length === 1 ? 'has' : 'have'} no ${tones}`,
  );
  return [...ofNames, ...ofAsked];
}

/** The same behind the name of one chord: `without its fifth`, `without the root A of Am7`. Nothing where nothing is missing. */
export function tellLoss(one: Pick<FamilyChord, 'chord' | 'as' | 'omits'>): string | undefined {
  const { ofName, ofAsked } = lossOf(one);
  const told = [
    ...(ofName.length === 0 ? [] : [`without its ${listed(ofName.map(roleInWords))}`]),
    ...(ofAsked.length === 0
      ? []
      : [`without the ${listed(ofAsked.map(toneInWords))} of ${printChordSymbol(one.chord)}`]),
  ];
  return told.length === 0 ? undefined : told.join(' and ');
}

function toneInWords({ role, note }: Tone): string {
  return `${roleInWords(role)} ${printNote(note)}`;
}
