// All that writes files to hand out and is too large to be loaded before a file is written; a bundle of its own.

export { pageParts } from './page/page-parts.ts';
export { writePdf } from './pdf/write-pdf.ts';
export { pictureWriter } from './pictures/write-pictures.ts';
