import type { Connection } from 'vscode-languageserver';
import type { Answers } from '../../shared/lesson/asked/answer.ts';
import type { Question } from '../../shared/lesson/asked/question.ts';
import { knownWritings } from '../features/found-writings.ts';
import { guarded } from '../guard.ts';
import type { KeptAnswers } from '../kept-answers.ts';
import type { OpenLesson, OpenLessons } from '../open-lessons.ts';
import {
  type LocateAnswer,
  PREVIEW_METHOD,
  type SourceAnswer,
  type Subscribe,
  type Update,
  type WriteAnswer,
  type WriteQuestion,
} from '../protocol/preview.ts';
import {
  readLocateQuestion,
  readSourceQuestion,
  readSubscribe,
  readUnsubscribe,
  readWriteQuestion,
} from '../protocol/read.ts';
import { toWireEdit } from '../to-protocol.ts';
import type { AfterWaitingMessages } from '../turn.ts';
import { blockAt, fullUpdate, nextUpdate, questionOffset, type Subscription, sourceOf } from './subscription.ts';

/** The sheets that are looked at, and what their pages hold. */
export class Previews {
  readonly #connection: Connection;
  readonly #lessons: OpenLessons;
  readonly #afterWaitingMessages: AfterWaitingMessages;
  readonly #answers: KeptAnswers;
  readonly #subscriptions = new Map<string, Subscription>();
  /** By subscription, what its sheet waits for. */
  readonly #asked = new Map<string, ReadonlySet<string>>();

  constructor(
    connection: Connection,
    lessons: OpenLessons,
    afterWaitingMessages: AfterWaitingMessages,
    answers: KeptAnswers,
  ) {
    this.#connection = connection;
    this.#lessons = lessons;
    this.#afterWaitingMessages = afterWaitingMessages;
    this.#answers = answers;
  }

  listen(): void {
    this.#connection.onNotification(PREVIEW_METHOD.subscribe, (message: unknown) => {
      const wanted = readSubscribe(message);
      if (wanted === undefined) this.#refuse(PREVIEW_METHOD.subscribe);
      else this.#subscribe(wanted);
    });
    this.#connection.onNotification(PREVIEW_METHOD.unsubscribe, (message: unknown) => {
      const ended = readUnsubscribe(message);
      if (ended === undefined) this.#refuse(PREVIEW_METHOD.unsubscribe);
      else {
        this.#subscriptions.delete(ended.id);
        this.#asked.delete(ended.id);
        this.#answers.want(ended.id, []);
      }
    });
    this.#connection.onRequest<SourceAnswer, void>(PREVIEW_METHOD.source, (message: unknown) => {
      const question = readSourceQuestion(message);
      const subscription = question === undefined ? undefined : this.#subscriptions.get(question.id);
      if (question === undefined || subscription === undefined) return { kind: 'unknown' };
      return sourceOf(subscription, question);
    });
    this.#connection.onRequest<WriteAnswer, void>(PREVIEW_METHOD.write, (message: unknown) => {
      const question = readWriteQuestion(message);
      return question === undefined
        ? { kind: 'unknown' }
        : guarded<WriteAnswer>(this.#connection.console, 'writing what was found', {}, { kind: 'unknown' }, () =>
            this.#write(question),
          );
    });
    this.#answers.onAnswer((question) => this.#answered(question));
    this.#connection.onRequest<LocateAnswer, void>(PREVIEW_METHOD.locate, (message: unknown) => {
      const question = readLocateQuestion(message);
      const subscription = question === undefined ? undefined : this.#subscriptions.get(question.id);
      if (question === undefined || subscription === undefined) return { kind: 'unknown' };
      if (!this.#isBehind(subscription)) return blockAt(subscription, question.position);
      // The sheet of the text that the cursor stands in is about to be drawn; the answer must fit that one.
      return new Promise<LocateAnswer>((resolve) => {
        this.#afterWaitingMessages(() => {
          const current = this.#subscriptions.get(question.id);
          resolve(current === undefined ? { kind: 'unknown' } : blockAt(current, question.position));
        });
      });
    });
  }

  /** Draws the sheets anew that waited for this answer. */
  #answered({ key }: Question): void {
    for (const [id, keys] of this.#asked) {
      const subscription = this.#subscriptions.get(id);
      const lesson = subscription && this.#lessons.get(subscription.uri);
      if (keys.has(key) && subscription !== undefined && lesson !== undefined)
        this.#send(subscription, lesson, nextUpdate);
    }
  }

  #write(question: WriteQuestion): WriteAnswer {
    const subscription = this.#subscriptions.get(question.id);
    const lesson = subscription && this.#lessons.get(subscription.uri);
    if (subscription === undefined || lesson === undefined) return { kind: 'unknown' };
    const offset = questionOffset(subscription, lesson, question);
    const writing = offset === undefined ? undefined : knownWritings(lesson, offset, this.#answers)[question.choice];
    if (writing === undefined) return { kind: 'outdated' };
    const { uri, version, text } = lesson;
    return { kind: 'edits', uri, version, edits: writing.edits.map((edit) => toWireEdit(text, edit)) };
  }

  #isBehind({ uri, sent }: Subscription): boolean {
    const lesson = this.#lessons.get(uri);
    return lesson !== undefined && lesson.version !== sent?.version;
  }

  /** What a page was sent last. */
  subscription(id: string): Subscription | undefined {
    return this.#subscriptions.get(id);
  }

  /** Sends every panel of the lesson what its newest text has changed. */
  follow(lesson: OpenLesson): void {
    for (const subscription of this.#subscriptions.values()) {
      if (subscription.uri === lesson.uri) this.#send(subscription, lesson, nextUpdate);
    }
  }

  #subscribe(wanted: Subscribe): void {
    const { holds, ...fields } = wanted;
    const known = this.#subscriptions.get(wanted.id);
    // What was drawn before is kept for another view of the same lesson: it carries the last good drawings.
    const subscription: Subscription =
      known?.uri === wanted.uri && known.sent !== undefined ? { ...fields, sent: known.sent } : fields;
    this.#subscriptions.set(subscription.id, subscription);
    const lesson = this.#lessons.get(subscription.uri);
    // A panel may ask before its lesson is open, for instance after a restart: the opening sends the first sheet.
    if (lesson === undefined) return;
    const inStep = holds !== undefined && subscription.sent?.revision === holds;
    this.#send(subscription, lesson, inStep ? nextUpdate : fullUpdate);
  }

  #send(subscription: Subscription, lesson: OpenLesson, next: typeof nextUpdate): void {
    const { uri, version } = lesson;
    const missing = new Map<string, Question>();
    const answers: Answers = {
      get: (question) => {
        const answer = this.#answers.get(question);
        if (answer === undefined) missing.set(question.key, question);
        return answer;
      },
    };
    const drawn = guarded(this.#connection.console, 'preview', { uri, version }, undefined, () =>
      next(subscription, lesson, answers),
    );
    this.#asked.set(subscription.id, new Set(missing.keys()));
    this.#answers.want(subscription.id, [...missing.values()]);
    if (drawn === undefined) return;
    this.#subscriptions.set(subscription.id, drawn.subscription);
    const message: Update = { id: subscription.id, update: drawn.update };
    void this.#connection.sendNotification(PREVIEW_METHOD.update, message);
  }

  #refuse(method: string): void {
    this.#connection.console.error(`${method}: the message does not say what it must`);
  }
}
