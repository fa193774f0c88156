import { RuleDocumentError } from './rule-document-error.js';

/**
 * What YAML 1.2 does not count as printable, and three that it does: a byte order mark in the middle, the next line
 * that only YAML 1.1 took for a line break, and U+FFFD, which a decoder leaves where the bytes were not UTF-8.
 */
const NO_TEXT = /(?![\t\n\r])[\p{Cc}\p{Cs}\ufeff\ufffd\ufffe\uffff]/u;
/** Would be one line to yaml and several to whoever reads it. */
const RETURN_ALONE = /\r(?!\n)/;

/** What is wrong with the first character that may not stand in a text, and where. */
export function strangeCharacter(text: string): { readonly index: number; readonly message: string } | undefined {
  const found = NO_TEXT.exec(text);
  if (!found) return undefined;
  const [character] = found;
  const code = character.codePointAt(0)!.toString(16).toUpperCase().padStart(4, '0');
  const message =
    character === '\ufffd'
      ? 'this is not UTF-8 text; save the file as UTF-8'
      : `the character U+${code} may not stand in a document; take it out, or save the file as UTF-8 text`;
  return { index: found.index, message };
}

/**
 * Binary files and texts of other encodings are told from YAML before it is made sense of.
 * @throws RuleDocumentError
 */
export function refuseCharacters(file: string, text: string): void {
  // One byte order mark may stand at the start; it becomes a blank, so that places stay what they are.
  const body = text.startsWith('\ufeff') ? ` ${text.slice(1)}` : text;
  const strange = strangeCharacter(body);
  if (strange) throw at(file, body, strange.index, strange.message);
  const alone = body.search(RETURN_ALONE);
  if (alone >= 0)
    throw at(file, body, alone, 'a line ends with a carriage return alone; save the file with line feeds');
}

function at(file: string, text: string, index: number, message: string): RuleDocumentError {
  const lines = text.slice(0, index).split('\n');
  return new RuleDocumentError(file, lines.length, lines.at(-1)!.length + 1, message);
}
