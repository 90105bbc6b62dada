/** An element being written: a name, attributes in order (undefined ones left out), and what is in it. */
export type XmlElement = {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string | number | undefined>>;
  readonly children: readonly (XmlElement | string)[];
};

export const xml = (name: string, attributes: XmlElement['attributes'] = {}, ...children: XmlElement['children']): XmlElement => ({
  name,
  attributes,
  children,
});

// XML 1.0, production [2] Char: what is none of these cannot be in a document, not even as a reference.
const NO_CHAR = /[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu;
const ESCAPES: Readonly<Record<string, string>> = {
  '&': '&amp;',
  '<': '&lt;',
  '>': '&gt;',
  '"': '&quot;',
  // A parser turns these into spaces or line feeds unless they are references.
  '\t': '&#9;',
  '\n': '&#10;',
  '\r': '&#13;',
};

/** The text that a parser of XML gives back for this one: what XML cannot hold is shown as U+FFFD. */
export const xmlSafe = (text: string): string => text.replace(NO_CHAR, '\u{FFFD}');

const escaped = (text: string): string => xmlSafe(text).replace(/[&<>"\t\n\r]/g, (sign) => ESCAPES[sign] ?? sign);

function lines(element: XmlElement, indent: string, out: string[]): void {
  const attributes = Object.entries(element.attributes)
    .filter(([, value]) => value !== undefined)
    .map(([name, value]) => ` ${name}="${escaped(String(value))}"`)
    .join('');
  const head = `${indent}<${element.name}${attributes}`;
  if (element.children.length === 0) out.push(`${head}/>`);
  else if (element.children.every((child) => typeof child === 'string'))
    out.push(`${head}>${element.children.map((child) => escaped(String(child))).join('')}</${element.name}>`);
  else {
    out.push(`${head}>`);
    for (const child of element.children) typeof child === 'string' ? out.push(escaped(child)) : lines(child, `${indent}  `, out);
    out.push(`${indent}</${element.name}>`);
  }
}

/** A whole document, in UTF-8. */
export function xmlDocument(root: XmlElement): string {
  const out = ['<?xml version="1.0" encoding="UTF-8"?>'];
  lines(root, '', out);
  return `${out.join('\n')}\n`;
}
