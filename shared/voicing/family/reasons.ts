import { describeHand } from '../../hand/hand.ts';
import { soundingMidi } from '../../neck/pitches.ts';
import { printShape, type Shape } from '../../neck/shape.ts';
import { listed } from '../../text/counted.ts';
import { printChordSymbol } from '../../theory/chord-symbol.ts';
import { printNote } from '../../theory/note.ts';
import { printRole, type Role } from '../../theory/role.ts';
import type { InSteps } from '../in-steps.ts';
import type { Allowance } from './allowance.ts';
import type { AskedFamily } from './asked-family.ts';
import type { Candidate, FamilyLimits } from './candidates.ts';
import { choicesFor } from './choices.ts';
import { familyName } from './names.ts';
import { faultOfPin, tellPinFault } from './pinned.ts';
import { soundFit, type WantedChord, wantedChord } from './sounding.ts';
import { tellStrings } from './why.ts';

/**
 * For each chord that has no shape, what stands in the way and what would help: every limit is loosened by itself, and what that
 * would give is told. `No shape of G within frets 0 to 5 lets strings 1 and 2 ring. Within 0 to 7 there would be 7-7-0-0.`
 */
export function* reasonsAgainst(
  asked: AskedFamily,
  choices: readonly (readonly Candidate[])[],
): InSteps<readonly string[]> {
  const { wanted, pins } = asked;
  const reasons: string[] = [];
  for (const [chord, one] of wanted.entries()) {
    if (choices[chord]?.length !== 0) continue;
    yield;
    const pin = pins[chord];
    reasons.push(pin === undefined ? reasonAgainst(asked, one) : reasonAgainstPin(asked, one, pin));
  }
  return reasons;
}

function reasonAgainst(asked: AskedFamily, wanted: WantedChord): string {
  const { limits, held } = asked;
  const { ring, within, hardest } = limits;
  const offers = [
    ...(within === undefined ? [] : [wider(asked, wanted, within)]),
    ...ring.map((string) => withStopped(asked, wanted, string)),
    ...(ring.length > 1 ? [withAllStopped(asked, wanted)] : []),
    withAdded(asked, wanted),
    ...(hardest === undefined ? [] : [found(asked, wanted, { ...limits, hardest: undefined }, 'With harder shapes')]),
    found(asked, wanted, { ...limits, hand: 'large' }, 'For a large hand'),
  ].flatMap((offer) => offer ?? []);
  const strangers = ring.flatMap((string) => strangerOn(asked, wanted, string) ?? []);
  const none =
    offers.length > 0
      ? []
      : choicesFor(held, { ...limits, ring: [], within: undefined, hardest: undefined }, wanted, undefined).length > 0
        ? ['No single limit is to blame: loosen the range and the strings that ring together.']
        : [`The strings of this instrument cannot sound ${nameOf(wanted)}.`];
  return [`No shape of ${nameOf(wanted)} ${toldLimits(wanted, limits)}.`, ...strangers, ...offers, ...none].join(' ');
}

function nameOf({ symbol }: WantedChord): string {
  return printChordSymbol(symbol);
}

/** `within frets 0 to 5 lets strings 1 and 2 ring with what is allowed` */
function toldLimits({ allow }: WantedChord, { within, ring, hand, hardest }: FamilyLimits): string {
  const range = within === undefined ? [] : [`within frets ${within[0]} to ${within[1]}`];
  const rings = ring.length === 0 ? 'is there' : `lets ${tellStrings([...ring].sort((a, b) => a - b))} ring`;
  const nothing = !allow.any && allow.adds.length + allow.suspensions.length + allow.omits.length === 0;
  const level = hardest === undefined ? [] : [`up to a difficulty of ${hardest}`];
  return [
    ...range,
    rings,
    nothing ? 'with nothing added' : 'with what is allowed',
    ...level,
    `for ${describeHand(hand)}`,
  ].join(' ');
}

/** The string that is to ring and sounds no tone of the chord, nor one that may come on top. */
function strangerOn({ held }: AskedFamily, wanted: WantedChord, string: number): string | undefined {
  const strings = held.openStrings.length;
  const only: Shape = held.openStrings.map((_, at) => (at === strings - string ? 0 : 'muted'));
  const midi = soundingMidi(held, only)[strings - string];
  const open = held.openStrings[strings - string];
  if (midi === undefined || open === undefined) return undefined;
  const tone = 1 << ((midi - wanted.root + 120) % 12);
  const bass = wanted.bass === undefined ? 0 : 1 << wanted.bass;
  if ((tone & (wanted.own | bass | wanted.adds | wanted.suspensions)) !== 0) return undefined;
  return `String ${string} sounds ${printNote(open)}, which is no tone of ${nameOf(wanted)}.`;
}

/** The range widened by as few frets as possible. */
function wider(asked: AskedFamily, wanted: WantedChord, [low, high]: readonly [number, number]): string | undefined {
  const { held, limits } = asked;
  const beyond = (shape: Shape) =>
    shape.reduce<number>(
      (most, fret) => (fret === 'muted' || fret === 0 ? most : Math.max(most, low - fret, fret - high)),
      0,
    );
  const [best] = [...choicesFor(held, { ...limits, within: undefined }, wanted, undefined)].sort(
    (one, other) => beyond(one.shape) - beyond(other.shape),
  );
  if (best === undefined) return undefined;
  const frets = best.shape.filter((fret) => fret !== 'muted' && fret > 0).map(Number);
  return offered(asked, wanted, best, `Within ${Math.min(low, ...frets)} to ${Math.max(high, ...frets)}`);
}

function withStopped(asked: AskedFamily, wanted: WantedChord, string: number): string | undefined {
  const ring = asked.limits.ring.filter((number) => number !== string);
  return found(asked, wanted, { ...asked.limits, ring }, `If string ${string} need not ring`);
}

/** Where it does not help to stop one of the strings, it may help to stop all. */
function withAllStopped(asked: AskedFamily, wanted: WantedChord): string | undefined {
  const { ring } = asked.limits;
  const alone = ring.some((string) => withStopped(asked, wanted, string) !== undefined);
  return alone ? undefined : found(asked, wanted, { ...asked.limits, ring: [] }, 'If no string need ring');
}

/** As few tones as possible on top, in words that may be allowed. */
function withAdded({ held, limits, request }: AskedFamily, wanted: WantedChord): string | undefined {
  const anything: Allowance = { ...wanted.allow, any: true };
  const [best] = [...choicesFor(held, limits, wantedChord(wanted.symbol, anything, 0xfff), undefined)]
    .filter(({ shape }) => isStillTheChord(wanted, soundingMidi(held, shape)))
    .sort((one, other) => one.fit.adds.length - other.fit.adds.length);
  if (best === undefined) return undefined;
  const words = best.fit.adds.map((role) => wordFor(role, best.fit.omits));
  const becomes = familyName(held, best.shape, wanted.symbol, request.key === undefined ? {} : { key: request.key }).as;
  return `With ${listed(words)} allowed there would be ${printShape(best.shape)}, ${becomes}.`;
}

/** With everything allowed a musician must still call it by the chord's root. */
function isStillTheChord({ symbol }: WantedChord, midi: readonly (number | undefined)[]): boolean {
  const everything = Array.from({ length: 12 }, (_, above): Role => ({ degree: 1, alter: above }));
  const allow = { any: false, adds: everything, suspensions: SUSPENSIONS, omits: [] };
  return soundFit(wantedChord(symbol, allow, 0xfff), midi) !== undefined;
}

const SUSPENSIONS: readonly Role[] = [
  { degree: 2, alter: 0 },
  { degree: 4, alter: 0 },
];

/** The word that allows a tone, as `readAllowance` reads it. */
function wordFor(role: Role, omits: readonly Role[]): string {
  const { degree, alter } = role;
  if (degree < 5 && omits.some((omitted) => omitted.degree === 3)) return `sus${degree}`;
  if (degree === 7) return alter === 0 ? 'maj7' : '7';
  if (degree === 6 && alter === 0) return '6';
  return `add${printRole(role, 'letters')}`;
}

function found(asked: AskedFamily, wanted: WantedChord, limits: FamilyLimits, how: string): string | undefined {
  const [best] = choicesFor(asked.held, limits, wanted, undefined);
  return best === undefined ? undefined : offered(asked, wanted, best, how);
}

function offered({ held, request }: AskedFamily, { symbol }: WantedChord, { shape }: Candidate, how: string): string {
  const { as } = familyName(held, shape, symbol, request.key === undefined ? {} : { key: request.key });
  const becomes = as === printChordSymbol(symbol) ? '' : `, ${as}`;
  return `${how} there would be ${printShape(shape)}${becomes}.`;
}

/** A pinned shape is never changed: it is told what it breaks. */
function reasonAgainstPin(asked: AskedFamily, wanted: WantedChord, pin: Shape): string {
  const { held, limits } = asked;
  const told = `${nameOf(wanted)} is kept as ${printShape(pin)}`;
  const fault = faultOfPin(pin, held, limits);
  if (fault?.kind === 'strings') {
    return `${told}, which has ${pin.length} frets for ${held.openStrings.length} strings.`;
  }
  const breaks = fault === undefined ? `which is out of reach for ${describeHand(limits.hand)}` : tellPinFault(fault);
  const [best] = choicesFor(held, limits, wanted, undefined);
  const without =
    best === undefined ? 'Without that there is no shape of it either.' : offered(asked, wanted, best, 'Without that');
  return `${told}, ${breaks}. ${without}`;
}
