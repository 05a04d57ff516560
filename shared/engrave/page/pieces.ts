import { type Drawing, group, type Item, line, type PlaceMark } from '../drawing.ts';
import { BETWEEN_FACTS, factText } from '../fact-text.ts';
import type { Phrase, SheetContent } from '../sheet-content.ts';
import { keptLegend } from './legend-pieces.ts';
import { PAGE_GAPS, PAGE_SIZES, type PageLayout, type TypeSize, WHITE } from './page-sizes.ts';
import { type LinePiece, paragraph, rigid, white, whole } from './paragraph.ts';
import type { Heading, Piece, White } from './piece.ts';
import { type ProseParagraph, proseParagraphs } from './prose-paragraphs.ts';
import type { Inline } from './set-lines.ts';
import { ITALIC, PLAIN, SOFT, STRONG, styledText, type TypeStyle } from './type-style.ts';
import { typedLines } from './typed-lines.ts';

// Contents are values that never change, so what was set from one may be kept as long as it lives.
const kept = new WeakMap<SheetContent, { readonly key: string; readonly pieces: readonly Piece[] }>();

/** What a content of the sheet is on pages of this layout. */
export function piecesOf(content: SheetContent, layout: PageLayout): readonly Piece[] {
  const known = kept.get(content);
  if (known?.key === layout.key) return known.pieces;
  const pieces = make(content, layout).map((piece) => noTallerThan(layout.text.height, piece));
  kept.set(content, { key: layout.key, pieces });
  return pieces;
}

function make(content: SheetContent, layout: PageLayout): readonly Piece[] {
  switch (content.kind) {
    case 'title':
      return titlePieces(content, layout);
    case 'facts':
      return factsPieces(content, layout);
    case 'caution':
      return [cautionPiece(content.text, layout)];
    case 'prose':
      return prosePieces(content, layout);
    case 'heading': {
      const part = content.level === 2;
      const heading: Heading = { level: content.level, text: content.text.text };
      return [headingPiece(content.text, part ? 'part' : 'smallHeading', heading, layout, content.language)];
    }
    case 'turn':
    case 'page':
    case 'note':
    case 'question':
    case 'candidate':
    // Only the flowing sheet lets its drawings go.
    case 'written':
      return [];
    case 'diagrams':
      return [drawingPiece(content.drawing, white(PAGE_GAPS.diagrams, layout), layout)];
    case 'exercise':
      return exercisePieces(content, layout);
    case 'pass': {
      const above = white(PAGE_GAPS.pass, layout);
      return paragraph(phrases([content.text], SOFT), 'facts', above, layout).map(holding);
    }
    case 'system':
      return [drawingPiece(content.drawing, white(PAGE_GAPS.system, layout, WHITE.mostBetweenSystems), layout)];
    case 'legend':
      return keptLegend(content, layout, 'beside', 0);
    case 'plain': {
      const sentence =
        content.sentence === undefined
          ? []
          : paragraph(phrases([{ text: content.sentence }], SOFT), 'facts', white(PAGE_GAPS.plain, layout), layout).map(
              holding,
            );
      const above = white(content.sentence === undefined ? PAGE_GAPS.plain : PAGE_GAPS.further, layout);
      return [...sentence, ...typedPieces(content.text.text, above, 0, content.text, layout)];
    }
    case 'unknown-name':
      return typedPieces(content.text.text, white(PAGE_GAPS.plain, layout), 0, content.text, layout);
  }
}

function holding(piece: Piece): Piece {
  return { ...piece, holdsNext: true };
}

/** A drawing that is higher than a page is made smaller: what does not fit at all could not be read either. */
function noTallerThan(height: number, piece: Piece): Piece {
  if (piece.height <= height) return piece;
  const scale = height / piece.height;
  return { ...piece, height, items: [{ ...group(0, 0, piece.items), scale }] };
}

function phrases(parts: readonly Phrase[], style: TypeStyle): readonly Inline[] {
  return parts.flatMap(({ text, place }, index): readonly Inline[] => [
    ...(index === 0 ? [] : [{ kind: 'text' as const, text: BETWEEN_FACTS, style }]),
    {
      kind: 'text',
      text: factText(text),
      style,
      whole: true,
      ...(place === undefined ? {} : { place }),
    },
  ]);
}

function titlePieces(
  { title, line, language }: Extract<SheetContent, { kind: 'title' }>,
  layout: PageLayout,
): readonly Piece[] {
  const above = rigid(0);
  const head =
    title === undefined ? [] : [headingPiece(title, 'title', { level: 1, text: title.text }, layout, language)];
  const below = paragraph(phrases(line, ITALIC), 'body', white(PAGE_GAPS.subtitle, layout), layout, { language });
  return [
    ...head.map((piece) => ({ ...piece, above })),
    ...(below.length === 0 ? [] : [whole(below, white(PAGE_GAPS.subtitle, layout))]),
  ].map(holding);
}

function factsPieces(content: Extract<SheetContent, { kind: 'facts' }>, layout: PageLayout): readonly Piece[] {
  const first = paragraph(phrases(content.line, SOFT), 'facts', white(PAGE_GAPS.facts, layout), layout);
  const further = content.further.flatMap((phrase) =>
    paragraph(phrases([phrase], SOFT), 'facts', white(PAGE_GAPS.further, layout), layout),
  );
  return [...first, ...further];
}

function headingPiece(
  text: Phrase,
  size: TypeSize,
  heading: Heading,
  layout: PageLayout,
  language: string | undefined,
): Piece {
  const gap = size === 'part' ? PAGE_GAPS.part : size === 'exercise' ? PAGE_GAPS.exercise : PAGE_GAPS.smallHeading;
  const above = white(gap, layout);
  const style = size === 'smallHeading' ? { ...ITALIC, bold: true } : STRONG;
  const leading = PAGE_SIZES.tightLeading;
  const lines = paragraph([{ kind: 'text', text: text.text, style }], size, above, layout, { leading });
  return {
    ...whole(lines, above),
    heading,
    mark: markOf(text, { kind: 'heading', level: heading.level, ...(language === undefined ? {} : { language }) }),
    holdsNext: true,
  };
}

function markOf(text: Phrase, reads: NonNullable<PlaceMark['reads']>): PlaceMark {
  return { alternative: text.text, reads, ...(text.place === undefined ? {} : { place: text.place }) };
}

function exercisePieces(content: Extract<SheetContent, { kind: 'exercise' }>, layout: PageLayout): readonly Piece[] {
  const head = headingPiece(
    content.title,
    'exercise',
    { level: 3, text: content.title.text },
    layout,
    content.language,
  );
  const close = white(PAGE_GAPS.further, layout);
  const aim =
    content.aim === undefined
      ? []
      : paragraph([{ kind: 'text', text: content.aim, style: ITALIC }], 'body', close, layout, {
          language: content.language,
        });
  const facts = paragraph(
    phrases(
      content.facts.map((text) => ({ text })),
      SOFT,
    ),
    'facts',
    close,
    layout,
  );
  return [head, ...aim.map(holding), ...(content.facts.length === 0 ? [] : facts.map(holding))];
}

function cautionPiece(text: Phrase, layout: PageLayout): Piece {
  const padding = PAGE_SIZES.cautionPadding * layout.white;
  const above = white(PAGE_GAPS.caution, layout);
  const measure = layout.text.width - 2 * padding;
  const set = evenLines([{ kind: 'text', text: text.text, style: PLAIN }], above, layout, measure);
  const lines = whole(set, above);
  const width = Math.max(...set.map((piece) => piece.width), 0) + 2 * padding;
  const height = lines.height + 1.6 * padding;
  const frame: Item = {
    kind: 'rectangle',
    x: 0,
    y: 0,
    width,
    height,
    rounding: 0.8,
    ink: 'soft',
    thickness: PAGE_SIZES.lineThickness * 1.4,
  };
  return {
    height,
    above,
    items: [frame, group(padding, 0.8 * padding, lines.items)],
    mark: markOf(text, { kind: 'text' }),
  };
}

/** A few words in as many lines as they need, the last one as long as the others: a single word left over would look lost in a frame. */
function evenLines(
  inlines: readonly Inline[],
  above: White,
  layout: PageLayout,
  measure: number,
): readonly LinePiece[] {
  let lines = paragraph(inlines, 'caution', above, layout, { measure });
  for (let narrower = measure; lines.length > 1 && narrower > measure / 2; ) {
    narrower -= layout.type.caution;
    const tried = paragraph(inlines, 'caution', above, layout, { measure: narrower });
    if (tried.length > lines.length) break;
    lines = tried;
  }
  return lines;
}

function prosePieces(content: Extract<SheetContent, { kind: 'prose' }>, layout: PageLayout): readonly Piece[] {
  const mark: PlaceMark = { place: 0, alternative: 'Paragraph', reads: { kind: 'text' } };
  const scaled = content.mentions.map((mention) =>
    mention.diagram === undefined
      ? mention
      : { ...mention, diagram: { ...mention.diagram, scale: mention.diagram.scale * layout.music } },
  );
  return proseParagraphs(content.nodes, scaled).flatMap((one, index) =>
    proseParagraph(one, index === 0, layout, content.language).map((piece) => ({ ...piece, mark })),
  );
}

function proseParagraph(
  one: ProseParagraph,
  isFirst: boolean,
  layout: PageLayout,
  language: string | undefined,
): readonly Piece[] {
  const { body } = layout.type;
  const step = PAGE_SIZES.indent * body;
  // Between paragraphs as much as their type asks for: in large print the other white grows less than it does.
  const byType = body / (PAGE_SIZES.body * layout.white);
  const above = white((one.close && !isFirst ? PAGE_GAPS.listItem : PAGE_GAPS.paragraph) * byType, layout);
  const indent = Math.min(one.indent * step, layout.text.width / 2);
  if (one.kind === 'typed') return typedPieces(one.typed ?? '', above, indent, undefined, layout);
  if (one.kind === 'rule') {
    const rule = line(indent, 0, indent + 8 * body, 0, PAGE_SIZES.lineThickness, 'soft');
    return [{ height: PAGE_SIZES.lineThickness, above, items: [rule] }];
  }
  const measure = Math.min(layout.text.width, PAGE_SIZES.measure * body + indent);
  const lines = paragraph(one.inlines, 'body', above, layout, { indent, measure, language });
  const [first, ...rest] = lines;
  if (one.marker === undefined || first === undefined) return lines;
  const [head] = first.items;
  const y = head?.kind === 'group' ? head.y : 0;
  const marker = styledText(one.marker, PLAIN, { x: indent - 0.42 * step, y, size: body, anchor: 'end' });
  const item: Item = { ...group(0, 0, [marker, ...first.items]), begins: 'list-item' };
  return [{ ...first, items: [item] }, ...rest];
}

function typedPieces(
  text: string,
  above: White,
  indent: number,
  place: Phrase | undefined,
  layout: PageLayout,
): readonly Piece[] {
  const size = layout.type.plain;
  const leading = PAGE_SIZES.leading * size;
  const lines = typedLines(text, size, layout.text.width - indent);
  return lines.map((items, index): Piece => {
    const inner = index === 0 || index === 1 || index === lines.length - 1;
    const turn = index === 0 ? {} : { turn: inner ? ('never' as const) : ('unwanted' as const) };
    const mark =
      place === undefined ? {} : { mark: markOf({ ...place, text: 'Text of the lesson' }, { kind: 'text' }) };
    const height = Math.min(leading, size * 1.1);
    return {
      height,
      above: index === 0 ? above : rigid(leading - height),
      items: [{ ...group(indent, size * 0.8, items), ...(index === 0 ? { begins: 'paragraph' as const } : {}) }],
      ...turn,
      ...mark,
    };
  });
}

function drawingPiece(drawing: Drawing, above: White, layout: PageLayout): Piece {
  const scale = Math.min(layout.music * drawing.scale, layout.text.width / drawing.width);
  const items = [
    { ...group(0, 0, drawing.items, { alternative: drawing.alternative, reads: { kind: 'group' } }), scale },
  ];
  return { height: drawing.height * scale, above, items };
}
