import { printFingers } from '../../shared/assist/hold-lines.ts';
import { difficultyOfShape } from '../../shared/hand/difficulty.ts';
import type { Finger } from '../../shared/hand/finger.ts';
import { parseHand, printHand, USUAL_HAND } from '../../shared/hand/hand.ts';
import { CAUTION_ON_STRETCH } from '../../shared/hand/reach.ts';
import { roundedPoints, tellDifficulty } from '../../shared/hand/tell-difficulty.ts';
import { neckAboveCapo } from '../../shared/neck/capo.ts';
import type { Instrument } from '../../shared/neck/instrument.ts';
import { parseInstrument } from '../../shared/neck/instruments.ts';
import { printShape } from '../../shared/neck/shape.ts';
import { readFrets } from '../../shared/neck/shape-reader.ts';
import type { ChordSymbol } from '../../shared/theory/chord-symbol.ts';
import { parseChordSymbol, printChordSymbol, sameChord } from '../../shared/theory/chord-symbol.ts';
import { parseKey } from '../../shared/theory/key.ts';
import { printRole, type Role } from '../../shared/theory/role.ts';
import { readAllowance } from '../../shared/voicing/family/allowance.ts';
import { familiesOf } from '../../shared/voicing/family/families.ts';
import { FEWEST_CHORDS, MOST_CHORDS, MOST_FAMILIES, USUAL_FAMILIES } from '../../shared/voicing/family/family-table.ts';
import { tellLoss } from '../../shared/voicing/family/loss.ts';
import { tellOtherChords } from '../../shared/voicing/family/other-chord.ts';
import type {
  Family,
  FamilyAnswer,
  FamilyChord,
  FamilyCost,
  FamilyRequest,
  Pin,
} from '../../shared/voicing/family/request.ts';
import { asked, countAsked, fretsAsked, onNeck, stringsAsked, USUAL_INSTRUMENT } from './asked.ts';
import { readWords } from './read-words.ts';
import { type Command, UsageError } from './terminal.ts';

/** One chord of a family as scripts read it; accidentals are letters, as in the name. */
interface ShapeForScripts {
  readonly chord: string;
  readonly as: string;
  /** The name that comes first for what sounds, where that is on another root. */
  readonly also?: string;
  readonly shape: string;
  readonly adds: readonly string[];
  readonly omits: readonly string[];
  /** In chart order, 0 for a string that no finger makes sound; absent where no hand holds it so. */
  readonly fingers?: readonly (Finger | 0)[];
  /** 0 to 10; absent with the fingers. */
  readonly difficulty?: number;
}

interface SolutionForScripts {
  /** In points, 100 for one finger that differs between neighbours. */
  readonly cost: number;
  readonly parts: Omit<FamilyCost, 'total'>;
  readonly why: string;
  readonly shapes: readonly ShapeForScripts[];
}

interface AnswerForScripts {
  readonly on: string;
  readonly hand: string;
  readonly solutions: readonly SolutionForScripts[];
  /** Why there is no solution, and what would help; absent where there is one. */
  readonly reasons?: readonly string[];
  /** What is to be said about kept shapes that make another chord; absent where there is nothing. */
  readonly remarks?: readonly string[];
}

export const family: Command = {
  usage:
    'handspan family CHORDS [--ring STRINGS] [--within A-B] [--allow WORDS] [--keep "CHORD SHAPE"] [--on INSTRUMENT] [--key KEY] [--hand HAND] [--count N] [--json]',
  summary: 'find shapes that look alike for a progression',
  details: `CHORDS is a progression of ${FEWEST_CHORDS} to ${MOST_CHORDS} chord names: "Em C G D". A chord that comes again is held the same way.
  --ring    numbers of strings that stay open and ring in every shape, as in "1 2"; string 1 is nearest the floor
  --within  the lowest and the highest fret that may be stopped, as in 0-10; open strings are free
  --allow   what may be added to a chord, each word as behind its root: "add9 6 6/9 maj7 7 add11"; what may stand for its third:
            sus2, sus4, or 5 where it may be left out; or any. Nothing is added where nothing is said
  --keep    a chord and the shape that it is to have, as in "G 0-7-7-0"; once for each such chord
  --on      the instrument, as a lesson says it; "${USUAL_INSTRUMENT}" where nothing is said
  --key     the key, such as "E minor": tones of it are added sooner, and names are spelled by it
  --hand    small, medium, large, child, or its span from thumb to little finger in mm; "${printHand(USUAL_HAND)}" where nothing is said
  --count   so many families at most, ${USUAL_FAMILIES} where nothing is said
  --json    print {on, hand, solutions: [{cost, parts, why, shapes: [{chord, as, also, shape, adds, omits, fingers, difficulty}]}],
            reasons, remarks}, best first; cost in points, 100 for one finger that differs between neighbours; as: what the shape is
            called there; also: its first name, where that is on another root; adds, omits: what sounds beyond the chord of
            the progression, and which of its tones do not, as degrees above its root; reasons only where there is no
            solution; remarks only where a kept shape is another chord than it stands for
The first is the best of all, each further one the best that differs from those before it in a third of its chords or more.
Frets count from the capo, and chords are named as they are held. Fingers and difficulty are estimates for a typical hand.
Exit status: 0 also where there is no family, which is then explained; 2 wrong call.`,

  async run(words, terminal) {
    const text = { type: 'string' } as const;
    const options = {
      on: text,
      key: text,
      ring: text,
      within: text,
      allow: text,
      keep: { type: 'string', multiple: true },
      hand: text,
      count: text,
      json: { type: 'boolean' },
    } as const;
    const { values, positionals } = readWords(words, options);
    const chords = chordsAsked(positionals);
    const instrument = asked('--on', parseInstrument(values.on ?? USUAL_INSTRUMENT));
    const hand = values.hand === undefined ? USUAL_HAND : asked('--hand', parseHand(values.hand));
    const request: FamilyRequest = {
      instrument,
      chords,
      hand,
      allow: asked('--allow', readAllowance(wordsIn(values.allow ?? ''))),
      pins: pinsAsked(values.keep ?? [], chords, instrument),
      count: values.count === undefined ? USUAL_FAMILIES : countAsked('--count', values.count, MOST_FAMILIES),
      ...(values.ring === undefined ? {} : { ring: stringsAsked(values.ring, instrument) }),
      ...(values.within === undefined ? {} : { within: fretsAsked(values.within, instrument) }),
      ...(values.key === undefined ? {} : { key: asked('--key', parseKey(values.key)) }),
    };
    const answer = familiesOf(request);
    const remarks = tellOtherChords(neckAboveCapo(instrument), request);
    terminal.out(
      values.json === true
        ? `${JSON.stringify(forScripts(instrument, printHand(hand), answer, remarks), undefined, 2)}\n`
        : printed(chords, instrument, answer, remarks),
    );
    return 0;
  },
};

function wordsIn(text: string): readonly string[] {
  return text.split(/[\s,]+/).filter((word) => word !== '');
}

/**
 * What bars copied from a lesson have besides chords: bar lines and repeats, strokes for further beats, % for the bar before, endings,
 * meters and rests. What shapes are sought for is the same without.
 */
const NO_CHORDS = /^(?:\/|%|\d+\/\d+|NC|N\.C\.|(?:[1-9](?:st|nd|rd|th)\+?)+)$/;

/** The chords come as one word or as several, with bar lines or without. */
function chordsAsked(words: readonly string[]): readonly ChordSymbol[] {
  const bars = words
    .join(' ')
    .replace(/^\s*count\s+\S+(?=\s)/, '')
    .replaceAll(/:?\|+:?/g, ' ');
  const names = wordsIn(bars).filter((word) => !NO_CHORDS.test(word));
  if (names.length === 0) throw new UsageError('say the progression');
  if (names.length < FEWEST_CHORDS) throw new UsageError('say two chords at least: one alone has no family');
  if (names.length > MOST_CHORDS) {
    throw new UsageError(`say ${MOST_CHORDS} chords at most; these are ${names.length}`);
  }
  return names.map((name) => asked('CHORDS', parseChordSymbol(name)));
}

function pinsAsked(keeps: readonly string[], chords: readonly ChordSymbol[], instrument: Instrument): readonly Pin[] {
  const pins = keeps.map((keep) => pinAsked(keep, chords, instrument));
  const twice = pins.find(({ chord }, at) => pins.findIndex((other) => sameChord(other.chord, chord)) < at);
  if (twice !== undefined) throw new UsageError(`--keep: ${printChordSymbol(twice.chord)} is kept twice`);
  return pins;
}

/** `G 0-7-7-0`: a chord of the progression, and a shape for it. */
function pinAsked(text: string, chords: readonly ChordSymbol[], instrument: Instrument): Pin {
  const [name, ...frets] = wordsIn(text);
  if (name === undefined || frets.length === 0) {
    throw new UsageError(`--keep: "${text}" is not a chord and its shape, as in "G 0-7-7-0"`);
  }
  const chord = asked('--keep', parseChordSymbol(name));
  if (!chords.some((other) => sameChord(chord, other))) {
    throw new UsageError(`--keep: there is no ${printChordSymbol(chord)} in the progression`);
  }
  const { shape } = asked('--keep', readFrets(frets.join(' '), instrument.openStrings.length));
  return { chord, shape: onNeck('--keep', instrument, shape) };
}

function forScripts(
  { name: on }: Instrument,
  hand: string,
  answer: FamilyAnswer,
  remarks: readonly string[],
): AnswerForScripts {
  const told = remarks.length === 0 ? {} : { remarks };
  if (answer.kind === 'none') return { on, hand, solutions: [], reasons: answer.reasons, ...told };
  return { on, hand, solutions: answer.families.map(solutionForScripts), ...told };
}

function solutionForScripts({ chords, cost, why }: Family): SolutionForScripts {
  const { total, ...parts } = cost;
  return { cost: total, parts, why, shapes: chords.map(shapeForScripts) };
}

function shapeForScripts({ chord, as, also, shape, adds, omits, fingering }: FamilyChord): ShapeForScripts {
  return {
    chord: printChordSymbol(chord),
    as,
    ...(also === undefined ? {} : { also }),
    shape: printShape(shape),
    adds: rolesTold(adds),
    omits: rolesTold(omits),
    ...(fingering === undefined
      ? {}
      : {
          fingers: fingering.fingers.map((finger) => finger ?? 0),
          difficulty: roundedPoints(difficultyOfShape(fingering).total),
        }),
  };
}

function rolesTold(roles: readonly Role[]): readonly string[] {
  return roles.map((role) => printRole(role, 'letters'));
}

function printed(
  chords: readonly ChordSymbol[],
  { name }: Instrument,
  answer: FamilyAnswer,
  remarks: readonly string[],
): string {
  const remarked = remarks.map((remark) => `  ${remark}\n`).join('');
  const head = `${chords.map((chord) => printChordSymbol(chord)).join(' ')} on ${name}:`;
  if (answer.kind === 'none') {
    return `${head} no family\n${remarked}${answer.reasons.map((reason) => `  ${reason}\n`).join('')}${CAUTION_ON_STRETCH}\n`;
  }
  const { families, settled } = answer;
  const told = families.map((one, at) => `\n${at + 1}. ${one.why}\n${linesOf(one).join('')}`);
  const many = families.length === 1 ? '1 family' : `${families.length} families, best first`;
  const unsettled = settled ? '' : '\nThe search was given up for want of time: there may be better ones.\n';
  return `${head} ${many}\n${remarked}${told.join('')}${unsettled}\nDifficulty is an estimate for a typical hand. ${CAUTION_ON_STRETCH}\n`;
}

/** Every chord once, in the order in which it first comes, in columns. */
function linesOf({ chords }: Family): readonly string[] {
  const once = chords.filter((one, at) => chords.findIndex(({ chord }) => sameChord(chord, one.chord)) === at);
  const names = once.map((one) => printChordSymbol(one.chord));
  const shapes = once.map(({ shape }) => printShape(shape));
  const widest = (words: readonly string[]) => Math.max(...words.map((word) => word.length));
  return once.map((one, at) => {
    const name = (names[at] ?? '').padEnd(widest(names));
    const shape = (shapes[at] ?? '').padEnd(widest(shapes));
    return `   ${name}  ${shape}  ${[toldName(one), tellLoss(one) ?? '', toldHold(one)].filter((part) => part !== '').join(', ')}\n`;
  });
}

function toldName({ chord, as, also }: FamilyChord): string {
  const becomes = as === printChordSymbol(chord) ? '' : `as ${as}`;
  return also === undefined ? becomes : `${becomes === '' ? as : becomes} (or ${also})`;
}

function toldHold({ fingering }: FamilyChord): string {
  if (fingering === undefined) return 'cannot be held';
  if (fingering.presses.length === 0) return 'no finger';
  const stretch = fingering.verdict === 'stretched' ? ', a stretch' : '';
  return `fingers ${printFingers(fingering)}${stretch}, ${tellDifficulty(difficultyOfShape(fingering))}`;
}
