import type { PaperChoice } from '../../engrave/block.ts';
import type { PictureLook } from '../pictures/picture-svg.ts';

/** What a lesson can be handed out as, in the order in which it is told. */
export const HAND_OUT_KINDS = ['pdf', 'page', 'midi', 'musicxml', 'text', 'json', 'pictures', 'chapters'] as const;
export type HandOutKind = (typeof HAND_OUT_KINDS)[number];

/** Each kind in a few words, as it is offered. */
export const KIND_WORDS: Readonly<Record<HandOutKind, string>> = {
  pdf: 'Print sheet (PDF)',
  page: 'Interactive page (HTML)',
  midi: 'MIDI files',
  musicxml: 'MusicXML files',
  text: 'Plain-text tab',
  json: 'Timelines (JSON)',
  pictures: 'Pictures for the video',
  chapters: 'Chapters of the video',
};

/** Outlines, sharp at every size; or dots, for programs that take no outlines. */
export const PICTURE_FORMATS = ['svg', 'png'] as const;
export type PictureFormat = (typeof PICTURE_FORMATS)[number];

/** What is asked of a lesson. Plain data: it goes to workers and into keys. */
export interface HandOutChoice {
  readonly kinds: readonly HandOutKind[];
  /** The lesson's own edition, all of them, or the one of this name, whatever its capitals. */
  readonly editions: 'own' | 'all' | { readonly name: string };
  readonly page: PaperChoice;
  readonly look: PictureLook;
  /** What pictures are written as. */
  readonly pictures: readonly PictureFormat[];
}
