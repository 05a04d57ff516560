import fc from 'fast-check';
import { micromark } from 'micromark';
import { describe, expect, test } from 'vitest';
import { readProse } from '../../shared/engrave/prose.ts';
import type { ShownMention } from '../../shared/engrave/sheet-content.ts';
import { proseMarkup } from '../../shared/engrave/sheet-markup.ts';
import { readEntry } from '../../shared/lesson/syntax/read-entry.ts';
import type { Prose } from '../../shared/lesson/syntax/statement.ts';
import { readXml } from './well-formed.ts';

function proseOf(lines: string): Prose {
  const { statement } = readEntry(
    lines
      .split('\n')
      .map((line) => `> ${line}`)
      .join('\n'),
  );
  const prose = statement.kind === 'prose' ? statement.paragraphs[0] : undefined;
  if (prose === undefined) throw new Error('no prose');
  return prose;
}

/** Knows Em and D(add9), as the longest names at the start of a mention. */
function shown(lines: string): string {
  const mentions: ShownMention[] = [];
  const nodes = readProse(proseOf(lines), (word) => {
    const text = ['D(add9)', 'Em'].find((known) => word.text.startsWith(known));
    if (text === undefined) return undefined;
    mentions.push({ text, place: mentions.length + 1 });
    return { length: text.length };
  });
  const markup = nodes.map((node) => proseMarkup(node, mentions)).join('');
  return markup.replace(/<span class="mention" data-place="\d+" tabindex="0">([^<]*)<\/span>/g, '<b>$1</b>');
}

describe('prose', () => {
  test.each([
    ['Markdown inside', 'let **every** string *ring*', '<p>let <strong>every</strong> string <em>ring</em></p>'],
    [
      'a mention, and the punctuation after it',
      'play @Em, then @D(add9).',
      '<p>play <b>Em</b>, then <b>D(add9)</b>.</p>',
    ],
    ['a mention inside strong words', '**try @Em now**', '<p><strong>try <b>Em</b> now</strong></p>'],
    ['a mention that nobody knows', 'ask @somebody', '<p>ask @somebody</p>'],
    ['an address is no mention', 'ada@Em.example', '<p>ada@Em.example</p>'],
    ['code is left alone', 'type `@Em` here', '<p>type <code>@Em</code> here</p>'],
    ['HTML stays text', '<script>alert(1)</script>', '&lt;script&gt;alert(1)&lt;/script&gt;'],
    ['a picture gives way to its words', '![a hand](https://example.org/hand.png)', '<p>a hand</p>'],
    [
      'a link to the web',
      '[more](https://example.org/?a=1&b=2)',
      '<p><a href="https://example.org/?a=1&amp;b=2">more</a></p>',
    ],
    ['a link to the post', '[ask](mailto:ada@example.org)', '<p><a href="mailto:ada@example.org">ask</a></p>'],
    ['a link to a program', '[run](command:workbench.action.quit)', '<p>run</p>'],
    ['a link to a script', '[run](javascript:alert(1))', '<p>run</p>'],
    ['a link into the folder', '[file](../secret.md)', '<p>file</p>'],
    [
      'a mention in an address stays typed',
      '[x](https://example.org/@Em)',
      '<p><a href="https://example.org/@Em">x</a></p>',
    ],
    ['a list', '- one\n- two', '<ul>\n<li>one</li>\n<li>two</li>\n</ul>'],
  ])('%s', (_name, lines, expected) => expect(shown(lines).trim()).toBe(expected));

  test('a link with an address that leads nowhere safe keeps its words and their emphasis', () => {
    expect(shown('[**run** it](data:text/html,x)')).toBe('<p><strong>run</strong> it</p>');
  });

  test('reads and writes as the reader of Markdown does, where there is nothing to change', () => {
    const piece = fc.constantFrom(
      ...[
        '**',
        '*',
        '`',
        '\n',
        '\n\n',
        '- ',
        '  ',
        '    ',
        '1. ',
        '7) ',
        '> ',
        '# ',
        '---',
        '```',
        '<i>',
        '&lt;',
        '"',
        '&',
        'word',
        ' ',
      ],
    );
    fc.assert(
      fc.property(fc.array(piece, { minLength: 1, maxLength: 30 }), (pieces) => {
        const lines = pieces.join('').replace(/^\n+/, '');
        if (lines.trim() === '') return;
        const prose = proseOf(lines);
        expect(shown(lines)).toBe(micromark(prose.lines.map(({ text }) => text).join('\n')));
      }),
      { seed: 32, numRuns: 600 },
    );
  });

  test('is well-formed, holds no picture and no unsafe link, whatever is typed', () => {
    const piece = fc.constantFrom(
      '@Em',
      '@D(add9)',
      '**',
      '*',
      '`',
      '[a](',
      'javascript:',
      'https://x.org',
      ')',
      '![',
      ']',
      '<b>',
      '</b>',
      '&amp;',
      '&#0;',
      '&nbsp;',
      '<img src=x>',
      '\\',
      '\uE000',
      '0',
      '\uE001',
      '\u0000',
      '\ud800',
      ' ',
      '\n',
      '# ',
      '- ',
      '1. ',
      '> ',
      '---',
      '"',
      "'",
      'word',
    );
    fc.assert(
      fc.property(fc.array(piece, { minLength: 1, maxLength: 30 }), (pieces) => {
        const lines = pieces.join('').replace(/^\n+/, '');
        if (lines.trim() === '') return;
        for (const { name, attributes } of readXml(shown(lines)).elements) {
          expect(name).not.toMatch(/^(img|script|style|iframe)$/);
          expect(Object.keys(attributes).every((key) => ['href', 'title', 'class', 'start'].includes(key))).toBe(true);
          if (name === 'a') expect(attributes.href).toMatch(/^(https?:|mailto:)/i);
        }
      }),
      { seed: 31, numRuns: 600 },
    );
  });
});
