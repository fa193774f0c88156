/** Every output as a reader by others takes it: what it says, what it is made of, and what is wrong with it whatever it says. */
import { strFromU8, unzipSync } from 'fflate';
import { XmlDocument, XmlElement, type XmlTreeNode } from 'libxml2-wasm';
import { marked } from 'marked';
import { parse, type DefaultTreeAdapterTypes as Tree } from 'parse5';
import { getDocument } from 'pdfjs-dist/legacy/build/pdf.mjs';
import { parseDocument } from 'yaml';
import { records } from '../report/read-csv.js';
import { all, textOf } from '../report/read-html.js';

export interface Looked {
  /** All text, also that of attributes. */
  readonly said: string;
  /** Kinds of elements, attributes, cells, keys: no text may make one that harmless texts do not. */
  readonly made: ReadonlySet<string>;
  readonly wrong: readonly string[];
}

/** Control characters of both sets but the line feed, line separators, and what turns or hides text (ECMA-48, UAX 9, UTS 39). */
export const OBEYED = /(?!\n)[\p{Cc}\p{Zl}\p{Zp}\p{Bidi_Control}\ufeff\ufff9-\ufffb]/u;

const text = (bytes: Uint8Array): string => new TextDecoder('utf-8', { fatal: true, ignoreBOM: true }).decode(bytes);
const shown = (value: string): string => JSON.stringify(value.slice(0, 80));

/** Of a terminal. */
export const readPrinted = (lines: string): Looked => ({
  said: lines,
  made: new Set(),
  wrong: lines
    .split('\n')
    .filter((line) => OBEYED.test(line))
    .map(shown),
});

/** YAML as it is printed to be filled in. */
export function readYaml(lines: string): Looked {
  const { errors, warnings } = parseDocument(lines);
  return {
    ...readPrinted(lines),
    wrong: [...readPrinted(lines).wrong, ...[...errors, ...warnings].map((e) => e.message)],
  };
}

export function readHtml(bytes: Uint8Array): Looked {
  const wrong: string[] = [];
  const document = parse(text(bytes), {
    onParseError: ({ code, startLine }) => wrong.push(`${code} in line ${startLine}`),
  });
  const made = new Set<string>();
  const said: string[] = [textOf(document)];
  for (const element of all(document)) {
    made.add(element.tagName);
    if (element.tagName === 'style') made.add(styleWithoutStrings(element));
    for (const { name, value } of element.attrs) {
      made.add(`${element.tagName} ${name}`);
      said.push(value);
      if (/^on|^src|^action$|^formaction$/.test(name) || (name === 'style' && !OUR_STYLES.test(value)))
        wrong.push(`${name}=${shown(value)}`);
      if (/href$/.test(name) && !/^#[\w-]+$/.test(value)) wrong.push(`${name}=${shown(value)}`);
      if (/url\(/.test(value) && !/^url\(#[\w-]+\)$/.test(value)) wrong.push(`${name}=${shown(value)}`);
    }
  }
  if (OBEYED.test(textOf(document).replaceAll('\n', ''))) wrong.push('what is unprintable');
  return { said: said.join('\n'), made, wrong };
}

/** GitHub's Markdown, in which also a bare address is a link: as the HTML that it is shown as. */
export function readMarkdown(bytes: Uint8Array): Looked {
  const html = marked.parse(text(bytes), { async: false, gfm: true });
  return readHtml(new TextEncoder().encode(`<!DOCTYPE html><title></title>${html}`));
}

/** By pdf.js: nothing runs, opens or is attached, and links lead nowhere else. */
export async function readPdf(bytes: Uint8Array): Promise<Looked> {
  const document = await getDocument({ data: new Uint8Array(bytes), verbosity: 0 }).promise;
  const [said, made, wrong]: [string[], Set<string>, string[]] = [[], new Set(), []];
  if (await document.getJSActions()) wrong.push('a script');
  if (await document.getAttachments()) wrong.push('an attachment');
  if (await document.getOpenAction()) wrong.push('an action when it is opened');
  for (let i = 1; i <= document.numPages; i++) {
    const page = await document.getPage(i);
    if (await page.getJSActions()) wrong.push(`a script on page ${i}`);
    const { items } = await page.getTextContent();
    said.push(items.map((item) => ('str' in item ? item.str : '')).join(''));
    for (const note of (await page.getAnnotations()) as readonly Readonly<Record<string, unknown>>[]) {
      made.add(String(note.subtype));
      if (note.url || note.unsafeUrl || note.action)
        wrong.push(`a link to ${shown(String(note.url ?? note.unsafeUrl))}`);
    }
  }
  await document.destroy();
  return { said: said.join('\n'), made, wrong };
}

/** Sizes that are worked out, and how drawings set figures. */
const OUR_STYLES = /^(font-variant-numeric:tabular-nums;font-kerning:none|(width|height):[\d.]+mm)$/;

/** A style sheet may say the texts of running heads, as strings. */
const styleWithoutStrings = (style: Tree.Element): string =>
  textOf(style).replace(/"(?:[^"\\\n]|\\[0-9a-f]{1,6} ?|\\.)*"/g, '""');

/** Keys are the program's own words; none is a text of a model, or has the name of what every object has. */
export function readJson(bytes: Uint8Array): Looked {
  const json = text(bytes);
  const keys = new Set<string>();
  const said: string[] = [];
  walk(
    JSON.parse(json),
    (key) => keys.add(key),
    (value) => said.push(value),
  );
  const foreign = [...keys].filter(
    (key) => key in {} || !/^[a-z][A-Za-z0-9:._-]*$/.test(key) || /h\d\d[a-z]/.test(key),
  );
  const lines = json.split('\n').filter((line) => OBEYED.test(line) || /<[/!?a-z]/i.test(line));
  return { said: said.join('\n'), made: new Set(), wrong: [...foreign, ...lines].map(shown) };
}

function walk(value: unknown, onKey: (key: string) => void, onText: (text: string) => void): void {
  if (typeof value === 'string') onText(value);
  if (typeof value !== 'object' || value === null) return;
  for (const [key, item] of Object.entries(value)) {
    if (!Array.isArray(value)) onKey(key);
    walk(item, onKey, onText);
  }
}

export function readCsv(bytes: Uint8Array): Looked {
  const rows = records(text(bytes));
  const width = rows[0]!.length;
  const wrong = rows.flatMap((row) => [
    ...(row.length === width ? [] : [`a row of ${row.length} fields`]),
    // Read with another separator than the comma, which the cell knows nothing of, no part may be a formula either.
    ...row.flatMap((cell) => cell.split(/[;\t\n\r]/)).filter((cell) => /^\s*[=+\-@＝＋－＠]/u.test(cell)),
    ...row.filter((cell) => OBEYED.test(cell)),
  ]);
  return { said: rows.flat().join('\n'), made: new Set([`${width} columns`]), wrong: wrong.map(shown) };
}

/** Well-formed, or libxml2 says why not. */
export function readXmlText(bytes: Uint8Array): Looked {
  const made = new Set<string>();
  const said: string[] = [];
  const document = XmlDocument.fromBuffer(bytes);
  try {
    if (/<!DOCTYPE|<!ENTITY|<!\[CDATA\[/.test(text(bytes)))
      return { said: '', made, wrong: ['a document type or CDATA'] };
    walkXml(document.root, made, said);
  } finally {
    document.dispose();
  }
  return { said: said.join('\n'), made, wrong: [] };
}

function walkXml(element: XmlElement, made: Set<string>, said: string[]): void {
  made.add(element.name);
  for (const { name, content } of element.attrs) {
    made.add(`${element.name} ${name}`);
    said.push(content);
  }
  said.push(element.content);
  for (let node: XmlTreeNode | null = element.firstChild; node; node = node.next)
    if (node instanceof XmlElement) walkXml(node, made, said);
}

/** Cells by their own types (ECMA-376 Part 1, 18.3.1.4 and 18.18.11): shared strings, numbers, booleans; no `f`. */
export function readXlsxFile(bytes: Uint8Array): Looked {
  const looked = readZip(bytes, /^(\[Content_Types\]\.xml|_rels\/\.rels|docProps\/\w+\.xml|xl\/[\w/.]+\.(xml|rels))$/);
  const sheets = Object.entries(unzipSync(bytes)).filter(([name]) => /sheet\d+\.xml$/.test(name));
  const wrong = sheets.flatMap(([name, content]) => {
    const xml = strFromU8(content);
    const types = new Set([...xml.matchAll(/<c [^>]*?\bt="(\w+)"/g)].map(([, type]) => type!));
    return [
      ...[...types].filter((type) => !['s', 'n', 'b'].includes(type)).map((type) => `${name}: cells of type ${type}`),
      ...(/<(f|hyperlink|oleObject|ddeLink|externalReference)\b/.test(xml) ? [`${name}: a formula or link`] : []),
    ];
  });
  return { ...looked, wrong: [...looked.wrong, ...wrong] };
}

export const readBcfFile = (bytes: Uint8Array): Looked =>
  readZip(
    bytes,
    /^(bcf\.version|project\.bcfp|extensions\.(xml|xsd)|[0-9a-f-]{36}\/(markup\.bcf|[\w-]+\.(bcfv|png)))$/,
  );

function readZip(bytes: Uint8Array, names: RegExp): Looked {
  const looked = Object.entries(unzipSync(bytes)).flatMap(([name, content]): Looked[] => {
    if (/^[0-9a-f-]{36}\/$/.test(name)) return []; // a folder
    const wrong = names.test(name) ? [] : [`a file called ${shown(name)}`];
    if (/\.png$/.test(name)) return [{ said: '', made: new Set(), wrong }];
    const one = readXmlText(content);
    return [{ ...one, wrong: [...wrong, ...one.wrong] }];
  });
  return {
    said: looked.map(({ said }) => said).join('\n'),
    made: new Set(looked.flatMap(({ made }) => [...made])),
    wrong: looked.flatMap(({ wrong }) => wrong),
  };
}

/** The JSON chunk of binary glTF 2.0. */
export function readGlb(bytes: Uint8Array): Looked {
  const view = new DataView(bytes.buffer, bytes.byteOffset);
  const json = bytes.subarray(20, 20 + view.getUint32(12, true));
  return { ...readJson(json), wrong: view.getUint32(8, true) === bytes.length ? [] : ['its length'] };
}

/** Statements of ISO 10303-21 one by one: a text that ends its string would make another. */
export function readStep(bytes: Uint8Array): Looked {
  const lines = text(bytes).trimEnd().split('\n');
  const statement = /^(#\d+=[A-Z0-9]+\((?:[^']|'(?:[^']|'')*')*\);|[A-Z_]+\((?:[^']|'(?:[^']|'')*')*\);|[A-Z0-9-]+;)$/;
  const made = new Set(
    lines.map((line) =>
      line
        .replace(/'(?:[^']|'')*'/g, "''")
        .replace(/[^A-Z_].*/, '')
        .concat(/=([A-Z0-9]+)/.exec(line)?.[1] ?? ''),
    ),
  );
  const wrong = lines.filter((line) => !statement.test(line) || /[^ -~]/.test(line));
  return { said: lines.join('\n'), made, wrong: wrong.map(shown) };
}
