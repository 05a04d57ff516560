/** The part of the sax parser that the tests use. */
declare module 'sax' {
  export interface SAXParser {
    onerror: (error: Error) => void;
    onopentag: (tag: { readonly name: string; readonly attributes: Readonly<Record<string, string>> }) => void;
    ontext: (text: string) => void;
    write(text: string): SAXParser;
    close(): SAXParser;
  }
  const sax: { parser(strict: boolean): SAXParser };
  export default sax;
}
