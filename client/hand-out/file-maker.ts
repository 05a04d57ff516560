import type { Disposable, Uri } from 'vscode';
import type { HandOutChoice } from '../../server/protocol/hand-out.ts';
import type { LessonToHandOut } from './find-lessons.ts';
import type { HandOutDesk, MadeFile } from './hand-out-desk.ts';
import { PicturePainter } from './picture-painter.ts';

const PNG = /\.png$/;

/** Makes the files of lessons: all come from the service, but PNG pictures are painted here from their SVG. */
export class FileMaker implements Disposable {
  readonly #desk: HandOutDesk;
  readonly #painter: PicturePainter;

  constructor(desk: HandOutDesk, extensionUri: Uri) {
    this.#desk = desk;
    this.#painter = new PicturePainter(extensionUri);
  }

  /** A file's bytes and what is to be said of it; nothing where the lesson does not yield it any more. */
  async make(lesson: LessonToHandOut, choice: HandOutChoice, name: string): Promise<MadeFile | undefined> {
    // The service is never asked for what it cannot paint.
    const asked: HandOutChoice = { ...choice, pictures: ['svg'] };
    if (!PNG.test(name)) return this.#desk.make(lesson, asked, name);
    const drawn = await this.#desk.make(lesson, asked, name.replace(PNG, '.svg'));
    if (drawn === undefined) return undefined;
    const bytes = await this.#painter.paint(name, new TextDecoder().decode(drawn.bytes));
    return { bytes, remarks: drawn.remarks };
  }

  dispose(): void {
    this.#painter.dispose();
  }
}
