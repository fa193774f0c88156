import { FORMS } from './forms.js';
import { Cursor, type Token, tokenise } from './tokens.js';
import type { ParsedRating, RatingContext, Reading } from './types.js';

/** Words that only announce or close a rating. Longest first. */
const AROUND = [
  ['FIRE', 'RESISTANCE', 'RATING'],
  ['FIRE', 'RESISTANCE', 'LEVEL'],
  ['FIRE', 'RESISTANCE'],
  ['FIRE', 'RATING'],
  ['FIRE', 'RATED'],
  ['RATING'],
  ['RATED'],
  ['FRL'],
  ['FRR'],
  ['FR'],
  ['FEUERWIDERSTANDSKLASSE'],
  ['FEUERWIDERSTANDSDAUER'],
  ['FEUERWIDERSTAND'],
];

/**
 * Reads a free-text fire rating. The whole text must be understood in exactly one way, else it is `unreadable`:
 * no number is ever taken out of a text with something else in it ("FR 1hr (TBC)"), and no unit is supposed ("30").
 * `notRequired` is never decided by text.
 */
export function parseRating(text: string | null | undefined, context: RatingContext): ParsedRating {
  if (text === null || text === undefined) return withoutValues('unstated', null);
  const tokens = tokenise(text);
  if (tokens.length === 0) return withoutValues('unstated', null);
  const reading = readOneWay(stripAround(tokens), context);
  if (!reading) return withoutValues('unreadable', text);
  const known = [reading.loadbearing, reading.integrity, reading.insulation].some((minutes) => minutes !== null);
  return { state: known ? 'stated' : 'durationOnly', text, ...reading };
}

/** Where two notations read a text differently, it is not known which was meant. */
function readOneWay(tokens: readonly Token[], context: RatingContext): Reading | undefined {
  const readings = FORMS.flatMap((form) => {
    const cursor = new Cursor(tokens);
    const reading = form(cursor, context);
    return reading && cursor.atEnd ? [reading] : [];
  });
  const [first, ...others] = readings;
  return others.every((other) => JSON.stringify(other) === JSON.stringify(first)) ? first : undefined;
}

function stripAround(tokens: readonly Token[]): readonly Token[] {
  const inner = tokens.slice(prefixLength(tokens));
  const phrase = AROUND.find((words) => phraseLength(inner, words, 'end') > 0);
  return phrase ? inner.slice(0, inner.length - phraseLength(inner, phrase, 'end')) : inner;
}

/** Tokens of the announcing phrase and of the colon, equals sign or dash after it. */
function prefixLength(tokens: readonly Token[]): number {
  const phrase = AROUND.find((words) => phraseLength(tokens, words, 'start') > 0);
  if (!phrase) return 0;
  const length = phraseLength(tokens, phrase, 'start');
  const [sign, next] = [tokens[length], tokens[length + 1]];
  if (sign?.text === ':' || sign?.text === '=') return length + 1;
  // "FRL - 60/60/60" and "FR-60 min", but not the field of "FRL -/60/60" or the minus of "FRL -60".
  const divides = sign?.text === '-' && next !== undefined && next.kind !== 'symbol' && next.glued === sign.glued;
  return divides ? length + 1 : length;
}

/** How many tokens at that end of the text are these words, alone or hyphenated; 0 when they are others. */
function phraseLength(tokens: readonly Token[], words: readonly string[], side: 'start' | 'end'): number {
  for (const divider of [[], ['-']]) {
    const wanted = words.flatMap((word, index) => (index === 0 ? [word] : [...divider, word]));
    const there = side === 'start' ? tokens.slice(0, wanted.length) : tokens.slice(-wanted.length);
    if (there.length === wanted.length && there.every((token, index) => token.text === wanted[index])) {
      return wanted.length;
    }
  }
  return 0;
}

function withoutValues(state: 'unstated' | 'unreadable', text: string | null): ParsedRating {
  return { state, text, loadbearing: null, integrity: null, insulation: null, duration: null, flags: [] };
}
