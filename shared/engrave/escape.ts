// Everything that reaches markup from a lesson goes through this module, and through no other.

/** What XML 1.0 does not allow as a character, not even escaped. Source: XML 1.0 (fifth edition), production 2. */
const FORBIDDEN = /[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu;

/** The text without the characters that no XML document may hold; a picture with a stray control character stays a picture. */
export function withoutForbidden(text: string): string {
  return text.replace(FORBIDDEN, '');
}

/** What may not stand in a text or an attribute as it is. Nearly no text has any of it, and one look is enough then. */
const TELLING = new RegExp(`[&<>"\\t\\n\\r]|${FORBIDDEN.source}`, 'u');

/** Text between tags. */
export function escapeText(text: string): string {
  if (!TELLING.test(text)) return text;
  return withoutForbidden(text).replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}

/** Text between double quotes in a tag. Line ends stay line ends. */
export function escapeAttribute(text: string): string {
  if (!TELLING.test(text)) return text;
  return escapeText(text)
    .replaceAll('"', '&quot;')
    .replace(/[\t\n\r]/g, (blank) => `&#${blank.charCodeAt(0)};`);
}
