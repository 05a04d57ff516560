import { neckAboveCapo } from '../../neck/capo.ts';
import type { Span } from '../../text/span.ts';
import type { TuneChord } from '../../voicing/tune/ground.ts';
import { keyOfChords } from '../../voicing/tune/key-of-chords.ts';
import { scaleOfKey } from '../../voicing/tune/scale.ts';
import type { TuneRequest } from '../../voicing/tune/tune-problem.ts';
import { resolveChord } from '../model/chords.ts';
import { fingeringFor } from '../model/fingerings.ts';
import { meterOf } from '../model/grid.ts';
import { secondsOfWholeNote } from '../model/progression-sequence.ts';
import type { ResolvedChord } from '../model/resolved-chord.ts';
import type { Scope } from '../model/scope.ts';
import type { GridStatement } from '../syntax/statement.ts';
import type { Word } from '../syntax/words.ts';
import { tuneBars } from './tune-bars.ts';

/** A tune of the lesson as it can be looked for, or what it still lacks and where. */
type AskedTune =
  | { readonly kind: 'request'; readonly request: TuneRequest }
  | { readonly kind: 'not-yet'; readonly message: string; readonly span: Span };

/** A melody that asks for a tune. */
export type TuneStatement = GridStatement & { readonly kind: 'melody'; readonly inside: Word };

/** A tune is found for so many bars at most. Common practice, no source: two verses of sixteen. */
const MOST_BARS = 32;

/** How the tune goes where nothing is said. Common practice, no source: most tunes of songs rise and come back. */
const USUAL_CONTOUR = 'arch';

/**
 * What a `melody` with `inside` asks for on this edition: a tune over the bars of its progression as they are played, each repeat that
 * is nothing but a repeat of the whole once, inside the shapes and fingers of the lesson, at its greatest tempo, in its key. What cannot
 * be looked for is told as not there yet. Spans count like the statement's own.
 */
export function tuneRequest(scope: Scope, statement: TuneStatement): AskedTune {
  const { inside, ring, contour } = statement;
  const notYet = (message: string, span: Span = inside.span): AskedTune => ({ kind: 'not-yet', message, span });
  const progression = scope.progression(inside.text);
  if (progression === undefined) return notYet(`There is no progression ${inside.text}.`);
  if (ring?.ring.kind === 'all') return notYet('Say which strings sound on under the tune: ring 1 2.', ring.span);
  const meter = meterOf(scope, statement);
  const bars = tuneBars(progression, meter, (name) => {
    const chord = resolveChord(scope, name);
    if (chord !== undefined) return tuneChord(scope, chord);
    return scope.chord(name.text)?.shape === undefined
      ? `has ${name.text}, which has no shape on this instrument.`
      : `has ${name.text}, whose line does not give each string its fret.`;
  });
  if (typeof bars === 'string') return notYet(`${inside.text} ${bars}`);
  if (bars.length > MOST_BARS) {
    return notYet(`A tune is found for ${MOST_BARS} bars at most, and ${inside.text} has ${bars.length}.`);
  }
  const chords = bars.flatMap((bar) => bar.chords.flatMap(({ chord }) => chord?.symbol ?? []));
  if (chords.length === 0) return notYet(`${inside.text} has no chords yet.`);
  const tempo = scope.setting('tempo');
  const secondsPerCount = tempo && secondsOfWholeNote(tempo, meter) / meter.unit;
  return {
    kind: 'request',
    request: {
      instrument: neckAboveCapo(scope.edition().instrument),
      hand: scope.setting('hand'),
      meter,
      bars,
      scale: scaleOfKey(scope.setting('key') ?? keyOfChords(chords)),
      contour: contour?.contour ?? USUAL_CONTOUR,
      ring: ring?.ring.kind === 'strings' ? ring.ring.strings : [],
      ...(secondsPerCount === undefined ? {} : { secondsPerCount }),
    },
  };
}

/** With the fingers that the lesson holds it with, so that the tune counts on those that the sheet shows. */
function tuneChord(scope: Scope, chord: ResolvedChord): TuneChord {
  const { text, symbol, shape } = chord;
  const fingering = fingeringFor(scope, chord);
  const works = fingering !== undefined && fingering.verdict !== 'out-of-reach';
  return { name: text, symbol, shape, ...(works ? { given: fingering.fingers.map((finger) => finger ?? 0) } : {}) };
}
