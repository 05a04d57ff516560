import type { TextDocumentContentChangeEvent, TextDocumentItem } from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { editDocument, type LessonDocument, openDocument } from '../shared/lesson/document.ts';
import type { ChordStyleName } from '../shared/theory/chord-style.ts';
import { toSpan } from './from-protocol.ts';

/** A lesson that the editor has open, as of its newest text. */
export interface OpenLesson {
  readonly uri: string;
  readonly version: number;
  /** Knows lines and columns. It changes with the next edit: hold it no longer than it takes to answer. */
  readonly text: TextDocument;
  readonly document: LessonDocument;
}

/**
 * The lessons that are open. The protocol library's own store of documents is not used, since it hides the ranges of the
 * edits, and with them the reader of lessons could not do work in proportion to the edit.
 */
export class OpenLessons {
  readonly #lessons = new Map<string, OpenLesson>();
  #chordStyle: ChordStyleName = 'plain';

  /** Writes offered chord names in this style from now on; all lessons that are open are read anew, and returned. */
  writeChordsAs(style: ChordStyleName): readonly OpenLesson[] {
    if (style === this.#chordStyle) return [];
    this.#chordStyle = style;
    return [...this.#lessons.values()].map((lesson) =>
      this.#keep({ ...lesson, document: openDocument(lesson.document.text, style) }),
    );
  }

  get(uri: string): OpenLesson | undefined {
    return this.#lessons.get(uri);
  }

  open(item: TextDocumentItem): OpenLesson {
    const text = TextDocument.create(item.uri, item.languageId, item.version, item.text);
    return this.#keep({
      uri: item.uri,
      version: item.version,
      text,
      document: openDocument(item.text, this.#chordStyle),
    });
  }

  /** The lesson after the edits, each of which counts in the text that the one before it left; undefined if it is not open. */
  change(uri: string, version: number, changes: readonly TextDocumentContentChangeEvent[]): OpenLesson | undefined {
    const lesson = this.#lessons.get(uri);
    if (lesson === undefined) return undefined;
    let { text, document } = lesson;
    for (const change of changes) {
      document =
        'range' in change
          ? editDocument(document, { span: toSpan(text, change.range), text: change.text })
          : openDocument(change.text, this.#chordStyle);
      text = TextDocument.update(text, [change], version);
    }
    return this.#keep({ uri, version, text, document });
  }

  close(uri: string): void {
    this.#lessons.delete(uri);
  }

  #keep(lesson: OpenLesson): OpenLesson {
    this.#lessons.set(lesson.uri, lesson);
    return lesson;
  }
}
