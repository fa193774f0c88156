/** Cuts a rating text into numbers, fractions, words and symbols. Nothing is dropped but white space. */

export interface Token {
  readonly kind: 'number' | 'fraction' | 'word' | 'symbol';
  /** Words in upper case; fractions as `1/2`; dashes as `-`; arrows as `↔`, `→`, `←`. */
  readonly text: string;
  /** Nothing stands between this token and the one before it. */
  readonly glued: boolean;
}

const VULGAR: Readonly<Record<string, string>> = { '½': '1/2', '¼': '1/4', '¾': '3/4', '⅓': '1/3', '⅔': '2/3' };
const ARROWS: Readonly<Record<string, string>> = {
  '<->': '↔',
  '<>': '↔',
  '⟷': '↔',
  '->': '→',
  '⟶': '→',
  '<-': '←',
  '⟵': '←',
};

/**
 * Same signs, one spelling. Not Unicode NFKC: that makes "11⁄2" of "1½" and "601" of "60¹".
 * Upper case for ASCII only, as Unicode upper case turns letters that were never Latin class letters into I or S.
 */
function normalise(text: string): string {
  return text
    .replace(/[\uFF01-\uFF5E]/g, (wide) => String.fromCharCode(wide.charCodeAt(0) - 0xfee0))
    .replace(/[\s\u200B\u2060\uFEFF]/g, ' ')
    .replace(/[\u2010-\u2015\u2212\uFE58\uFE63]/g, '-')
    .replace(/[\u2044\u2215]/g, '/')
    .replace(/(?<=[Ii])[₁₂]/g, (index) => (index === '₁' ? '1' : '2'))
    .replace(/[a-z]/g, (letter) => letter.toUpperCase());
}

// A fraction below one with nothing numeric beside it: "1/2" but not the "60/60" of a label or the "1/2/24" of a date.
const TOKEN =
  /(?<space> +)|(?<vulgar>[½¼¾⅓⅔])|(?<fraction>(?<![\d/])(?:1\/[234]|2\/3|3\/4)(?![\d/]))|(?<number>\d+(?:[.,]\d+)?)|(?<word>[A-Z]+)|(?<arrow><-+>|<>|-+>|<-+|[⟷⟶⟵])|(?<symbol>.)/gsu;

export function tokenise(text: string): Token[] {
  const tokens: Token[] = [];
  let glued = false;
  for (const match of normalise(text).matchAll(TOKEN)) {
    const found = match.groups ?? {};
    if (found.space !== undefined) {
      glued = false;
      continue;
    }
    tokens.push({ ...classify(found, match[0]), glued });
    glued = true;
  }
  return tokens;
}

function classify(found: Record<string, string | undefined>, text: string): Pick<Token, 'kind' | 'text'> {
  if (found.vulgar !== undefined) return { kind: 'fraction', text: VULGAR[text] ?? text };
  if (found.fraction !== undefined) return { kind: 'fraction', text };
  if (found.number !== undefined) return { kind: 'number', text };
  if (found.word !== undefined) return { kind: 'word', text };
  return { kind: 'symbol', text: ARROWS[text.replace(/-+/, '-')] ?? text };
}

/** Walks over tokens. Each `take…` moves on only when it finds what it was asked for. */
export class Cursor {
  private at = 0;
  constructor(private readonly tokens: readonly Token[]) {}

  get atEnd(): boolean {
    return this.at >= this.tokens.length;
  }

  peek(ahead = 0): Token | undefined {
    return this.tokens[this.at + ahead];
  }

  skip(count: number): void {
    this.at += count;
  }

  /** @param glued When given, the token must (not) follow the one before it without a space. */
  take(kind: Token['kind'], glued?: boolean): Token | undefined {
    const token = this.peek();
    if (token?.kind !== kind || (glued !== undefined && token.glued !== glued)) return undefined;
    this.at += 1;
    return token;
  }

  takeWord(...words: readonly string[]): string | undefined {
    const token = this.peek();
    return token?.kind === 'word' && words.includes(token.text) ? this.take('word')?.text : undefined;
  }

  takeSymbol(...symbols: readonly string[]): string | undefined {
    const token = this.peek();
    return token?.kind === 'symbol' && symbols.includes(token.text) ? this.take('symbol')?.text : undefined;
  }

  /** Runs a reader and goes back to where it began when that gives nothing. */
  attempt<T>(read: () => T | undefined): T | undefined {
    const start = this.at;
    const result = read();
    if (result === undefined) this.at = start;
    return result;
  }
}
