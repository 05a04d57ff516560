import type { Connection } from 'vscode-languageserver';
import { fileWords, freeName } from '../../shared/export/hand-out/file-words.ts';
import {
  HAND_OUT_KINDS,
  type HandOutChoice,
  type HandOutKind,
  KIND_WORDS,
  PICTURE_FORMATS,
  type PictureFormat,
} from '../../shared/export/hand-out/hand-out-choice.ts';
import { openDocument } from '../../shared/lesson/document.ts';
import { lessonOf } from '../../shared/lesson/model/lesson.ts';
import type { Desk, HandOutJob } from '../hand-out/desk.ts';
import {
  HAND_OUT_FILE_METHOD,
  HAND_OUT_LIST_METHOD,
  HAND_OUT_OFFER_METHOD,
  type HandOutFileAnswer,
  type HandOutOffer,
  type ListedInFolder,
} from '../protocol/hand-out.ts';
import { readFields, readPaper, readText } from '../protocol/read.ts';

/** Answers what lessons can be handed out as. `desk` is asked for with the first file, since it brings the large writers. */
export function listenForHandOuts(connection: Connection, desk: () => Desk): void {
  connection.onRequest(HAND_OUT_OFFER_METHOD, (params: unknown): HandOutOffer => {
    const { editions } = lessonOf(openDocument(readText(readFields(params)?.text) ?? ''));
    return {
      kinds: HAND_OUT_KINDS.map((kind) => ({ kind, label: KIND_WORDS[kind] })),
      editions: editions.map(({ name }) => name),
    };
  });
  connection.onRequest(HAND_OUT_LIST_METHOD, async (params: unknown): Promise<ListedInFolder | null> => {
    const job = readJob(params);
    if (job === undefined) return null;
    const words = fileWords(job.called);
    return { ...(await desk().list(job)), folder: freeName(words === '' ? 'lesson' : words, new Set()) };
  });
  connection.onRequest(HAND_OUT_FILE_METHOD, async (params: unknown): Promise<HandOutFileAnswer | null> => {
    const fields = readFields(params);
    const job = readJob(fields?.job);
    const name = readText(fields?.name);
    const made = job === undefined || name === undefined ? undefined : await desk().make(job, name);
    return made === undefined ? null : { base64: base64Of(made.bytes), remarks: made.remarks };
  });
}

function readJob(value: unknown): HandOutJob | undefined {
  const fields = readFields(value);
  const [file, called, text] = [readText(fields?.file), readText(fields?.called), readText(fields?.text)];
  const choice = readChoice(fields?.choice);
  if (file === undefined || called === undefined || text === undefined || choice === undefined) return undefined;
  return { file, called, text, choice };
}

function readChoice(value: unknown): HandOutChoice | undefined {
  const fields = readFields(value);
  const page = readPaper(fields?.page);
  const look = readFields(fields?.look);
  const kinds = Array.isArray(fields?.kinds) ? fields.kinds : undefined;
  const formats = Array.isArray(fields?.pictures) ? fields.pictures : [];
  const name = readText(readFields(fields?.editions)?.name);
  const word = fields?.editions === 'all' || fields?.editions === 'own' ? fields.editions : undefined;
  const editions = name === undefined ? word : { name };
  if (page === undefined || look === undefined || kinds === undefined || editions === undefined) return undefined;
  return {
    kinds: HAND_OUT_KINDS.filter((kind: HandOutKind) => kinds.includes(kind)),
    editions,
    page,
    look: { ink: look.ink === 'dark' ? 'dark' : 'light', halo: look.halo !== false },
    pictures: PICTURE_FORMATS.filter((format: PictureFormat) => formats.includes(format)),
  };
}

/** So many bytes at once go through a call: more arguments than an engine takes would fail. */
const AT_ONCE = 0x8000;

/** Both hosts have `btoa`, and only one of them Node's buffers. */
function base64Of(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += AT_ONCE) text += String.fromCharCode(...bytes.subarray(at, at + AT_ONCE));
  return btoa(text);
}
