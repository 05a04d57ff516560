import { escapeText } from '../../../shared/engrave/escape.ts';
import type { PrintedDocument } from '../../../shared/export/pdf/printed-document.ts';

/** What a file says of itself, under the names of its information dictionary. Source: ISO 32000-1, table 317. */
export type PdfInfo = Readonly<Record<'Title' | 'Creator' | 'Producer', string>> & { readonly Author?: string };

export function infoOf({ title, author }: PrintedDocument): PdfInfo {
  return { Title: title, ...(author === undefined ? {} : { Author: author }), Creator: 'Handspan', Producer: 'PDFKit' };
}

/** The same as XMP (ISO 16684-1): a reader of tagged documents looks for the title there. */
export function metadataOf(info: PdfInfo, language: string): string {
  const text = escapeText;
  const author =
    info.Author === undefined
      ? ''
      : `<dc:creator><rdf:Seq><rdf:li>${text(info.Author)}</rdf:li></rdf:Seq></dc:creator>`;
  return [
    '<rdf:Description rdf:about="" xmlns:xmp="http://ns.adobe.com/xap/1.0/" xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:pdf="http://ns.adobe.com/pdf/1.3/">',
    `<dc:title><rdf:Alt><rdf:li xml:lang="x-default">${text(info.Title)}</rdf:li></rdf:Alt></dc:title>${author}`,
    `<dc:language><rdf:Bag><rdf:li>${text(language)}</rdf:li></rdf:Bag></dc:language>`,
    `<xmp:CreatorTool>${text(info.Creator)}</xmp:CreatorTool><pdf:Producer>${text(info.Producer)}</pdf:Producer>`,
    '</rdf:Description>',
  ].join('\n');
}
