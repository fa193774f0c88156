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

/** Tags such as `K7F2-9`, one for each key; a tag that two keys would share is lengthened for the later key. */
export function shortTags(keys: readonly string[]): Map<string, string> {
  const taken = new Set<string>();
  const tags = new Map<string, string>();
  for (const key of [...keys].sort()) {
    let length = SHORTEST_TAG;
    while (taken.has(key.slice(0, length))) length++;
    taken.add(key.slice(0, length));
    tags.set(key, `${key.slice(0, 4)}-${key.slice(4, length)}`);
  }
  return tags;
}
