/** The most of a title that goes into the name of a file, so that names stay below what any system takes. Unit: bytes of UTF-8. */
const LONGEST = 120;

/**
 * Words of a lesson as part of a file's name, without its ending. Only letters, figures, blanks, hyphens and `_` are left, so that every
 * system takes them and nothing in them leads to another folder; signs of music are spelled out. May be empty.
 */
export function fileWords(words: string, mostBytes: number = LONGEST): string {
  const kept = words
    .normalize('NFC')
    .replace(/(?<=[A-G])♭/gu, ' flat')
    .replace(/(?<=[A-G])[♯#]/gu, ' sharp')
    .replace(/[^\p{L}\p{M}\p{N} _-]+/gu, ' ')
    .replace(/ +/g, ' ')
    .trim();
  return shortened(kept, mostBytes);
}

function shortened(text: string, most: number): string {
  let bytes = 0;
  let kept = '';
  for (const letter of text) {
    bytes += bytesOf(letter.codePointAt(0) ?? 0);
    if (bytes > most) return kept.trim();
    kept += letter;
  }
  return kept;
}

/** Source: RFC 3629, section 3. */
function bytesOf(code: number): number {
  if (code < 0x80) return 1;
  if (code < 0x800) return 2;
  return code < 0x10000 ? 3 : 4;
}

/** Names that stand for devices, whatever ending they have. Source: Microsoft, Naming Files, Paths, and Namespaces. */
const DEVICE = /^(?:con|prn|aux|nul|(?:com|lpt)[0-9¹²³])$/iu;

/**
 * The name itself, or with a figure behind it where it is taken: some systems take names for the same that differ in capitals or in
 * how an accent is stored. Names of devices get a `_`. Whatever is given out goes into `taken`.
 */
export function freeName(name: string, taken: Set<string>): string {
  const safe = DEVICE.test(name) ? `${name}_` : name;
  for (let number = 1; ; number += 1) {
    const tried = number === 1 ? safe : `${safe} ${number}`;
    const key = tried.normalize('NFC').toUpperCase().toLowerCase();
    if (taken.has(key)) continue;
    taken.add(key);
    return tried;
  }
}
