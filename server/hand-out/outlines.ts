import type { PathStep } from '../../shared/engrave/drawing.ts';
import type { FlatPath, FlatText } from '../../shared/export/flat-items.ts';
import { stretchesOf } from '../../shared/export/letters.ts';
import type { Faces } from './faces.ts';
import { AS_RECKONED } from './reckoned.ts';

/**
 * Texts as the outlines of their letters, one each, side by side as they were reckoned. Letters that no face has are added to
 * `missing`.
 */
export function outlinesFrom(faces: Faces): (text: FlatText, missing: Set<string>) => readonly FlatPath[] {
  const glyphs = new Map<string, readonly PathStep[]>();
  const glyphOf = (
    face: FlatText['face'],
    file: number,
    letter: string,
  ): { steps: readonly PathStep[]; advance: number } => {
    const font = faces.file(face, file);
    const glyph = font?.glyphForCodePoint(letter.codePointAt(0) ?? 0);
    if (font === undefined || glyph === undefined) return { steps: [], advance: 0 };
    const key = `${face} ${file} ${letter}`;
    const known = glyphs.get(key) ?? stepsOf(glyph.path.commands, font.unitsPerEm);
    glyphs.set(key, known);
    return { steps: known, advance: glyph.advanceWidth / font.unitsPerEm };
  };
  return (text, missing) =>
    stretchesOf(text, faces.fileWith).flatMap((stretch): readonly FlatPath[] => {
      if (stretch.kind === 'missing') missing.add(stretch.text);
      if (stretch.kind !== 'letters') return [stretch.outline];
      let { x } = stretch;
      const letters: FlatPath[] = [];
      let before = '';
      for (const letter of stretch.text) {
        const glyph = glyphOf(text.face, stretch.file, letter);
        const place = signPlace(faces.file(text.face, stretch.file), before, letter);
        const at = { size: text.size, y: text.y - place.y * text.size };
        const steps = glyph.steps.map((step) => placed(step, x + place.x * text.size, at));
        if (steps.length > 0) letters.push({ kind: 'path', steps, ink: text.ink });
        x += glyph.advance * text.size;
        before = letter;
      }
      return letters;
    });
}

/** How far a sign over a letter stands from where a letter would stand. Unit: em, y up. */
function signPlace(
  font: ReturnType<Faces['file']>,
  before: string,
  letter: string,
): { readonly x: number; readonly y: number } {
  if (font === undefined || !/^\p{Mn}$/u.test(letter)) return { x: 0, y: 0 };
  const place = font.layout(before + letter, AS_RECKONED).positions.at(-1);
  return place === undefined
    ? { x: 0, y: 0 }
    : { x: place.xOffset / font.unitsPerEm, y: place.yOffset / font.unitsPerEm };
}

type Command = ReturnType<NonNullable<ReturnType<Faces['file']>>['glyphForCodePoint']>['path']['commands'][number];

/** Unit: em, y down the page as everywhere. A curve of one point becomes one of two: each stands two thirds of the way to it. */
function stepsOf(commands: readonly Command[], unitsPerEm: number): readonly PathStep[] {
  let [atX, atY] = [0, 0];
  return commands.map(({ command, args }): PathStep => {
    const [a = 0, b = 0, c = 0, d = 0, e = 0, f = 0] = args.map((value, index) =>
      index % 2 === 0 ? value / unitsPerEm : -value / unitsPerEm,
    );
    const [fromX, fromY] = [atX, atY];
    if (command !== 'closePath') {
      [atX, atY] = command === 'bezierCurveTo' ? [e, f] : command === 'quadraticCurveTo' ? [c, d] : [a, b];
    }
    switch (command) {
      case 'moveTo':
        return ['M', a, b];
      case 'lineTo':
        return ['L', a, b];
      case 'quadraticCurveTo':
        return [
          'C',
          fromX + (2 / 3) * (a - fromX),
          fromY + (2 / 3) * (b - fromY),
          c + (2 / 3) * (a - c),
          d + (2 / 3) * (b - d),
          c,
          d,
        ];
      case 'bezierCurveTo':
        return ['C', a, b, c, d, e, f];
      default:
        return ['Z'];
    }
  });
}

function placed(step: PathStep, x: number, { y, size }: Pick<FlatText, 'y' | 'size'>): PathStep {
  switch (step[0]) {
    case 'Z':
      return step;
    case 'C':
      return [
        'C',
        x + size * step[1],
        y + size * step[2],
        x + size * step[3],
        y + size * step[4],
        x + size * step[5],
        y + size * step[6],
      ];
    default:
      return [step[0], x + size * step[1], y + size * step[2]];
  }
}
