const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/';

/** Bytes as text, three as four letters. Source: RFC 4648, section 4. */
export function base64(bytes: Uint8Array): string {
  let text = '';
  for (let at = 0; at < bytes.length; at += 3) {
    const [first = 0, second, third] = bytes.subarray(at, at + 3);
    const bits = (first << 16) | ((second ?? 0) << 8) | (third ?? 0);
    text += `${LETTERS[bits >> 18]}${LETTERS[(bits >> 12) & 63]}`;
    text += second === undefined ? '=' : LETTERS[(bits >> 6) & 63];
    text += third === undefined ? '=' : LETTERS[bits & 63];
  }
  return text;
}
