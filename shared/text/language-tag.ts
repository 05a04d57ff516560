const TAG = /^([a-z]{2,3})(?:-([a-z]{4}))?(?:-([a-z]{2}|\d{3}))?$/i;

/**
 * The tag of a language as it is usually written: the language, and where it is said its script and its country, as in `de`, `pt-BR`
 * or `sr-Latn`. Nothing where it is none. Source: BCP 47 (RFC 5646), 2.1 and 2.1.1; dialects and extensions are not read.
 */
export function languageTag(text: string): string | undefined {
  const [, language, script, region] = TAG.exec(text) ?? [];
  if (language === undefined) return undefined;
  const titled = script === undefined ? [] : [script.slice(0, 1).toUpperCase() + script.slice(1).toLowerCase()];
  return [language.toLowerCase(), ...titled, ...(region === undefined ? [] : [region.toUpperCase()])].join('-');
}
