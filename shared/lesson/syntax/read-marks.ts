import type { HitPlace, Mark, NoteMark, PickFinger, Technique } from './marks.ts';
import { isNoChord, readChordName } from './read-names.ts';
import type { RowKind } from './statement.ts';
import type { Word } from './words.ts';

/** A mark, or why the word is none. */
export type ReadMark = { readonly mark: Mark } | MarkFault;

/** The sentence that says what is wrong, and what may have been meant. */
export interface MarkFault {
  readonly fault: string;
  readonly instead?: string;
}

const HOLD: Mark = { kind: 'hold' };
const KEEP: Mark = { kind: 'keep' };

/** What one word of a row says. `kind` is the row's. */
export function readMark(word: Word, kind: RowKind): ReadMark {
  if (word.text === '.' || /^-+$/.test(word.text)) return { mark: HOLD };
  if (word.text === '=') return { mark: KEEP };
  if (kind === 'words' || kind === 'say') return { mark: { kind: 'syllable', text: word.text } };
  const stop = /^stop([1-8]*)$/.exec(word.text);
  if (stop !== null) return { mark: { kind: 'stop', strings: [...(stop[1] ?? '')].map(Number) } };
  switch (kind) {
    case 'pick':
    case 'tune':
      return readNotes(word, kind);
    case 'strum':
      return readStrum(word.text);
    case 'hit':
      return readHit(word.text);
    case 'fingers':
      return readFinger(word.text);
    case 'chord':
      return readChord(word);
  }
}

/** `4`, `p`, `4p`, `p4`, `Rp`, `1m:5`, `1:5h7!`, and several joined by `+`. */
function readNotes(word: Word, row: 'pick' | 'tune'): ReadMark {
  const alone = /^([hpstbv*]\d*)$/.exec(word.text);
  // In a pick row p5 is the thumb on string 5; in a tune, where fingers are rarely written, it pulls off to fret 5.
  const isFinger = row === 'pick' && /^p\d?$/.test(word.text);
  if (alone !== null && !isFinger && word.text !== 'p') {
    const technique = readTechniques(word.text);
    const first = technique?.[0];
    if (first !== undefined && technique?.length === 1) return { mark: { kind: 'technique', technique: first } };
  }
  const notes: NoteMark[] = [];
  let start = word.span.start;
  for (const part of word.text.split('+')) {
    const note = readNote(part, { start, end: start + part.length });
    if ('fault' in note) {
      const [before, after] = [
        word.text.slice(0, start - word.span.start),
        word.text.slice(start - word.span.start + part.length),
      ];
      return { ...note, ...(note.instead === undefined ? {} : { instead: `${before}${note.instead}${after}` }) };
    }
    notes.push(note);
    start += part.length + 1;
  }
  const strings = notes.flatMap((note) => (note.string === undefined ? [] : [note.string]));
  const twice = strings.find((string, index) => strings.indexOf(string) !== index);
  if (twice !== undefined)
    return { fault: `String ${twice} is played twice at once in ${word.text}; one note of it is enough.` };
  return { mark: { kind: 'notes', notes } };
}

const NOTE = /^(?:([1-8RA])([pima])?|([pima])([1-8RA])?)?(?::(\d{1,2}))?((?:[hpst]\d{1,2}|[bv*])*)([!^]*)$/;

function readNote(text: string, span: NoteMark['span']): NoteMark | MarkFault {
  const match = NOTE.exec(text);
  const place = match?.[1] ?? match?.[4];
  const finger = (match?.[2] ?? match?.[3]) as PickFinger | undefined;
  if (match === null || (place === undefined && finger === undefined)) return noteFault(text);
  const [fret, techniques, signs] = [match[5], match[6] ?? '', match[7] ?? ''];
  return {
    span,
    ...(place === 'R' ? { bass: 'root' as const } : place === 'A' ? { bass: 'alternate' as const } : {}),
    ...(place !== undefined && /\d/.test(place) ? { string: Number(place) } : {}),
    ...(finger !== undefined ? { finger } : {}),
    ...(fret !== undefined ? { fret: Number(fret) } : {}),
    techniques: readTechniques(techniques) ?? [],
    accent: signs.includes('!'),
    restStroke: signs.includes('^'),
  };
}

function noteFault(text: string): MarkFault {
  if (/^[1-8]{2,8}$|^[pima]{2,4}$/.test(text) && new Set(text).size === text.length) {
    const instead = [...text].join('+');
    const what = /\d/.test(text) ? 'Strings' : 'Fingers';
    return { fault: `${what} that sound together are joined: ${instead}.`, instead };
  }
  if (/^\d+$/.test(text))
    return { fault: `There is no string ${text}; strings are numbered from 1, nearest the floor, upward.` };
  if (/^\d+\/\d+$/.test(text)) {
    const instead = text.replace('/', ':');
    return { fault: `A place on the neck is written string:fret, so ${text} would be ${instead}.`, instead };
  }
  if (/^[DUdu]/.test(text)) return { fault: `${text} looks like a strum; it belongs in a strum row.` };
  const ways = 'write a string (4), a finger (p), both (4p) or a place on the neck (1:5)';
  return { fault: `${text || 'This'} is no note: ${ways}.` };
}

function readTechniques(text: string): readonly Technique[] | undefined {
  const techniques: Technique[] = [];
  let read = 0;
  for (const match of text.matchAll(/([hpst])(\d{1,2})|([bv*])/g)) {
    read += match[0].length;
    const fret = Number(match[2]);
    switch (match[1] ?? match[3]) {
      case 'h':
        techniques.push({ kind: 'hammer-on', fret });
        break;
      case 'p':
        techniques.push({ kind: 'pull-off', fret });
        break;
      case 's':
        techniques.push({ kind: 'slide', fret });
        break;
      case 't':
        techniques.push({ kind: 'trill', fret });
        break;
      case 'b':
        techniques.push({ kind: 'bend' });
        break;
      case 'v':
        techniques.push({ kind: 'vibrato' });
        break;
      default:
        techniques.push({ kind: 'harmonic' });
    }
  }
  return read === text.length ? techniques : undefined;
}

/** `D` `U`, `D~`, `D43`, `Dx`, `(U)`, `D!`, `chunk`, `roll`, `s`. */
function readStrum(text: string): ReadMark {
  const accent = text.endsWith('!');
  const plain = accent ? text.slice(0, -1) : text;
  if (plain === 'chunk' || plain === 'roll') return { mark: { kind: plain, accent } };
  if (plain === 's') return { mark: { kind: 'shape-slide', accent } };
  const light = /^\((.+)\)$/.exec(plain);
  const match = /^([DUdu])([1-8]{0,8})(x?)(~?)(x?)$/.exec(light?.[1] ?? plain);
  if (match === null) {
    if (/^[DUdu]{2,}$/.test(plain)) {
      return { fault: `${text} runs several strokes together; each stroke has its own column, as in D . D U.` };
    }
    return {
      fault: `${text} is no stroke: write D, U, chunk, roll or stop, with ~ for slowly, x for damped, ! for an accent.`,
    };
  }
  const numbers = [...(match[2] ?? '')].map(Number);
  const first = numbers[0];
  const last = numbers.at(-1);
  return {
    mark: {
      kind: 'strum',
      direction: match[1]?.toLowerCase() === 'd' ? 'down' : 'up',
      slow: match[4] === '~',
      ...(first !== undefined && last !== undefined ? { strings: [first, last] as const } : {}),
      damped: match[3] === 'x' || match[5] === 'x',
      light: light !== null,
      accent,
    },
  };
}

function readHit(text: string): ReadMark {
  const match = /^(thumb|palm|nails|body)([1-8]?)(!?)$/.exec(text);
  if (match === null || (match[2] !== '' && match[1] !== 'thumb')) {
    return { fault: `${text} is no hit: write thumb4 (the thumb slaps string 4), palm, nails or body.` };
  }
  return {
    mark: {
      kind: 'hit',
      place: match[1] as HitPlace,
      ...(match[2] !== '' ? { string: Number(match[2]) } : {}),
      accent: match[3] === '!',
    },
  };
}

function readFinger(text: string): ReadMark {
  if (text === 'T') return { mark: { kind: 'finger', finger: 'T' } };
  if (/^[0-4]$/.test(text)) return { mark: { kind: 'finger', finger: Number(text) } };
  return { fault: `${text} is no left-hand finger: 1 to 4 from index to little finger, 0 for open, T for the thumb.` };
}

function readChord(word: Word): ReadMark {
  const chord = readChordName(word);
  if (chord.symbol === undefined && !isNoChord(word.text) && chord.label === undefined) {
    return { fault: `${word.text} is no chord name.` };
  }
  return { mark: { kind: 'chord', chord } };
}
