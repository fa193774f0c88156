/** Texts through the writer and back by another program (libxml2), by the rules of W3C XML 1.0, fifth edition. */
import { XmlDocument, type XmlElement } from 'libxml2-wasm';
import { describe, expect, it } from 'vitest';
import { element, writeXml } from '../../src/report/xml.js';

function readBack(text: string): { attribute: string | undefined; content: string; beside: string } {
  const document = XmlDocument.fromString(
    writeXml(
      element('a', {}, element('b', { c: text, absent: undefined }, text), element('d', {}, element('e'), text)),
    ),
  );
  try {
    const [b] = document.find('/a/b') as XmlElement[];
    const [d] = document.find('/a/d') as XmlElement[];
    expect(b!.attrs.map((a) => a.name)).toEqual(['c']);
    return { attribute: b!.attr('c')?.value, content: b!.content, beside: d!.content };
  } finally {
    document.dispose();
  }
}

describe('what XML can hold comes back unchanged', () => {
  it.each([
    ['2.4: ampersands and angle brackets', 'AT&T; a < b > c'],
    ['2.4: the end of a CDATA section', 'ends ]]> here'],
    ['4.6: what looks like an entity', '&lt; &amp; &#60; &nbsp; &AT&T;'],
    ['2.3: both kinds of quotes', '"quoted" and \'quoted\''],
    ['2.11: line ends of three kinds', 'one\ntwo\r\nthree\rfour'],
    ['3.3.3: white space in attributes', ' \ttab\tand\nline, and  two spaces '],
    ['2.2: beyond the basic plane', 'Lüftung ↔ 耐火 \u{1f600} \u{10ffff}'],
    ['2.5, 2.6: what looks like a comment or an instruction', '<!-- x --> <?xml version="1.0"?>'],
    ['nothing', ''],
  ])('%s', (_, text) => {
    expect(readBack(text)).toEqual({ attribute: text, content: text, beside: text });
  });
});

it.each(['\u0000', '\u0001', '\u000b', '\u001f', '\ufffe', '\uffff', '\ud800', '\udc00'])(
  '2.2: what XML cannot hold, such as %j, becomes U+FFFD',
  (character) => {
    expect(readBack(`a${character}b`)).toEqual({ attribute: 'a\ufffdb', content: 'a\ufffdb', beside: 'a\ufffdb' });
  },
);
