import { CST } from 'yaml';
import { RuleDocumentError } from './rule-document-error.js';

/** Twice as deep as any rule document needs; far less than what a parser's stack bears. */
const MAX_DEPTH = 30;
/** Block collections go deeper by a column each at least; a sequence may stand in the column of the map it is in. */
const MAX_COLUMN = 4 * MAX_DEPTH;
/** What yaml's lexer puts between the pieces of the text; no part of it. */
const MARKS: ReadonlySet<string> = new Set([CST.DOCUMENT, CST.FLOW_END, CST.SCALAR]);
const BLOCK_INDICATORS: ReadonlySet<string> = new Set(['-', '?', ':']);

/**
 * Between yaml's lexer and its parser, because the parser works on the stack, and too deep a text ends the whole process,
 * not only the parse; the lexer has no such limit. Counts brackets one in the other, and how far dashes and keys are
 * pushed in. Gives the lexer's tokens on as they came.
 */
export function* refusingDepth(file: string, tokens: Iterable<string>): Generator<string> {
  let brackets = 0;
  for (const { token, line, column } of placed(tokens)) {
    if (token === CST.FLOW_END) brackets = 0;
    if (token === '[' || token === '{') brackets++;
    if (token === ']' || token === '}') brackets--;
    const isPushedIn = brackets === 0 && BLOCK_INDICATORS.has(token) && column > MAX_COLUMN;
    if (brackets > MAX_DEPTH || isPushedIn)
      throw new RuleDocumentError(
        file,
        line,
        column,
        `the document is nested too deep; ${MAX_DEPTH} levels are enough`,
      );
    yield token;
  }
}

/** The pieces of a text, each with where it stands. Quoted and folded texts are one piece each, comments too. */
function* placed(tokens: Iterable<string>): Generator<{ token: string; line: number; column: number }> {
  let [line, column] = [1, 1];
  for (const token of tokens) {
    yield { token, line, column };
    if (MARKS.has(token)) continue;
    const lastBreak = token.lastIndexOf('\n');
    if (lastBreak < 0) column += token.length;
    else {
      line += token.split('\n').length - 1;
      column = token.length - lastBreak;
    }
  }
}
