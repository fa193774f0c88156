/** SHA-256 of whole files. */
import { sha256 } from '@noble/hashes/sha2.js';
import { bytesToHex } from '@noble/hashes/utils.js';

/** As hex. The platform's own is many times as fast; a page that came without TLS has none, and it takes no shared memory. */
export async function sha256Of(bytes: Uint8Array): Promise<string> {
  const { subtle } = globalThis.crypto;
  if (!subtle || !(bytes.buffer instanceof ArrayBuffer)) return bytesToHex(sha256(bytes));
  return bytesToHex(new Uint8Array(await subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>)));
}
