/** GlobalIds that are the same whenever the same thing is named. */
import { sha256 } from '@noble/hashes/sha2.js';
import { utf8ToBytes } from '@noble/hashes/utils.js';

const DIGITS = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_$';
export const GLOBAL_ID = /^[0-3][0-9A-Za-z_$]{21}$/;

/** 128 bits of a hash in the 22 characters of IFC's base 64; the first holds two bits. */
export function globalIdOf(name: string): string {
  let rest = sha256(utf8ToBytes(`ratedrun\n${name}`))
    .subarray(0, 16)
    .reduce((sum, byte) => (sum << 8n) | BigInt(byte), 0n);
  let id = '';
  for (let i = 0; i < 22; i++) {
    id = DIGITS[Number(rest & 63n)]! + id;
    rest >>= 6n;
  }
  return id;
}
