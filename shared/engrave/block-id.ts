/**
 * A short name for a text: equal texts share it, different ones do not in practice. Two 32-bit multiplicative hashes joined
 * to 53 bits, the construction known as cyrb53 (public domain); not for secrets.
 */
function hashOf(text: string): string {
  let high = 0xdeadbeef;
  let low = 0x41c6ce57;
  // Two letters at a time, since a key may change a hundred thousand of them.
  for (let index = 0; index < text.length; index += 2) {
    const pair = text.charCodeAt(index) | (text.charCodeAt(index + 1) << 16);
    high = Math.imul(high ^ pair, 2654435761);
    low = Math.imul(low ^ pair, 1597334677);
  }
  high = Math.imul(high ^ (high >>> 16), 2246822507) ^ Math.imul(low ^ (low >>> 13), 3266489909);
  low = Math.imul(low ^ (low >>> 16), 2246822507) ^ Math.imul(high ^ (high >>> 13), 3266489909);
  return (4294967296 * (2097151 & low) + (high >>> 0)).toString(36);
}

/** The id of a block: made from what is drawn and from whether it is out of date, never from where it stands. */
export function blockId(markup: string, stale: string | undefined): string {
  return hashOf(stale === undefined ? markup : `${markup}\u0000${stale}`);
}
