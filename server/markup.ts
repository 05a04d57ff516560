import { type MarkupContent, MarkupKind } from 'vscode-languageserver';
import type { Picture } from '../shared/assist/answers.ts';

/** Above this many characters the editor shows the whole card as raw text. Unit: characters. Seen between 80,000 and 120,000. */
const LARGEST_CARD = 80_000;

/**
 * A card as Markdown: its head, which must be seen without scrolling, then the picture, then the same facts as text. The picture is
 * left out when it would not fit.
 */
export function cardMarkdown(card: { readonly markdown: string; readonly picture?: Picture }): MarkupContent {
  const picture = card.picture === undefined ? '' : pictureMarkdown(card.picture);
  const fits = picture.length + card.markdown.length < LARGEST_CARD;
  const [head, ...facts] = card.markdown.split('\n\n');
  const value = picture === '' || !fits ? card.markdown : [head, picture, ...facts].join('\n\n');
  return { kind: MarkupKind.Markdown, value };
}

/** A card for editors that show no Markdown: its words with the signs of emphasis taken off. */
export function cardPlainText(card: { readonly markdown: string }): MarkupContent {
  const value = card.markdown.replaceAll(/\*\*|__|`/g, '').replaceAll(/\\([\\`*_{}[\]()#+\-.!<>|~])/g, '$1');
  return { kind: MarkupKind.PlainText, value };
}

function pictureMarkdown(picture: Picture): string {
  const alternative = picture.alternative.replaceAll(/[\\[\]]/g, '\\$&').replaceAll(/\s+/g, ' ');
  const size = `width=${Math.round(picture.widthPx)},height=${Math.round(picture.heightPx)}`;
  return `![${alternative}](data:image/svg+xml;base64,${base64(picture.svg)}|${size})`;
}

function base64(text: string): string {
  let binary = '';
  for (const byte of new TextEncoder().encode(text)) binary += String.fromCharCode(byte);
  return btoa(binary);
}
