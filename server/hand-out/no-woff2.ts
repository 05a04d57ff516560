/** Stands in for the unpacker of WOFF2 in the bundle: the product's faces are packed as WOFF. */
export default function unpackWoff2(): never {
  throw new Error('This face is packed as WOFF2, which is not read here; give it as WOFF, TrueType or OpenType.');
}
