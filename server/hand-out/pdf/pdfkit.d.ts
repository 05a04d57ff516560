// What is used of the writer of PDF, which ships no types. Source: its guide, and its code where the guide is silent.
declare module 'pdfkit' {
  import type { Face } from 'fontkit';

  export interface StructElement {
    add(child: StructElement | StructContent): StructElement;
    end(): void;
  }
  /** A stretch of a page's content that belongs to an element. */
  export interface StructContent {
    readonly refs: readonly unknown[];
  }
  export interface Outline {
    addItem(title: string, options: { pageNumber: number; top: number; expanded?: boolean }): Outline;
  }
  export interface PdfOptions {
    readonly autoFirstPage: false;
    readonly font: null;
    readonly pdfVersion: '1.7';
    readonly tagged: true;
    readonly displayTitle: true;
    readonly lang: string;
    readonly info: { CreationDate?: Date };
  }

  export class PDFDocument {
    constructor(options: PdfOptions);
    readonly outline: Outline;
    /** Written into the file as it is when the document ends. */
    readonly info: { CreationDate?: Date };
    /** 16 bytes that tell files apart. */
    _id: Uint8Array;
    /** The face that is in use, under the name that pages have it. */
    readonly _font: {
      readonly id: string;
      ref(): unknown;
      /** The numbers of the glyphs in the subset, in hexadecimal figures, and how far each stands off. Unit: thousandths of an em. */
      encode(
        text: string,
        features: Readonly<Record<string, boolean>>,
      ): readonly [readonly string[], readonly { readonly xOffset: number; readonly yOffset: number }[]];
    };
    readonly page: { readonly fonts: Record<string, unknown> };
    /** Writes operators as they are. */
    addContent(operators: string): this;
    /** Writes the metadata packet. */
    protected _addInfo(): void;
    protected appendXML(xml: string): void;
    addPage(options: { size: readonly [number, number]; margin: 0 }): this;
    struct(
      tag: string,
      options: {
        alt?: string;
        title?: string;
        lang?: string;
        bbox?: readonly number[];
        placement?: 'Block' | 'Inline';
      },
    ): StructElement;
    addStructure(element: StructElement): this;
    markStructureContent(tag: string): StructContent;
    markContent(tag: 'Artifact', options: { type: string }): this;
    markContent(tag: 'Span', options: { actual: string }): this;
    endMarkedContent(): this;
    link(
      x: number,
      y: number,
      width: number,
      height: number,
      address: string,
      options: { structParent: StructElement; Contents: string },
    ): this;
    save(): this;
    restore(): this;
    scale(factor: number): this;
    moveTo(x: number, y: number): this;
    lineTo(x: number, y: number): this;
    bezierCurveTo(x1: number, y1: number, x2: number, y2: number, x: number, y: number): this;
    closePath(): this;
    fill(colour: string): this;
    stroke(colour: string): this;
    fillColor(colour: string): this;
    lineWidth(width: number): this;
    dash(length: number, options: { space: number }): this;
    undash(): this;
    /** A face under a name that tells its files apart. */
    font(face: Face, name: string, size: number): this;
    on(event: 'data', listener: (chunk: Uint8Array) => void): this;
    on(event: 'end', listener: () => void): this;
    on(event: 'error', listener: (error: Error) => void): this;
    end(): void;
  }
}
