import sax from 'sax';

export interface Element {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
}

/** Reads markup with a strict XML parser; throws where it is not well-formed. Returns all elements and the text in them. */
export function readXml(markup: string): { readonly elements: readonly Element[]; readonly text: string } {
  const parser = sax.parser(true);
  const elements: Element[] = [];
  let text = '';
  let failure: Error | undefined;
  parser.onerror = (error) => {
    failure ??= error;
    throw error;
  };
  parser.onopentag = ({ name, attributes }) => {
    elements.push({ name, attributes });
  };
  parser.ontext = (part) => {
    text += part;
  };
  parser.write(`<root>${markup}</root>`).close();
  if (failure !== undefined) throw failure;
  // What sax lets through and XML 1.0 does not: production 2, Char.
  const forbidden = /[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/u.exec(markup);
  if (forbidden !== null) throw new Error(`forbidden character at ${forbidden.index}`);
  return { elements: elements.slice(1), text };
}
