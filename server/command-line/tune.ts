import { describeHand, type HandSize, parseHand, printHand, USUAL_HAND } from '../../shared/hand/hand.ts';
import { CAUTION_ON_STRETCH } from '../../shared/hand/reach.ts';
import { neckAboveCapo } from '../../shared/neck/capo.ts';
import type { Instrument } from '../../shared/neck/instrument.ts';
import { parseInstrument } from '../../shared/neck/instruments.ts';
import { printShape } from '../../shared/neck/shape.ts';
import { listed } from '../../shared/text/counted.ts';
import { nearest } from '../../shared/text/nearest.ts';
import { parseKey } from '../../shared/theory/key.ts';
import { beatsPerBar, COMMON_TIME, type Meter, parseMeter } from '../../shared/theory/meter.ts';
import { printPitch } from '../../shared/theory/note.ts';
import { printRole } from '../../shared/theory/role.ts';
import { headOfNote, numberOfBar } from '../../shared/voicing/tune/bar-times.ts';
import { readGivenNotes } from '../../shared/voicing/tune/given-notes.ts';
import type { ChordInHand, TuneGround } from '../../shared/voicing/tune/ground.ts';
import { keyOfChords } from '../../shared/voicing/tune/key-of-chords.ts';
import { CONTOURS, type Contour } from '../../shared/voicing/tune/line.ts';
import { type PlacedTune, placeTune } from '../../shared/voicing/tune/place-tune.ts';
import { proposeTune, type TuneProposals } from '../../shared/voicing/tune/propose-tune.ts';
import { readRhythm, TICKS_OF_COUNT } from '../../shared/voicing/tune/rhythm.ts';
import { readScale, scaleOfKey } from '../../shared/voicing/tune/scale.ts';
import { tellRing } from '../../shared/voicing/tune/tell-ring.ts';
import type { TuneNote } from '../../shared/voicing/tune/tune.ts';
import { printChords, printTune } from '../../shared/voicing/tune/tune-text.ts';
import { asked, countAsked, stringsAsked, USUAL_INSTRUMENT } from './asked.ts';
import { formattedText } from './format.ts';
import { readWords } from './read-words.ts';
import { type Command, UsageError } from './terminal.ts';
import { progressionAsked } from './tune-progression.ts';

/** Beats a minute where nobody says a tempo: slow enough for a new tune. Common practice, no source. */
const USUAL_TEMPO = 72;
const TEMPO_RANGE = [20, 400] as const;
const USUAL_COUNT = 3;
const MOST_COUNT = 20;

/** One note as scripts read it. */
interface NoteForScripts {
  /** Bars count from 1, and a pickup is 0. `at` is in counts of the bar, the first is 1; `lasts` is in counts of the meter asked for. */
  readonly bar: number;
  readonly at: number;
  readonly lasts: number;
  readonly chord: string;
  readonly pitch: string;
  readonly string: number;
  readonly fret: number;
  /** 0 for an open string. */
  readonly finger: number | 'T';
  readonly role: string;
  readonly inChord: boolean;
  readonly how: TuneNote['way']['sort'];
  readonly lifts?: number | 'T';
  readonly stretched?: true;
}

export const tune: Command = {
  usage:
    'handspan tune CHORDS [--contour CONTOUR | --notes NOTES] [--rhythm COUNTS] [--repeats] [--shapes SHAPES] [--on INSTRUMENT] [--key KEY | --scale SCALE] [--tempo N] [--meter M] [--ring STRINGS] [--hand HAND] [--max N] [--name NAME] [--json]',
  summary: 'find tunes inside the shapes of a progression, or place one',
  details: `CHORDS is a progression, a bar for each chord: "Em C G D"; or with bars as a lesson has them: "Em | C / / G | D | %", with a
pickup and other meters: "count 4 | Em | C | 2/4 G | 4/4 D". Over NC the tune rests.
  --contour  rise, fall, arch or answer; "arch" where nothing is said
  --notes    a tune to be placed instead: names with octaves, "E4 G4 | C5 . B4 A4", or steps of the scale, "5 6 1' 7" (1 is the
             lowest home note of the instrument, ' an octave up, a comma one down); . lets a note go on. Notes share their bar
             evenly; without bar lines each has a count
  --rhythm   the counts that have a note in every bar, as they are said: "1 2 & 4"
  --repeats  a note may come again at once
  --shapes   a shape for each chord, in order: "0432 0003 0232 2220"; the usual ones where nothing is said
  --on       the instrument, as a lesson says it; "${USUAL_INSTRUMENT}" where nothing is said
  --key      the key; found from the chords where nothing is said. Tones of a chord that the key does not have may sound, too
  --scale    nothing but the notes of this scale, as in "A minor pentatonic"
  --tempo    beats a minute, ${USUAL_TEMPO} where nothing is said: the fingers must be in time
  --meter    4/4 where nothing is said
  --ring     numbers of the strings that sound on, as in "1 2": the tune stops them only where a shape does; string 1 is
             nearest the floor
  --hand     small, medium, large, child, or its span from thumb to little finger in mm; "${printHand(USUAL_HAND)}" where nothing is said
  --max      so many tunes at most, ${USUAL_COUNT} where nothing is said
  --name     what the melody is called in the text
  --json     print {on, hand, scale, tempo, chords: [{chord, shape, fingers}], tunes: [{cost, why, text, notes}], remarks}; for --notes {..., text, notes,
             nowhere, remarks}. text is what a lesson has
Chord tones stand on the strong beats, other tones come and go by step. Without a rhythm every bar has a note on each count and one
more before the next bar, which leads there; every second bar ends with a longer one.
Frets count from the capo. Fingers are an estimate for a typical hand.
Exit status: 0 also where there is no tune; 1 where a given note has no place; 2 wrong call.`,

  async run(words, terminal) {
    const text = { type: 'string' } as const;
    const options = {
      contour: text,
      notes: text,
      rhythm: text,
      shapes: text,
      on: text,
      key: text,
      scale: text,
      tempo: text,
      meter: text,
      ring: text,
      hand: text,
      max: text,
      name: text,
      repeats: { type: 'boolean' },
      json: { type: 'boolean' },
    } as const;
    const { values, positionals } = readWords(words, options);
    if (positionals.length === 0) throw new UsageError('say the chords, as in "Em C G D"');
    if (values.contour !== undefined && values.notes !== undefined) {
      throw new UsageError('--contour finds a tune and --notes gives one; say one of the two');
    }
    const instrument = asked('--on', parseInstrument(values.on ?? USUAL_INSTRUMENT));
    const held = neckAboveCapo(instrument);
    const meter = meterAsked(values.meter);
    const tempo = values.tempo === undefined ? USUAL_TEMPO : tempoAsked(values.tempo);
    const bars = progressionAsked(positionals.join(' '), values.shapes, held, meter);
    const rhythm = values.rhythm === undefined ? {} : { rhythm: asked('--rhythm', readRhythm(values.rhythm, meter)) };
    const name = values.name ?? 'new-tune';
    if (!/^[a-z][a-z0-9-]*$/.test(name)) throw new UsageError(`--name: "${name}" is not one word of small letters`);
    const ground: TuneGround = {
      instrument: held,
      hand: values.hand === undefined ? USUAL_HAND : asked('--hand', parseHand(values.hand)),
      meter,
      bars,
      ...scaleAsked(values.key, values.scale, bars),
      ring: values.ring === undefined ? [] : stringsAsked(values.ring, instrument),
      secondsPerCount: (60 / tempo) * (beatsPerBar(meter) / meter.counts),
    };
    const facts = { instrument, tempo, name, json: values.json === true };
    if (values.notes !== undefined) {
      const context = { scale: ground.scale, instrument: held, meter, bars, ...rhythm };
      const notes = asked('--notes', readGivenNotes(values.notes, context));
      const placed = placeTune({ ...ground, notes });
      terminal.out(facts.json ? placedForScripts(ground, placed, facts) : printedPlaces(ground, placed, facts));
      return placed.ok && placed.nowhere.length === 0 ? 0 : 1;
    }
    const contour = contourAsked(values.contour ?? 'arch');
    const most = values.max === undefined ? USUAL_COUNT : countAsked('--max', values.max, MOST_COUNT);
    const found = proposeTune({ ...ground, ...rhythm, contour, mayRepeat: values.repeats === true }, most);
    terminal.out(facts.json ? foundForScripts(ground, found, facts) : printedTunes(ground, found, contour, facts));
    return 0;
  },
};

interface Facts {
  /** With its capo. */
  readonly instrument: Instrument;
  readonly tempo: number;
  readonly name: string;
}

function meterAsked(text: string | undefined): Meter {
  const meter = text === undefined ? COMMON_TIME : parseMeter(text);
  if (meter === undefined) throw new UsageError(`--meter: "${text}" is not a meter, as in 3/4`);
  return meter;
}

function tempoAsked(text: string): number {
  const [least, most] = TEMPO_RANGE;
  const tempo = Number(text);
  if (/^\d+$/.test(text) && tempo >= least && tempo <= most) return tempo;
  throw new UsageError(`--tempo: "${text}" is not a number of beats a minute from ${least} to ${most}`);
}

function contourAsked(text: string): Contour {
  const contour = CONTOURS.find((one) => one === text);
  if (contour !== undefined) return contour;
  const near = nearest(text, CONTOURS);
  const hint = near === undefined ? `say ${listed(CONTOURS, 'or')}` : `did you mean ${near}?`;
  throw new UsageError(`--contour: a tune does not go "${text}"; ${hint}`);
}

function scaleAsked(
  key: string | undefined,
  scale: string | undefined,
  bars: TuneGround['bars'],
): Pick<TuneGround, 'scale' | 'strictly'> {
  if (key !== undefined && scale !== undefined) throw new UsageError('say --key or --scale, not both');
  if (scale !== undefined) return { scale: asked('--scale', readScale(scale)), strictly: true };
  if (key !== undefined) return { scale: scaleOfKey(asked('--key', parseKey(key))) };
  return {
    scale: scaleOfKey(keyOfChords(bars.flatMap(({ chords }) => chords.flatMap(({ chord }) => chord?.symbol ?? [])))),
  };
}

function printedTunes(ground: TuneGround, found: TuneProposals, contour: Contour, facts: Facts): string {
  const head = `Tunes (${contour}) over ${tellChords(ground)} on ${facts.instrument.name}, in ${ground.scale.name}:`;
  if (!found.ok) return `${head} none. ${found.message}\n`;
  const blocks = found.tunes.map(({ notes, why }, at) => {
    const name = at === 0 ? facts.name : `${facts.name}-${at + 1}`;
    return `\n// ${why}\n${textOf(name, ground, notes)}`;
  });
  const remarks = remarksOn(ground, found.chords, []).map((remark) => `${remark}\n`);
  return `${head} best first\n${remarks.join('')}\n${printChords(found.chords)}${blocks.join('')}${caution(ground.hand)}`;
}

function printedPlaces(ground: TuneGround, placed: PlacedTune, facts: Facts): string {
  const head = `The tune over ${tellChords(ground)} on ${facts.instrument.name}, in ${ground.scale.name}:`;
  if (!placed.ok) return `${head} ${placed.message}\n`;
  const faults = placed.nowhere.map(
    ({ note, message, waysOut }) =>
      `${headOfNote(ground.bars, note)}: ${message}\n${waysOut.map((way) => `  ${way}\n`).join('')}`,
  );
  const remarks = remarksOn(ground, placed.chords, placed.remarks).map((remark) => `${remark}\n`);
  const block =
    placed.notes.length === 0 ? '' : `\n${printChords(placed.chords)}\n${textOf(facts.name, ground, placed.notes)}`;
  const count = placed.notes.length + placed.nowhere.length;
  const has = placed.notes.length === 1 ? 'has' : 'have';
  const sum =
    placed.nowhere.length === 0 ? 'every note has a place' : `${placed.notes.length} of ${count} notes ${has} a place`;
  return `${head} ${sum}\n${faults.join('')}${remarks.join('')}${block}${caution(ground.hand)}`;
}

/** What the shapes do to strings that are to ring, and what else there is to know. */
function remarksOn(ground: TuneGround, chords: readonly ChordInHand[], others: readonly string[]): readonly string[] {
  return [...others, ...[tellRing(ground, chords) ?? []].flat()];
}

/** The tune as a lesson has it, in columns. */
function textOf(name: string, ground: TuneGround, notes: readonly TuneNote[]): string {
  return formattedText(printTune(name, ground, notes));
}

function tellChords({ bars }: TuneGround): string {
  return bars.map(({ chords }) => chords.map(({ chord }) => chord?.name ?? 'NC').join(' ')).join(' | ');
}

function caution(hand: HandSize): string {
  return `\nFingers are an estimate for ${describeHand(hand)}. ${CAUTION_ON_STRETCH}\n`;
}

function foundForScripts(ground: TuneGround, found: TuneProposals, facts: Facts): string {
  const tunes = found.ok ? found.tunes : [];
  return inJson({
    ...factsForScripts(ground, facts, found.ok ? found.chords : []),
    ...(found.ok ? {} : { none: found.message }),
    tunes: tunes.map(({ points, why, notes }, at) => ({
      cost: Math.round(points * 100) / 100,
      why,
      text: textOf(at === 0 ? facts.name : `${facts.name}-${at + 1}`, ground, notes),
      notes: notes.map((note) => noteForScripts(ground, note)),
    })),
    remarks: found.ok ? remarksOn(ground, found.chords, []) : [],
  });
}

function placedForScripts(ground: TuneGround, placed: PlacedTune, facts: Facts): string {
  const known = factsForScripts(ground, facts, placed.ok ? placed.chords : []);
  if (!placed.ok) return inJson({ ...known, none: placed.message });
  return inJson({
    ...known,
    text: textOf(facts.name, ground, placed.notes),
    notes: placed.notes.map((note) => noteForScripts(ground, note)),
    nowhere: placed.nowhere.map(({ note, chord, message, waysOut }) => ({
      bar: numberOfBar(ground.bars, note.bar),
      at: 1 + note.tick / TICKS_OF_COUNT,
      chord,
      pitch: printPitch(note.pitch),
      why: message,
      instead: waysOut,
    })),
    remarks: remarksOn(ground, placed.chords, placed.remarks),
  });
}

function factsForScripts({ hand, scale }: TuneGround, { instrument, tempo }: Facts, chords: readonly ChordInHand[]) {
  return {
    on: instrument.name,
    hand: printHand(hand),
    scale: scale.name,
    tempo,
    chords: chords.map(({ chord, held }) => ({
      chord: chord.name,
      shape: printShape(chord.shape),
      fingers: held.fingering.fingers.map((finger) => finger ?? 0),
    })),
  };
}

function noteForScripts({ bars }: TuneGround, note: TuneNote): NoteForScripts {
  const { way, tone } = note;
  return {
    bar: numberOfBar(bars, note.bar),
    at: 1 + note.tick / TICKS_OF_COUNT,
    lasts: note.length / TICKS_OF_COUNT,
    chord: note.chord.name,
    pitch: printPitch(note.pitch),
    string: note.string,
    fret: note.fret,
    finger: way.finger ?? 0,
    role: printRole(tone.role, 'letters'),
    inChord: tone.inChord,
    how: way.sort,
    ...('lifted' in way && way.lifted !== undefined ? { lifts: way.lifted } : {}),
    ...(way.verdict === 'stretched' ? { stretched: true } : {}),
  };
}

function inJson(value: unknown): string {
  return `${JSON.stringify(value, undefined, 2)}\n`;
}
