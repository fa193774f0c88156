import { CST, Lexer } from 'yaml';
import { RuleDocumentError } from './rule-document-error.js';

/** Twice as deep as any rule document needs; far less than what a parser's stack bears. */
const MAX_DEPTH = 30;
/** Block collections go deeper by a column each at least; a sequence may stand in the column of the map it is in. */
const MAX_COLUMN = 4 * MAX_DEPTH;
/** What yaml's lexer puts between the pieces of the text; no part of it. */
const MARKS: ReadonlySet<string> = new Set([CST.DOCUMENT, CST.FLOW_END, CST.SCALAR]);
const BLOCK_INDICATORS: ReadonlySet<string> = new Set(['-', '?', ':']);

/**
 * Before parsing, because yaml's parser works on the stack, and too deep a text ends the whole process, not only the
 * parse; its lexer has no such limit. Counts brackets one in the other, and how far dashes and keys are pushed in.
 */
export function refuseDepth(file: string, text: string): void {
  let brackets = 0;
  for (const { token, line, column } of tokensOf(text)) {
    if (token === CST.FLOW_END) brackets = 0;
    if (token === '[' || token === '{') brackets++;
    if (token === ']' || token === '}') brackets--;
    const isPushedIn = brackets === 0 && BLOCK_INDICATORS.has(token) && column > MAX_COLUMN;
    if (brackets <= MAX_DEPTH && !isPushedIn) continue;
    throw new RuleDocumentError(file, line, column, `the document is nested too deep; ${MAX_DEPTH} levels are enough`);
  }
}

/** The pieces of a text, each with where it stands. Quoted and folded texts are one piece each, comments too. */
function* tokensOf(text: string): Generator<{ token: string; line: number; column: number }> {
  let [line, column] = [1, 1];
  for (const token of new Lexer().lex(text)) {
    yield { token, line, column };
    if (MARKS.has(token)) continue;
    const lines = token.split('\n');
    line += lines.length - 1;
    column = lines.length > 1 ? lines.at(-1)!.length + 1 : column + token.length;
  }
}
