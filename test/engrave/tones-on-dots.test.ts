import { expect, test } from 'vitest';
import { sheetOf } from '../../shared/engrave/sheet.ts';
import { openDocument } from '../../shared/lesson/document.ts';

// Names and tones are those of the shape that the hand holds; a capo moves what sounds, not what each finger is in the chord.
test.each(['guitar', 'guitar, capo 2'])('tones on the dots of C on a %s', (instrument) => {
  const document = openDocument(`lesson  Tones\nfor  ${instrument}\nchord  C  x-3-2-0-1-0\n`);
  const { blocks } = sheetOf(document, { widthMm: 180, leftHanded: false, dots: 'roles' });
  const diagram = blocks.find(({ kind }) => kind === 'diagrams')?.markup ?? '';
  expect(diagram).toMatch(/string 5 fret 3[^,]*, the root/);
  expect(diagram).toMatch(/string 4 fret 2[^,]*, the 3/);
  expect(diagram).toMatch(/string 3 open, the 5/);
});
