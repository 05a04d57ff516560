const PLAIN: Readonly<Record<string, string>> = {
  '‐': '-',
  '‑': '-',
  '‒': '-',
  '–': '-',
  '—': '-',
  '−': '-',
  '‘': "'",
  '’': "'",
  '“': '"',
  '”': '"',
  '\u3001': ',',
};

/**
 * Typographic dashes and quotes and full-width signs in their plain form, one character for one, so that offsets stay what
 * they are. A phone's keyboard or a word processor makes such signs by itself; the teacher does not see the difference.
 */
export function toPlainSigns(text: string): string {
  return text.replace(/[\u2010-\u2014\u2212\u2018\u2019\u201c\u201d\u3001\uff01-\uff5e]/g, (sign) => {
    const code = sign.charCodeAt(0);
    return code >= 0xff01 ? String.fromCharCode(code - 0xfee0) : (PLAIN[sign] ?? sign);
  });
}
