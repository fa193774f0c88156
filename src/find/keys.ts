/** Names of penetrations: the key that stays between revisions, and its short form for labels. */
import { sha256 } from '@noble/hashes/sha2.js';
import { utf8ToBytes } from '@noble/hashes/utils.js';

/** Crockford's base 32: no I, L, O, U, so that a label can be read aloud and written by hand. */
const ALPHABET = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
const KEY_LENGTH = 20;
const SHORTEST_TAG = 5;

/** @param ordinal which crossing of this barrier by this duct, from 1 */
export function penetrationKey(duct: string, barrier: string, ordinal: number): string {
  const digest = sha256(utf8ToBytes(`${duct}\n${barrier}\n${ordinal}`));
  return Array.from(digest.subarray(0, KEY_LENGTH), (byte) => ALPHABET[byte & 31]).join('');
}

/** @param ends GlobalIds of the two duct ends, in any order */
export const facingEndsKey = (ends: readonly string[]): string => [...ends].sort().join(' ');

/** A tag and the key it was given to; it stays given when the key is no longer found. */
export interface Issued {
  readonly key: string;
  readonly tag: string;
}

/**
 * Tags such as `K7F2-9`, one for each key. A tag that was issued stays with its key for good; a new key whose short form
 * is taken, also by one that is gone, gets a longer one.
 */
export function issueTags(keys: readonly string[], issued: readonly Issued[] = []): Map<string, string> {
  const known = new Map(issued.map(({ key, tag }) => [key, tag]));
  const taken = new Set(known.values());
  const tags = new Map<string, string>();
  for (const key of [...keys].sort()) {
    const tag = known.get(key) ?? freeTag(key, taken);
    taken.add(tag);
    tags.set(key, tag);
  }
  return tags;
}

function freeTag(key: string, taken: ReadonlySet<string>): string {
  for (let length = SHORTEST_TAG; length <= key.length; length++) {
    const tag = `${key.slice(0, 4)}-${key.slice(4, length)}`;
    if (!taken.has(tag)) return tag;
  }
  // Only where a list of tags was written by hand can the whole key be taken.
  for (let n = 2; ; n++) {
    const tag = `${key.slice(0, 4)}-${key.slice(4)}-${n}`;
    if (!taken.has(tag)) return tag;
  }
}
