/**
 * JSON that says the same wherever it is shown: what a terminal would obey, what turns text round, and what would end or open an
 * element of a page (`</script>`, `<!--`) is written as an escape (RFC 8259, 7), so that whoever parses it gets the same text.
 *
 * @param indent spaces for each level; left out: on one line
 */
export const jsonText = (value: unknown, indent?: number): string =>
  `${JSON.stringify(value, null, indent).replace(TO_ESCAPE, escaped)}\n`;

/** Below U+0020 JSON.stringify escapes all, and halves of surrogate pairs too. Outside of texts none of these occurs. */
const TO_ESCAPE =
  /[\u007f-\u009f\u061c\u180e\u200e\u200f\u2028-\u202e\u2061-\u206f\ufeff\ufff9-\ufffb]|<(?=[/!?a-z])|\udb40[\udc00-\udc7f]/gi;

const escaped = (text: string): string =>
  Array.from({ length: text.length }, (_, i) => `\\u${text.charCodeAt(i).toString(16).padStart(4, '0')}`).join('');
