/**
 * Texts that do harm where they are taken for more than text, by what they are meant for. Kinds: OWASP cheat sheets (cross-site
 * scripting, CSV injection), CWE-22, 79, 91, 116, 150, 611, 1236, 1321, UTS 39 (bidi and invisible characters).
 */

/** Stands where a text says which one it is and where it was put: `h07wall`. */
const MARK = '§';

/** With the mark at its end but where the end is what does the harm, or where a long text is cut. */
const TEXTS: Readonly<Record<string, readonly string[]>> = {
  html: [
    '<script>window.pwned=1</script> §',
    '<img src=x onerror=window.pwned=1> §',
    '"><svg onload=window.pwned=1> §',
    "' onmouseover='window.pwned=1' x=' §",
    '</title></style></textarea><h1>§</h1>',
    '</script><script>window.pwned=1//§',
    '<!-- § --!><b>',
    '<a href="javascript:window.pwned=1">§</a>',
    '<iframe srcdoc="<script>parent.pwned=1</script>"> §',
    '<base href="//example.org/"> §',
    '<meta http-equiv=refresh content="0;url=//example.org"> §',
    '<style>*{display:none}</style> §',
    '&lt;script&gt; &#60;b&#62; &amp;amp; &nbsp; §',
    'AT&T; &copy §',
    '<ratedrun-viewer src="//example.org/"></ratedrun-viewer> §',
  ],
  svg: [
    '</text></svg><svg><script>window.pwned=1</script> §',
    '<foreignObject><b>§</b></foreignObject>',
    'url(#a) url(//example.org/a.svg#b) §',
    '<use href="//example.org/a.svg#b"/> §',
  ],
  css: ['"} body{display:none} @import "//example.org"; /* §', '\\22 \\7d \\0a §', 'a:expression(1);§'],
  xml: [
    ']]> § <![CDATA[<b>',
    '<?xml version="1.0"?><!DOCTYPE a [<!ENTITY b SYSTEM "file:///etc/passwd">]>&b; §',
    '&b; &#0; &#x1F; &#xD800; §',
    'a\u0000b\u0008c\u000bd\u001fe\ufffe\uffff §',
    'high \ud800 low \udc00 §',
    'xmlns:a="b" a:c="d" §',
    'a\tb\nc\rd §',
  ],
  spreadsheet: [
    '=HYPERLINK("//example.org","§")',
    "=cmd|'/C calc'!A0 §",
    '+1+cmd|§',
    '-2+3+cmd|§',
    '@SUM(1+1)*cmd|§',
    '\t=1+1 §',
    '\r=1+1 §',
    '\n=1+1 §',
    ' =1+1 §',
    '＝1+1 §',
    '%0A-1+1 §',
    'a","=1+1","§',
    'a;=1+1;§',
    'a\t=1+1\t§',
    'a"\r\n=1+1,§',
    '_x003C_b_x003E_ _x0000_ §',
    'DDE("cmd";"/C calc";"§")',
  ],
  terminal: [
    '\u001b[31mred\u001b[2J\u001b[H §',
    '\u001b]0;title\u0007\u001b]8;;http://example.org\u001b\\link §',
    '\u001b]52;c;ZWNobw==\u0007 §',
    '\u009b31m\u009d0;title\u009c\u0090q\u009c §',
    'over\rwritten\b\b\b\u007f §',
    '\u001bP+q544e\u001b\\\u001b[6n\u001bc §',
    'a\u0085b\u2028c\u2029d §',
  ],
  unicode: [
    'passed \u202edeliaf\u202c \u2066x\u2069 \u200f\u200e\u061c §',
    'in\u200bvis\u200cib\u200dle\u2060\ufeff\u00ad §',
    'e\u0301\u0301\u0301\u0301\u0301\u0301\u0301\u0301 z͑ͫ̓ͪ̂ͫ̽͏̴̙̤̞͉͚̯̞̠͍A̴̵̜̰͔ͫ͗͢ §',
    'tag\u{e0041}\u{e007f} \ufff9a\ufffab\ufffb \u180e\u206a §',
    '𝕳😀👩‍👩‍👧‍👦 العربية עברית §',
    '\u{10ffff}\u{1fffe} §',
  ],
  names: [
    '../../../etc/§',
    '..\\..\\..\\windows\\§',
    '/etc/passwd/§',
    'C:\\§',
    '\\\\host\\share\\§',
    'report.json\u0000.png §',
    'CON',
    'file:///etc/passwd#§',
    '~/.ssh/§',
    '$(touch §) `touch §` ; touch § | cat && §',
    '--out=§',
    '-rf §',
  ],
  objects: ['__proto__', 'constructor', 'toString', '{"__proto__":{"polluted":"§"}}', 'hasOwnProperty'],
  templates: [
    `{duct.name} {{§}} $${'{7*7}'} #{7*7} <%= 7*7 %>`,
    '%s%n%x%d %25 §',
    "'; DROP TABLE ducts; -- §",
    'true || size("§") > 0 ? "a" : "b"',
    '- *a\n&b : !!js/function "§" # |',
    "'§', \"§\", `§`, \\§, ''§''",
    "#1=IFCWALL('§');ENDSEC;END-ISO-10303-21;",
    '\\X2\\0041\\X0\\ \\S\\A \\P §',
    '*/ §) -- /*',
  ],
  long: [
    `§ ${'W'.repeat(5000)}`,
    `§ ${'<b>&"'.repeat(400)}`,
    `§ ${'\u202e=\u001b['.repeat(500)}`,
    `§ ${'a '.repeat(3000)}`,
  ],
  bare: ['§', ' § ', 'null', 'NaN', 'true', '2026-01-01', '0x10', 'undefined', '-/120/120 §'],
};

export interface HostileText {
  readonly kind: string;
  /** Two figures, to stand in marks. */
  readonly number: string;
  /** @param place where it is put; it stands in the text, unless the text does harm only as it is */
  readonly at: (place: string) => string;
  /** Whether the text says where it was put. */
  readonly isMarked: boolean;
}

export const markOf = (number: string, place: string): string => `h${number}${place}`;

export const HOSTILE: readonly HostileText[] = Object.entries(TEXTS)
  .flatMap(([kind, texts]) => texts.map((text) => ({ kind, text })))
  .map(({ kind, text }, i) => {
    const number = String(i).padStart(2, '0');
    return {
      ...{ kind, number, isMarked: text.includes(MARK) },
      at: (place) => text.replaceAll(MARK, markOf(number, place)),
    };
  });

/** Blanks, marks of markup and words without end do no harm by themselves, and show what they are written with. */
const HARMLESS_ENDS = ['', ' & <so>\non ', ` ${'W'.repeat(400)}`];

/** The same marks in texts that do no harm: what outputs look like when nothing is wrong. */
export const HARMLESS: readonly HostileText[] = HOSTILE.map((one, i) => ({
  ...one,
  isMarked: true,
  at: (place) => `Plain  ${markOf(one.number, place)}${HARMLESS_ENDS[i % HARMLESS_ENDS.length]}`,
}));
