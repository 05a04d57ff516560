/** The part of `chord-symbol` 4.0.0 that the comparison asks. Its main entry does not load in plain Node; the built file does. */
declare module 'chord-symbol/lib/chord-symbol.js' {
  interface ReadChord {
    readonly normalized: { readonly semitones: readonly number[] };
    readonly input: { readonly bassNote?: string };
  }
  interface Failure {
    readonly error: readonly unknown[];
  }
  interface Library {
    readonly chordParserFactory: () => (text: string) => ReadChord | Failure;
  }
  /** Node loads the file as a whole under `default`; a bundler gives its parts by name. */
  const library: Library | undefined;
  export default library;
  export const chordParserFactory: Library['chordParserFactory'] | undefined;
}
