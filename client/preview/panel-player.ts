import type { TextEditor } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import { PERFORMANCE_METHOD, type PerformanceAnswer, type PerformanceQuestion } from '../../server/protocol/playing.ts';
import type { PlayingFromPage, PlayingToPage } from './playing-messages.ts';

/** A sheet that is behind its text is there within so many of these turns, or something else is wrong. */
const TIMES = 20;
const WAIT_MS = 50;

/** Fetches for one page what it plays. */
export class PanelPlayer {
  readonly #id: string;
  readonly #client: BaseLanguageClient;
  readonly #started: Promise<void>;
  readonly #post: (message: PlayingToPage) => void;

  constructor(
    service: { readonly id: string; readonly client: BaseLanguageClient; readonly started: Promise<void> },
    post: (message: PlayingToPage) => void,
  ) {
    this.#id = service.id;
    this.#client = service.client;
    this.#started = service.started;
    this.#post = post;
  }

  async perform({ ask, of, revision, slot, place }: Extract<PlayingFromPage, { kind: 'perform' }>): Promise<void> {
    const answer = await this.#ask({ kind: of, id: this.#id, revision, slot, place });
    this.#post({ kind: 'performance', ask, answer });
  }

  /** Plays from the cursor, or loops the bars that are selected. */
  async playFrom({ selection }: TextEditor): Promise<void> {
    const { start, end } = selection;
    const question: PerformanceQuestion = {
      kind: 'selection',
      id: this.#id,
      start: { line: start.line, character: start.character },
      end: { line: end.line, character: end.character },
    };
    let answer = await this.#ask(question);
    // The sheet of the newest text is about to be drawn.
    for (let time = 0; answer.kind === 'outdated' && time < TIMES; time += 1) {
      await new Promise((resolve) => setTimeout(resolve, WAIT_MS));
      answer = await this.#ask(question);
    }
    this.#post({ kind: 'performance', answer });
  }

  stop(): void {
    this.#post({ kind: 'stop-playing' });
  }

  async #ask(question: PerformanceQuestion): Promise<PerformanceAnswer> {
    await this.#started;
    return this.#client.sendRequest<PerformanceAnswer>(PERFORMANCE_METHOD, question);
  }
}
