import { spoiledUnder } from '../../hand/barre.ts';
import { describeHand, type HandName } from '../../hand/hand.ts';
import { waysToHold } from '../../hand/kept-fingerings.ts';
import { CAUTION_IN_SHORT } from '../../hand/reach.ts';
import { tellReach } from '../../hand/tell-fingering.ts';
import { printShape, type Shape, stringNumber } from '../../neck/shape.ts';
import { capitalised } from '../../text/capital.ts';
import { printFingers } from './check-fingers.ts';
import { compareVerdicts, type HeldOnEdition, handsOn } from './held-on-editions.ts';

/** What a teacher would say about a shape that is not at ease everywhere: the hardest edition in full, then the others. */
export function tellHeld(worst: HeldOnEdition, others: readonly HeldOnEdition[]): string {
  const also = others.filter(({ verdict }) => verdict !== 'comfortable').map((held) => tellAlso(held, worst));
  const caution = worst.verdict === 'too-few-fingers' && also.length === 0 ? [] : [CAUTION_IN_SHORT];
  return [tellFully(worst), ...also, ...caution].join(' ');
}

function tellFully(held: HeldOnEdition): string {
  const { fingering, verdict, hand } = held;
  const widest = fingering?.widest;
  if (widest === undefined) return `${tellTooFew(held)} ${tellWho(held)}`.trim();
  const how = verdict === 'stretched' ? 'A stretch' : 'Too far';
  const told = `${how} ${placeOf(held)}. By estimate: ${lower(tellReach(widest, hand))}`;
  return `${told} ${tellOtherFingers(held) ?? tellWho(held)}`.trim();
}

/** Where the fingers that the lesson gives are the cause, other fingers matter more than other hands. */
function tellOtherFingers({ instrument, shape, hand, verdict }: HeldOnEdition): string | undefined {
  const [best] = waysToHold(instrument, shape, hand);
  if (best === undefined || compareVerdicts(best.verdict, verdict) >= 0) return undefined;
  return `With fingers ${printFingers(best)} it is ${best.verdict === 'comfortable' ? 'at ease' : 'a stretch'}.`;
}

/** `On the baritone ukulele of edition bari it is too far: 99 mm.` */
function tellAlso(held: HeldOnEdition, worst: HeldOnEdition): string {
  const widest = held.fingering?.widest;
  const what = held.verdict === 'stretched' ? 'a stretch' : 'too far';
  const apart = widest === undefined ? '' : `: ${Math.round(widest.reachMm)} mm`;
  const too = held.verdict === worst.verdict ? ' as well' : '';
  return `${capitalised(placeOf(held))}, it is ${what}${too}${apart}.`;
}

/** `on the baritone ukulele of edition bari, scale 485 mm`, `on this instrument, scale 510 mm, capo at fret 2` */
export function placeOf({ instrument, edition }: HeldOnEdition): string {
  const { kind, name, scaleLengthMm, capoFret } = instrument;
  const which = kind === 'instrument' ? 'this' : 'the';
  const whose = edition === undefined || edition === name ? '' : ` of edition ${edition}`;
  const capo = capoFret === 0 ? '' : `, capo at fret ${capoFret}`;
  return `on ${which} ${kind}${whose}, scale ${Math.round(scaleLengthMm)} mm${capo}`;
}

/** Which of the named hands hold the shape, and which do not; nothing where all of them fare the same. */
function tellWho({ instrument, shape, verdict }: HeldOnEdition): string {
  const hands = handsOn(instrument, shape);
  const named = (wanted: (verdict: HeldOnEdition['verdict']) => boolean) =>
    hands.filter((each) => wanted(each.verdict)).map(({ hand }) => hand);
  const ease = named((each) => each === 'comfortable');
  const without = named((each) => each === 'out-of-reach' || each === 'too-few-fingers');
  const reach = named((each) => each === 'comfortable' || each === 'stretched');
  const doNot = without.length === 0 ? '' : `${handList(without)} ${without.length === 1 ? 'does' : 'do'} not`;
  if (verdict === 'stretched') {
    const atEase = ease.length === 0 ? '' : `${handList(ease)} ${ease.length === 1 ? 'has' : 'have'} it at ease`;
    const beyond = doNot === '' ? '' : `${doNot} reach it`;
    return sentence([atEase, beyond].filter((part) => part !== '').join('; '));
  }
  if (reach.length === 0) return 'Even a large hand does not hold it.';
  const stretched = ease.length === 0 ? ' with a stretch' : '';
  const reaches = `${handList(reach)} ${reach.length === 1 ? 'reaches' : 'reach'} it${stretched}`;
  return sentence(doNot === '' ? reaches : `${reaches}; ${doNot}`);
}

function tellTooFew({ shape, hand }: HeldOnEdition): string {
  const frets = new Set(shape.filter((fret) => fret !== 'muted' && fret > 0));
  const whole = `Four fingers are not enough for ${printShape(shape)}`;
  if (frets.size > 4) return `${whole}: it stops ${frets.size} different frets, and each needs a finger.`;
  const between = spoiled(shape);
  return between === undefined
    ? `${whole}: no finger of ${describeHand(hand)} is long enough to lie across all the strings that it would have to.`
    : `${whole}: no finger can lie across fret ${between.fret}, because string ${between.string} between ${between.why}.`;
}

/** A string that keeps one finger from stopping its fret on both sides of it. */
function spoiled(shape: Shape): { readonly fret: number; readonly string: number; readonly why: string } | undefined {
  for (const [from, fret] of shape.entries()) {
    if (fret === 'muted' || fret === 0) continue;
    const to = shape.lastIndexOf(fret);
    const found = spoiledUnder(shape, fret, from, to);
    if (found === undefined) continue;
    const why = found.kind === 'open' ? 'rings open' : 'is stopped lower';
    return { fret, string: stringNumber(found.stringIndex, shape.length), why };
  }
  return undefined;
}

/** `a small hand and a child's hand` */
function handList(hands: readonly HandName[]): string {
  const words = hands.map(describeHand);
  const last = words.pop() ?? '';
  return words.length === 0 ? last : `${words.join(', ')} and ${last}`;
}

function sentence(words: string): string {
  return words === '' ? '' : `${capitalised(words)}.`;
}

function lower(words: string): string {
  return words.slice(0, 1).toLowerCase() + words.slice(1);
}
