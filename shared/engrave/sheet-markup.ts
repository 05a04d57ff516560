import { capitalised } from '../text/capital.ts';
import { escapeAttribute, escapeText } from './escape.ts';
import { BETWEEN_FACTS, factText } from './fact-text.ts';
import type { ProseNode } from './prose.ts';
import type { Phrase, SheetContent, ShownMention, Written } from './sheet-content.ts';
import { svgOf } from './svg.ts';

// Contents are values that never change, so the markup of one may be kept as long as it lives.
const kept = new WeakMap<SheetContent, string>();

/** A block of the flowing sheet: a well-formed XML fragment with one root element. */
export function markupOf(content: SheetContent): string {
  const known = kept.get(content);
  if (known !== undefined) return known;
  const markup = write(content);
  kept.set(content, markup);
  return markup;
}

function write(content: SheetContent): string {
  switch (content.kind) {
    case 'title': {
      const title = content.title === undefined ? '' : element('h1', 'sheet-title', content.title);
      const language = languageOf(content);
      const line = factsMarkup(content.line);
      return `<div${language}>${title}${line === '' ? '' : `<p class="sheet-facts">${line}</p>`}</div>`;
    }
    case 'facts': {
      const line = factsMarkup(content.line);
      const further = content.further.map((phrase) => element('p', 'sheet-facts', phrase));
      return `<div>${line === '' ? '' : `<p class="sheet-facts">${line}</p>`}${further.join('')}</div>`;
    }
    case 'caution':
      return element('p', 'sheet-caution', content.text);
    case 'prose': {
      const inner = content.nodes.map((node) => proseMarkup(node, content.mentions)).join('');
      return `<div class="sheet-prose"${languageOf(content)}${placed({ place: 0 })}>${inner}</div>`;
    }
    case 'heading':
      return element(`h${content.level}`, 'sheet-heading', content.text, languageOf(content));
    case 'turn':
      return `<hr class="sheet-page" aria-label="New page"${placed(content)}/>`;
    case 'diagrams':
    case 'system':
    case 'page':
      return svgOf(content.drawing, 'themed');
    case 'written':
      return content.markup;
    case 'exercise': {
      const aim =
        content.aim === undefined ? '' : element('p', 'sheet-aim', { text: content.aim }, languageOf(content));
      const line =
        content.facts.length === 0
          ? ''
          : element('p', 'sheet-facts', { text: content.facts.map(factText).join(BETWEEN_FACTS) });
      return `<div>${element('h3', 'sheet-heading', content.title, languageOf(content))}${aim}${line}</div>`;
    }
    case 'pass':
      return element('p', 'sheet-facts', content.text);
    case 'legend': {
      const signs = content.signs.map(
        ({ sample, text }) =>
          `<p class="legend-sign" role="listitem">${sample === undefined ? '' : `${svgOf(sample, 'themed')} `}${escapeText(text)}</p>`,
      );
      const title = element('p', 'sheet-facts', { text: content.title });
      return `<div class="sheet-legend">${title}<div role="list">${signs.join('')}</div></div>`;
    }
    case 'plain': {
      const above = content.sentence === undefined ? '' : element('p', 'sheet-facts', { text: content.sentence });
      return `<div>${above}${element('pre', 'sheet-plain', content.text)}</div>`;
    }
    case 'question': {
      const told = content.told.map((text) => element('p', 'sheet-note', { text })).join('');
      return `<div class="sheet-question">${element('h4', 'sheet-heading', content.title)}${element('p', 'sheet-facts', { text: content.asks })}${told}</div>`;
    }
    case 'candidate':
      return candidateMarkup(content);
    case 'note':
      return element('p', 'sheet-note', content);
    case 'unknown-name':
      return element('pre', 'sheet-plain', content.text);
  }
}

function factsMarkup(facts: readonly Phrase[]): string {
  return facts.map((fact) => `<span${placed(fact)}>${escapeText(factText(fact.text))}</span>`).join(BETWEEN_FACTS);
}

function candidateMarkup(content: Extract<SheetContent, { kind: 'candidate' }>): string {
  const { of, choice, count, why, facts, drawings } = content;
  const said = of === 'family' ? 'Write these shapes' : 'Write this tune';
  const named = `${of === 'family' ? 'Family' : 'Tune'} ${choice + 1} of ${count}`;
  const line = facts.length === 0 ? '' : element('p', 'sheet-facts', { text: `${capitalised(facts.join('; '))}.` });
  const shapes =
    drawings.length === 0
      ? ''
      : `<div class="candidate-shapes">${drawings.map((one) => svgOf(one, 'themed')).join('')}</div>`;
  // What is heard is told apart from its verb, which is another one while it plays.
  const heard = escapeAttribute(`candidate ${choice + 1} of ${count}: ${why}`);
  const hear = `<button type="button" class="play-candidate" data-hear="${heard}" aria-label="Play ${heard}">▶ Play</button>`;
  const write = `<button type="button" data-write="${choice}" aria-label="${escapeAttribute(`${said}. ${named}: ${why}`)}">${said}</button>`;
  const controls = `<div class="candidate-controls">${hear}${write}</div>`;
  const head = `<p class="candidate-why"><span class="candidate-number" aria-hidden="true">${choice + 1}</span> ${escapeText(capitalised(why))}.</p>`;
  return `<section class="candidate-card" data-candidate="${choice}" aria-label="${named}"><div class="candidate-words">${head}${line}${controls}</div>${shapes}</section>`;
}

function languageOf({ language }: Written): string {
  return language === undefined ? '' : ` lang="${escapeAttribute(language)}"`;
}

function element(name: string, className: string, phrase: Phrase, language = ''): string {
  return `<${name} class="${className}"${language}${placed(phrase)}>${escapeText(phrase.text)}</${name}>`;
}

/** Attributes of an element that stands for a place in the lesson. */
function placed({ place }: { readonly place?: number }): string {
  return place === undefined ? '' : ` data-place="${place}" tabindex="0"`;
}

/** A paragraph's node as XHTML, as a reader of Markdown would write it. */
export function proseMarkup(node: ProseNode, mentions: readonly ShownMention[]): string {
  if (node.kind === 'text') return escapeText(node.text).replaceAll('"', '&quot;');
  if (node.kind === 'mention') {
    const mention = mentions[node.mention];
    if (mention === undefined) return '';
    const drawing = mention.diagram === undefined ? '' : `${svgOf(mention.diagram, 'themed')} `;
    return `<span class="mention"${placed(mention)}>${drawing}${escapeText(mention.text)}</span>`;
  }
  const attributes = Object.entries(node.attributes).map(([name, value]) => ` ${name}="${escapeAttribute(value)}"`);
  const open = `<${node.tag}${attributes.join('')}`;
  if (node.tag === 'hr' || node.tag === 'br') return `${open} />`;
  return `${open}>${node.children.map((child) => proseMarkup(child, mentions)).join('')}</${node.tag}>`;
}
