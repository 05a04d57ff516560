import type { Technique } from '../lesson/syntax/marks.ts';
import type { ScoreBar, ScoreEvent, ScoreNote } from '../score/timeline.ts';
import { beatLength, isCompound, type Meter } from '../theory/meter.ts';
import { compare, over, type Rational, toNumber } from '../theory/rational.ts';
import { spokenChordName } from './chord-name.ts';
import type { BarCut } from './tab-bar.ts';

/**
 * A bar as a player hears it read aloud, one sentence for each moment:
 * `Bar 3, G. Beat 1: thumb string 4 open. And: index string 2 fret 3.`
 */
export function describeBar(bar: ScoreBar, cut?: BarCut): string {
  const sentences = [headOf(bar, cut)];
  const moments = [...bar.events].sort((a, b) => compare(a.at, b.at));
  for (let index = 0; index < moments.length; ) {
    const first = moments[index];
    if (first === undefined) break;
    const together: ScoreEvent[] = [];
    for (let next = moments[index]; next !== undefined && compare(next.at, first.at) === 0; next = moments[++index])
      together.push(next);
    sentences.push(`${momentName(bar, first.at)}${chordChangeAt(bar, first.at)}: ${describeMoment(together)}.`);
  }
  if (bar.same && bar.events.length === 0) sentences.push('The bar before again.');
  const words = bar.syllables.filter((syllable) => syllable.verse === 1).map((syllable) => syllable.text);
  if (words.length > 0) sentences.push(`Words: ${words.join(' ').replaceAll('- ', '-')}.`);
  if (bar.calls.length > 0) sentences.push(`Call: “${bar.calls.map((call) => call.text).join(' ')}”.`);
  sentences.push(...signsOf(bar));
  return sentences.join(' ');
}

function headOf(bar: ScoreBar, cut: BarCut | undefined): string {
  const [chord] = bar.chords;
  const number = bar.number === undefined ? 'Pickup' : `Bar ${bar.number}`;
  const name =
    chord === undefined ? '' : `, ${chord.chord === undefined ? 'no chord' : spokenChordName(chord.chord.name)}`;
  const meter = bar.showsMeter ? `, ${bar.meter.counts} ${bar.meter.unit} time` : '';
  const repeat = bar.opens === '|:' || bar.opens === ':|:' ? ', repeat begins' : '';
  const ending = bar.ending?.begins === true ? `, ending ${bar.ending.numbers.join(' and ')}` : '';
  const goesOn = cut?.before === true ? ' goes on' : '';
  return `${number}${goesOn}${name}${meter}${repeat}${ending}.`;
}

function signsOf(bar: ScoreBar): readonly string[] {
  if (bar.closes !== ':|' && bar.closes !== ':|:') return [];
  return [bar.times === undefined ? 'Repeat.' : `Repeat, ${bar.times} times in all.`];
}

/** A change in the middle of a bar is said where it comes. */
function chordChangeAt(bar: ScoreBar, at: Rational): string {
  const change = bar.chords.slice(1).find((chord) => compare(chord.at, at) === 0);
  if (change === undefined) return '';
  return `, ${change.chord === undefined ? 'no chord' : spokenChordName(change.chord.name)}`;
}

const SYLLABLES: Readonly<Record<string, string>> = { '&': 'And', e: 'E', a: 'A', la: 'La', li: 'Li' };

/** What is counted there aloud; where nothing is, the place in beats. */
function momentName(bar: ScoreBar, at: Rational): string {
  const count = bar.counts.find((candidate) => compare(candidate.at, at) === 0)?.text;
  if (count === undefined) return `Beat ${placeInBeats(bar.meter, at)}`;
  const number = /^\d+$/.test(count);
  if (number) return `${isCompound(bar.meter) ? 'Count' : 'Beat'} ${count}`;
  return SYLLABLES[count] ?? count.replaceAll('-', ' to ');
}

function placeInBeats(meter: Meter, at: Rational): string {
  const beats = toNumber(over(at, beatLength(meter))) + 1;
  const whole = Math.floor(beats + 1e-9);
  const part = beats - whole;
  if (part < 1e-9) return String(whole);
  const fractions: readonly (readonly [number, string])[] = [
    [1 / 2, 'and a half'],
    [1 / 3, 'and a third'],
    [2 / 3, 'and two thirds'],
    [1 / 4, 'and a quarter'],
    [3 / 4, 'and three quarters'],
  ];
  const named = fractions.find(([value]) => Math.abs(value - part) < 1e-6)?.[1];
  return `${whole} ${named ?? `and ${part.toFixed(2)}`}`;
}

function describeMoment(events: readonly ScoreEvent[]): string {
  return events.map(describeEvent).join(', together with ');
}

function describeEvent(event: ScoreEvent): string {
  switch (event.kind) {
    case 'notes': {
      const notes = event.notes.map(describeNote).join(' and ');
      return event.layer === 'tune' ? `tune ${notes}` : notes;
    }
    case 'strum': {
      const all = event.notes.length;
      const first = event.notes[0]?.string;
      const last = event.notes.at(-1)?.string;
      const words = [
        event.accent ? 'accented' : '',
        event.light ? 'light' : '',
        event.slow ? 'slow' : '',
        event.damped ? 'damped' : '',
        event.direction === 'down' ? 'down-stroke' : 'up-stroke',
      ];
      const range =
        all === 0 || first === undefined || last === undefined
          ? ''
          : first === last
            ? `, string ${first}`
            : `, strings ${first} to ${last}`;
      return `${words.filter((word) => word !== '').join(' ')}${range}`;
    }
    case 'chunk':
      return accented(event, 'chunk: a stroke that the strumming hand stops');
    case 'roll':
      return accented(event, 'roll');
    case 'shape-slide':
      return accented(event, 'slide the shape');
    case 'hit': {
      const place = {
        thumb: 'thumb slap',
        palm: 'palm on the strings',
        nails: 'nails on the strings',
        body: 'knock on the body',
      }[event.place];
      return accented(event, event.string === undefined ? place : `${place}, string ${event.string}`);
    }
    case 'stop':
      return event.strings.length === 0
        ? 'stop all strings'
        : `stop ${event.strings.length === 1 ? 'string' : 'strings'} ${event.strings.join(' and ')}`;
    case 'held':
      return event.layer === 'tune' ? 'the tune note before is held' : 'the sound before is held';
  }
}

function accented(event: { readonly accent: boolean }, text: string): string {
  return event.accent ? `accented ${text}` : text;
}

const PICKING_FINGERS = { p: 'thumb', i: 'index', m: 'middle', a: 'ring' } as const;

function describeNote(note: ScoreNote): string {
  const finger = note.finger === undefined ? '' : `${PICKING_FINGERS[note.finger]} `;
  const stroke = note.restStroke ? 'rest stroke ' : '';
  const accent = note.accent ? 'accented ' : '';
  const fret = note.fret === 0 ? 'open' : `fret ${note.fret}`;
  const left =
    note.leftFinger === undefined || note.leftFinger === 0
      ? ''
      : ` with ${note.leftFinger === 'T' ? 'the thumb' : `finger ${note.leftFinger}`}`;
  const techniques = note.techniques.map((technique) => `, ${describeTechnique(technique)}`).join('');
  const arrival = note.arrivesBy === undefined ? '' : `${note.arrivesBy}, `;
  return `${arrival}${accent}${stroke}${finger}string ${note.string} ${fret}${left}${techniques}`;
}

function describeTechnique(technique: Technique): string {
  switch (technique.kind) {
    case 'hammer-on':
    case 'pull-off':
      return `${technique.kind} to ${technique.fret === 0 ? 'open' : `fret ${technique.fret}`}`;
    case 'slide':
      return `slide to fret ${technique.fret}`;
    case 'trill':
      return `trill with fret ${technique.fret}`;
    case 'bend':
    case 'vibrato':
    case 'harmonic':
      return technique.kind;
  }
}
