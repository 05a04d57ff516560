import { readFileSync } from 'node:fs';
import { XmlBufferInputProvider, XmlDocument, XsdValidator, xmlRegisterInputProvider } from 'libxml2-wasm';

const SCHEMA = new URL('schema/', import.meta.url);
const bytesOf = (name: string): Uint8Array => readFileSync(new URL(name, SCHEMA));

xmlRegisterInputProvider(
  new XmlBufferInputProvider({
    'http://www.musicxml.org/xsd/xml.xsd': bytesOf('xml.xsd'),
    'http://www.musicxml.org/xsd/xlink.xsd': bytesOf('xlink.xsd'),
  }),
);

const validator = XsdValidator.fromDoc(XmlDocument.fromBuffer(bytesOf('musicxml.xsd')));

/** What the schema of MusicXML 4.0 says against a document; nothing where it is valid. */
export function faultOf(xml: string): string | undefined {
  let document: XmlDocument | undefined;
  try {
    document = XmlDocument.fromString(xml);
    validator.validate(document);
    return undefined;
  } catch (fault) {
    return fault instanceof Error ? fault.message : String(fault);
  } finally {
    document?.dispose();
  }
}
