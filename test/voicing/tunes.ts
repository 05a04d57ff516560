import { tuneBars } from '../../shared/lesson/asked/tune-bars.ts';
import { readEntry } from '../../shared/lesson/syntax/read-entry.ts';
import { readChordName } from '../../shared/lesson/syntax/read-names.ts';
import type { Instrument } from '../../shared/neck/instrument.ts';
import { COMMON_TIME } from '../../shared/theory/meter.ts';
import { usualFingering } from '../../shared/voicing/playable.ts';
import { defaultShape } from '../../shared/voicing/shapes.ts';
import type { TuneBar, TuneChord, TuneGround } from '../../shared/voicing/tune/ground.ts';
import type { HandOnShape } from '../../shared/voicing/tune/inside-way.ts';
import { keyOfChords } from '../../shared/voicing/tune/key-of-chords.ts';
import type { Contour } from '../../shared/voicing/tune/line.ts';
import { type InsideNote, notesInside } from '../../shared/voicing/tune/notes-inside.ts';
import { proposeTune } from '../../shared/voicing/tune/propose-tune.ts';
import { TICKS_OF_COUNT } from '../../shared/voicing/tune/rhythm.ts';
import { readScale, scaleOfKey } from '../../shared/voicing/tune/scale.ts';
import type { Tune } from '../../shared/voicing/tune/tune.ts';
import type { TuneRequest } from '../../shared/voicing/tune/tune-problem.ts';
import { HIGH_G, shape } from '../neck/playing.ts';
import { chord, reading } from '../theory/reading.ts';

/** The usual hand on a shape, with its usual fingers. */
export function held(
  frets: string,
  instrument: Instrument = HIGH_G,
  hand: HandOnShape['hand'] = 'medium',
): HandOnShape {
  const fingering = usualFingering(instrument, shape(frets), hand);
  if (fingering === undefined) throw new Error(`${frets} cannot be held.`);
  return { instrument, hand, shape: shape(frets), fingering };
}

/** What is inside a shape: `Em 0432` in a scale. */
export function inside(
  name: string,
  frets: string,
  scale: string,
  instrument: Instrument = HIGH_G,
): readonly InsideNote[] {
  return notesInside({ ...held(frets, instrument), chord: chord(name), scale: reading(readScale(scale)) });
}

/** Chords written as `Em:0432 C G`, a bar each; those that share a bar are joined by `+`. Without frets the usual shape. */
function barsOf(written: string, instrument: Instrument = HIGH_G): readonly TuneBar[] {
  const known = new Map<string, TuneChord>();
  return written.split(' ').map((bar): TuneBar => {
    const words = bar.split('+');
    return {
      chords: words.map((word, at) => {
        const chordOfWord = known.get(word) ?? tuneChord(word, instrument);
        known.set(word, chordOfWord);
        return { tick: (at * 4 * TICKS_OF_COUNT) / words.length, chord: chordOfWord };
      }),
    };
  });
}

function tuneChord(word: string, instrument: Instrument): TuneChord {
  const [name = '', frets] = word.split(':');
  const { symbol } = readChordName({ text: name, span: { start: 0, end: name.length } });
  if (symbol === undefined) throw new Error(`${name} is no chord.`);
  const found = frets === undefined ? defaultShape(symbol, instrument)?.shape : shape(frets);
  if (found === undefined) throw new Error(`No shape for ${name}.`);
  return { name, symbol, shape: found };
}

export function groundOf(written: string, more: Partial<TuneGround> = {}): TuneGround {
  const instrument = more.instrument ?? HIGH_G;
  const bars = barsOf(written, instrument);
  return { instrument, hand: 'medium', meter: COMMON_TIME, bars, scale: keyOf(bars), ...more };
}

function keyOf(bars: readonly TuneBar[]) {
  return scaleOfKey(keyOfChords(bars.flatMap(({ chords }) => chords.flatMap(({ chord }) => chord?.symbol ?? []))));
}

/** The same over bars as a lesson writes them, in usual shapes: `count 4`, a line end, `| Em | 2/4 C | 4/4 NC |`. */
export function groundOfBars(written: string, more: Partial<TuneGround> = {}): TuneGround {
  const { instrument = HIGH_G, meter = COMMON_TIME } = more;
  const { statement } = readEntry(`progression verse\n${written.replaceAll(/^/gm, '  ')}\n`);
  if (statement.kind !== 'progression') throw new Error(`${written} is no progression.`);
  const bars = tuneBars(statement, meter, ({ text }) => tuneChord(text, instrument));
  if (typeof bars === 'string') throw new Error(bars);
  return { instrument, hand: 'medium', meter, bars, scale: keyOf(bars), ...more };
}

/** What is proposed; a test that expects none says so itself. */
export function tunesOver(written: string, contour: Contour, more: Partial<TuneRequest> = {}): readonly Tune[] {
  const found = proposeTune({ ...groundOf(written, more), ...more, contour });
  if (!found.ok) throw new Error(found.message);
  return found.tunes;
}

/** A lesson that plays the tune over its progression, with the chords as the tune holds them; 60 counts a minute where nothing is said. Where bars are not all alike, the progression is given as it is written. */
export function lessonWith(
  request: TuneRequest,
  found: { readonly text: string; readonly chords: string },
  written = `| ${request.bars.map(({ chords }) => chords.map(({ chord }) => chord?.name ?? 'NC').join(' ')).join(' | ')} |`,
): string {
  const { counts, unit } = request.meter;
  const tempo = Math.round(60 / (request.secondsPerCount ?? 1));
  return [
    `lesson  Read back\nfor     ${request.instrument.name}\nkey     ${request.scale.name}\nmeter   ${counts}/${unit}\ntempo   ${tempo}\n`,
    found.chords,
    `progression  verse\n${written.replaceAll(/^/gm, '  ')}\n`,
    found.text,
    'exercise  Tune\n  play  verse\n  with  new-tune\n',
  ].join('\n');
}
