import type { Connection } from 'vscode-languageserver';
import { guarded } from '../guard.ts';
import type { OpenLesson, OpenLessons } from '../open-lessons.ts';
import {
  type LocateAnswer,
  PREVIEW_METHOD,
  type SourceAnswer,
  type Subscribe,
  type Update,
} from '../protocol/preview.ts';
import { readLocateQuestion, readSourceQuestion, readSubscribe, readUnsubscribe } from '../protocol/read.ts';
import type { AfterWaitingMessages } from '../turn.ts';
import { blockAt, fullUpdate, nextUpdate, type Subscription, sourceOf } from './subscription.ts';

/** The sheets that are looked at, and what their pages hold. */
export class Previews {
  readonly #connection: Connection;
  readonly #lessons: OpenLessons;
  readonly #afterWaitingMessages: AfterWaitingMessages;
  readonly #subscriptions = new Map<string, Subscription>();

  constructor(connection: Connection, lessons: OpenLessons, afterWaitingMessages: AfterWaitingMessages) {
    this.#connection = connection;
    this.#lessons = lessons;
    this.#afterWaitingMessages = afterWaitingMessages;
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
      else this.#subscriptions.delete(ended.id);
    });
    this.#connection.onRequest<SourceAnswer, void>(PREVIEW_METHOD.source, (message: unknown) => {
      const question = readSourceQuestion(message);
      const subscription = question === undefined ? undefined : this.#subscriptions.get(question.id);
      if (question === undefined || subscription === undefined) return { kind: 'unknown' };
      return sourceOf(subscription, question);
    });
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
    const drawn = guarded(this.#connection.console, 'preview', { uri, version }, undefined, () =>
      next(subscription, lesson),
    );
    if (drawn === undefined) return;
    this.#subscriptions.set(subscription.id, drawn.subscription);
    const message: Update = { id: subscription.id, update: drawn.update };
    void this.#connection.sendNotification(PREVIEW_METHOD.update, message);
  }

  #refuse(method: string): void {
    this.#connection.console.error(`${method}: the message does not say what it must`);
  }
}
