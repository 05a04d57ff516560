import { escapeAttribute, escapeText } from '../../engrave/escape.ts';

/** An element with text, with elements, or with nothing in it. */
export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string | number | undefined>>;
  readonly content: string | readonly XmlElement[];
}

type Attributes = XmlElement['attributes'];

/** What is undefined is left out. */
export function element(
  name: string,
  attributes: Attributes,
  content: readonly (XmlElement | undefined)[],
): XmlElement {
  return { name, attributes, content: content.filter((child) => child !== undefined) };
}

export function textElement(name: string, text: string | number, attributes: Attributes = {}): XmlElement {
  return { name, attributes, content: String(text) };
}

export function emptyElement(name: string, attributes: Attributes = {}): XmlElement {
  return { name, attributes, content: [] };
}

/** A whole document, an element a line. */
export function printXml(root: XmlElement): string {
  const lines = ['<?xml version="1.0" encoding="UTF-8"?>'];
  printElement(root, '', lines);
  return `${lines.join('\n')}\n`;
}

function printElement({ name, attributes, content }: XmlElement, indent: string, lines: string[]): void {
  const told = Object.entries(attributes)
    .map(([key, value]) => (value === undefined ? '' : ` ${key}="${escapeAttribute(String(value))}"`))
    .join('');
  if (typeof content === 'string') lines.push(`${indent}<${name}${told}>${escapeText(content)}</${name}>`);
  else if (content.length === 0) lines.push(`${indent}<${name}${told}/>`);
  else {
    lines.push(`${indent}<${name}${told}>`);
    for (const child of content) printElement(child, `${indent}  `, lines);
    lines.push(`${indent}</${name}>`);
  }
}
