import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { loadWASM, OnigScanner, OnigString } from 'vscode-oniguruma';
import { type IGrammar, INITIAL, parseRawGrammar, Registry } from 'vscode-textmate';

const grammarFile = new URL('../../syntaxes/handspan.tmLanguage.json', import.meta.url);

/** A stretch of one line with all its scopes, outermost first. */
export interface Scoped {
  readonly text: string;
  readonly scopes: readonly string[];
  /** What the editor takes it for when it decides whether suggestions pop up. */
  readonly tokenType: 'other' | 'comment' | 'string';
}

/** The grammar in the very engine that the editor uses. */
export async function loadLessonGrammar(): Promise<IGrammar> {
  const wasm = readFileSync(createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm'));
  await loadWASM(wasm.buffer.slice(wasm.byteOffset, wasm.byteOffset + wasm.byteLength));
  const registry = new Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new OnigScanner(patterns),
      createOnigString: (text) => new OnigString(text),
    }),
    loadGrammar: async () => parseRawGrammar(readFileSync(grammarFile, 'utf8'), 'handspan.tmLanguage.json'),
  });
  const grammar = await registry.loadGrammar('text.handspan');
  if (grammar === null) throw new Error('The grammar could not be loaded.');
  return grammar;
}

/** Every line's stretches, in order. */
export function tokenize(grammar: IGrammar, lesson: string): readonly (readonly Scoped[])[] {
  let state = INITIAL;
  return lesson.split('\n').map((line) => {
    const plain = grammar.tokenizeLine(line, state);
    const packed = grammar.tokenizeLine2(line, state).tokens;
    state = plain.ruleStack;
    return plain.tokens.map(({ startIndex, endIndex, scopes }) => ({
      text: line.slice(startIndex, endIndex),
      scopes,
      tokenType: tokenTypeAt(packed, startIndex),
    }));
  });
}

/** Bits 8 and 9 of a packed token's second number hold its type. Source: encodedTokenAttributes.ts of vscode-textmate. */
function tokenTypeAt(packed: Uint32Array, column: number): Scoped['tokenType'] {
  let metadata = 0;
  for (let at = 0; at < packed.length && (packed[at] ?? 0) <= column; at += 2) metadata = packed[at + 1] ?? 0;
  const type = (metadata >>> 8) & 0b11;
  return type === 1 ? 'comment' : type === 2 ? 'string' : 'other';
}
