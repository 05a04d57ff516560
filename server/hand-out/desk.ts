import type { FileWriters, HandOut, HandOutFile, LeftOut } from '../../shared/export/hand-out/hand-out.ts';
import { handOutOf } from '../../shared/export/hand-out/hand-out.ts';
import type { HandOutChoice } from '../../shared/export/hand-out/hand-out-choice.ts';
import { lineFinder } from '../../shared/export/line-finder.ts';
import { pageOf } from '../../shared/export/page/page-of.ts';
import { type LessonDocument, openDocument, spanInFile } from '../../shared/lesson/document.ts';
import { lessonOf } from '../../shared/lesson/model/lesson.ts';
import { type Finding, findingsIn } from '../findings.ts';
import { missingLetters } from './missing-letters.ts';
import { pdfOf } from './pdf/pdf-of.ts';
import type { Rasteriser } from './pictures/rasteriser.ts';
import type { HandOutTools } from './tools.ts';

/** A lesson and what is asked of it. Plain data: the same job gives the same bytes. */
export interface HandOutJob {
  /** Its file as it is to be told to the teacher. */
  readonly file: string;
  /** Name of its file without the ending. */
  readonly called: string;
  readonly text: string;
  readonly choice: HandOutChoice;
}

export type ListedFile = Pick<HandOutFile, 'name' | 'kind' | 'edition' | 'several'>;

/** An exercise that is not handed out. Lines count from 1. */
export interface ToldLeftOut {
  readonly line: number;
  readonly number: number;
  readonly title: string;
  readonly edition: string;
  readonly because: { readonly line: number; readonly message: string };
}

/** What a lesson yields, as plain data. */
export interface Listed {
  readonly files: readonly ListedFile[];
  readonly errors: readonly Finding[];
  readonly leftOut: readonly ToldLeftOut[];
  readonly hasEdition: boolean;
  /** Name of the lesson's own edition. */
  readonly ownEdition: string;
}

export interface MadeBytes {
  readonly bytes: Uint8Array;
  readonly remarks: readonly string[];
}

/** Lists and makes the files of lessons, here or elsewhere; both fail with a sentence where there is a fault. */
export interface Desk {
  list(job: HandOutJob): Promise<Listed>;
  make(job: HandOutJob, name: string): Promise<MadeBytes | undefined>;
  /** Gives up whatever is in hand. */
  end(): Promise<void>;
}

/** Where the large writers come from; asked for only when a file needs them. */
export interface DeskHost {
  tools(): Promise<HandOutTools>;
  rasteriser(): Promise<Rasteriser>;
}

/** Lists and makes the files of lessons. What was worked out for a job is kept until another job comes. */
export class HandOutDesk {
  readonly #host: DeskHost;
  #kept: { readonly key: string; readonly opened: Opened; writers?: FileWriters } | undefined;

  constructor(host: DeskHost) {
    this.#host = host;
  }

  list(job: HandOutJob): Listed {
    const { document, handOut } = this.#open(job).opened;
    const lineOf = lineFinder(document.text);
    return {
      files: handOut.files.map(({ name, kind, edition, several }) => ({
        name,
        kind,
        edition,
        ...(several === undefined ? {} : { several }),
      })),
      errors: findingsIn(job.file, document.text, document).filter(({ severity }) => severity === 'error'),
      leftOut: handOut.leftOut.map((one) => toldLeftOut(document, one, lineOf)),
      hasEdition: handOut.hasEdition,
      ownEdition: lessonOf(document).editions[0].name,
    };
  }

  /** Nothing where the job yields no file of this name. */
  async make(job: HandOutJob, name: string): Promise<MadeBytes | undefined> {
    const kept = this.#open(job);
    const file = kept.opened.handOut.files.find((one) => one.name === name);
    if (file === undefined) return undefined;
    if (file.kind === 'pdf' || file.kind === 'page' || file.kind === 'pictures')
      kept.writers ??= await this.#writers(job);
    const made = await file.make(kept.writers ?? NO_WRITERS);
    const { content, remarks = [] } = made;
    return { bytes: typeof content === 'string' ? new TextEncoder().encode(content) : content, remarks };
  }

  #open(job: HandOutJob) {
    const key = JSON.stringify(job);
    if (this.#kept?.key !== key) {
      const document = openDocument(job.text);
      this.#kept = { key, opened: { document, handOut: handOutOf(document, job.called, job.choice) } };
    }
    return this.#kept;
  }

  async #writers({ text, choice }: HandOutJob): Promise<FileWriters> {
    const { page, look, kinds, pictures } = choice;
    const tools = await this.#host.tools();
    const faces = await tools.facesFor(text);
    const paints = kinds.includes('pictures') && pictures.includes('png');
    const paint = paints ? await this.#host.rasteriser() : undefined;
    const write = tools.pictureWriter(faces, look);
    return {
      ...NO_WRITERS,
      pdf: async (document, edition, untitled) => {
        const choice = { ...page, untitled };
        const { bytes, missing, refused } = await pdfOf(document, edition, choice, { faces, write: tools.writePdf });
        return {
          content: bytes,
          remarks: [...(refused === undefined ? [] : [refused]), ...missingLetters(text, missing)],
        };
      },
      page: async (document, editions, untitled) => {
        const names = editions.map(({ name }) => name);
        return {
          content: pageOf(document, { editions: names, untitled }, tools.pageParts({ faces, page: tools.page })),
        };
      },
      svg: (picture) => {
        const missing = new Set<string>();
        const content = write(picture, missing);
        return { content, remarks: missingLetters(text, missing) };
      },
      ...(paint === undefined ? {} : { png: paint }),
    };
  }
}

interface Opened {
  readonly document: LessonDocument;
  readonly handOut: HandOut;
}

const NO_WRITERS: FileWriters = {
  pdf: () => missingWriter(),
  page: () => missingWriter(),
  svg: () => missingWriter(),
  png: () => missingWriter(),
};

function missingWriter(): never {
  throw new Error('A file is made without its writer.');
}

function toldLeftOut(
  document: LessonDocument,
  { exercise, number, edition, because }: LeftOut,
  lineOf: (offset: number) => number,
): ToldLeftOut {
  const { entry, statement } = exercise;
  const title = statement.title?.text ?? '';
  return {
    line: lineOf(spanInFile(document, entry, statement.span)?.start ?? 0),
    number,
    title: title === '' ? `Exercise ${number}` : title,
    edition,
    because: { line: lineOf(because.span.start), message: because.message },
  };
}
