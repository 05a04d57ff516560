// All that writes files to hand out and is too large to be loaded before a file is written; a bundle of its own.

export { writePage } from './page/write-page.ts';
export { writePdf } from './pdf/write-pdf.ts';
export { pictureWriter } from './pictures/write-pictures.ts';
