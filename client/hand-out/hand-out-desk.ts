import { type Uri, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  HAND_OUT_FILE_METHOD,
  HAND_OUT_LIST_METHOD,
  HAND_OUT_OFFER_METHOD,
  type HandOutChoice,
  type HandOutFileAnswer,
  type HandOutFileQuestion,
  type HandOutJob,
  type HandOutOffer,
  type ListedInFolder,
} from '../../server/protocol/hand-out.ts';
import { type LessonToHandOut, reasonOf } from './find-lessons.ts';

/** A file's bytes, and what is to be said of it, a sentence each. */
export interface MadeFile {
  readonly bytes: Uint8Array;
  readonly remarks: readonly string[];
}

/** What the service knows about handing out. */
export class HandOutDesk {
  readonly #client: BaseLanguageClient;
  readonly #started: Promise<void>;

  constructor(client: BaseLanguageClient, started: Promise<void>) {
    this.#client = client;
    this.#started = started;
  }

  async offer(lesson: LessonToHandOut): Promise<HandOutOffer> {
    await this.#started;
    return this.#client.sendRequest<HandOutOffer>(HAND_OUT_OFFER_METHOD, { text: lesson.text });
  }

  async list(lesson: LessonToHandOut, choice: HandOutChoice): Promise<ListedInFolder | null> {
    await this.#started;
    return this.#client.sendRequest<ListedInFolder | null>(HAND_OUT_LIST_METHOD, jobOf(lesson, choice));
  }

  /** A file's bytes and what is to be said of it; nothing where the lesson does not yield it any more. */
  async make(lesson: LessonToHandOut, choice: HandOutChoice, name: string): Promise<MadeFile | undefined> {
    await this.#started;
    const question: HandOutFileQuestion = { job: jobOf(lesson, choice), name };
    const made = await this.#client
      .sendRequest<HandOutFileAnswer | null>(HAND_OUT_FILE_METHOD, question)
      .catch((reason: unknown) => {
        // The library puts the name of the request before what was said.
        throw new Error(reasonOf(reason).replace(/^Request \S+ failed with message: /, ''));
      });
    if (made === null) return undefined;
    const bytes = Uint8Array.from(atob(made.base64), (letter) => letter.charCodeAt(0));
    return { bytes, remarks: made.remarks };
  }
}

/** The name of the lesson's file without its ending. */
function calledOf(uri: Uri): string {
  const name = uri.path.slice(uri.path.lastIndexOf('/') + 1);
  return name.replace(/\.lesson$/, '');
}

function jobOf({ uri, text }: LessonToHandOut, choice: HandOutChoice): HandOutJob {
  return { file: workspace.asRelativePath(uri), called: calledOf(uri), text, choice };
}
