/** Source: ISO 32000-1, 14.4: an id of a file is 16 bytes that are hardly ever those of another. */
const BYTES = 16;

/** An id made from what a file says alone: four hashes of 32 bits (FNV-1a, public domain) with different starts. Not for secrets. */
export function contentId(content: string): Uint8Array {
  const starts = [0x811c9dc5, 0x9e3779b9, 0x85ebca6b, 0xc2b2ae35];
  const words = new Uint32Array(starts);
  for (let index = 0; index < content.length; index++) {
    const unit = content.charCodeAt(index);
    for (let word = 0; word < words.length; word++) words[word] = Math.imul((words[word] ?? 0) ^ unit, 0x01000193);
  }
  const bytes = new Uint8Array(BYTES);
  const view = new DataView(bytes.buffer);
  for (const [index, word] of words.entries()) view.setUint32(4 * index, word);
  return bytes;
}
