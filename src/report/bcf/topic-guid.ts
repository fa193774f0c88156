/**
 * GUIDs of our topics: UUIDs of version 8 (RFC 9562) that carry the key of what the topic is about and a check of it. So
 * the key comes back from a file that others changed, from the one thing nobody changes, and no foreign topic is taken
 * for ours (a chance below 1 in 4 million for penetrations, 1 in 10^17 for findings).
 */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js';
import { uuidOf } from '../global-id.js';

export type TopicKind = 'finding' | 'penetration';
export interface TopicSubject {
  readonly kind: TopicKind;
  readonly key: string;
}

/** Bits of a UUID that its version and variant leave free. */
const FREE = 122n;

/** How keys of a kind are written: digits to a power of two. */
const FORMS: {
  readonly [K in TopicKind]: { readonly digits: string; readonly bits: bigint; readonly length: number };
} = {
  finding: { digits: '0123456789abcdef', bits: 4n, length: 16 },
  penetration: { digits: '0123456789ABCDEFGHJKMNPQRSTVWXYZ', bits: 5n, length: 20 },
};

/** Keys of another form, a host program's own, are hashed whole: such a topic is found by its finding only. */
export function topicGuid({ kind, key }: TopicSubject): string {
  const value = numberOf(kind, key);
  const hash = BigInt(`0x${bytesToHex(sha256(utf8ToBytes(`ratedrun topic\n${kind}\n${key}`)))}`);
  if (value === undefined) return versioned(hash >> (256n - FREE));
  const checkBits = FREE - widthOf(kind);
  return versioned((value << checkBits) | (hash >> (256n - checkBits)));
}

/** What a topic of ours is about; undefined for topics of others. */
export function subjectOf(guid: string): TopicSubject | undefined {
  const bits = BigInt(`0x${guid.replaceAll('-', '')}`);
  const free = ((bits >> 80n) << 74n) | (((bits >> 64n) & 0xfffn) << 62n) | (bits & ((1n << 62n) - 1n));
  for (const kind of ['finding', 'penetration'] as const) {
    const key = keyOf(kind, free >> (FREE - widthOf(kind)));
    if (topicGuid({ kind, key }) === guid.toLowerCase()) return { kind, key };
  }
  return undefined;
}

/** A GUID for a part of a topic that is the same in every review. */
export const partGuid = (topic: string, part: string): string =>
  versioned(BigInt(`0x${bytesToHex(sha256(utf8ToBytes(`${topic}\n${part}`)))}`) >> (256n - FREE));

const widthOf = (kind: TopicKind): bigint => FORMS[kind].bits * BigInt(FORMS[kind].length);

function numberOf(kind: TopicKind, key: string): bigint | undefined {
  const { digits, bits, length } = FORMS[kind];
  if (key.length !== length || [...key].some((digit) => !digits.includes(digit))) return undefined;
  return [...key].reduce((value, digit) => (value << bits) | BigInt(digits.indexOf(digit)), 0n);
}

function keyOf(kind: TopicKind, value: bigint): string {
  const { digits, bits, length } = FORMS[kind];
  const mask = (1n << bits) - 1n;
  return Array.from({ length }, (_, i) => digits[Number((value >> (bits * BigInt(length - 1 - i))) & mask)]).join('');
}

/** 48 bits, the version, 12 bits, the variant, 62 bits. */
const versioned = (free: bigint): string =>
  uuidOf(
    ((free >> 74n) << 80n) |
      (8n << 76n) |
      (((free >> 62n) & 0xfffn) << 64n) |
      (2n << 62n) |
      (free & ((1n << 62n) - 1n)),
  );
