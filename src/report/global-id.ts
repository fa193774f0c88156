/**
 * IFC GlobalIds as UUIDs and back: one number of 128 bits, 22 digits to the base 64.
 * Source: the IFC documentation's page on the compression of GUIDs.
 */

const DIGITS = '0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz_$';
/** The first digit carries two bits only. */
const GLOBAL_ID = /^[0-3][0-9A-Za-z_$]{21}$/;
const UUID = /^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/i;

export const isGlobalId = (text: string): boolean => GLOBAL_ID.test(text);

/** Lower case. @throws RangeError when it is none */
export function uuidOfGlobalId(globalId: string): string {
  if (!isGlobalId(globalId)) throw new RangeError(`${globalId} is no GlobalId`);
  let value = 0n;
  for (const digit of globalId) value = value * 64n + BigInt(DIGITS.indexOf(digit));
  return uuidOf(value);
}

/** @throws RangeError when it is none */
export function globalIdOfUuid(uuid: string): string {
  if (!UUID.test(uuid)) throw new RangeError(`${uuid} is no UUID`);
  let value = BigInt(`0x${uuid.replaceAll('-', '')}`);
  let digits = '';
  for (let i = 0; i < 22; i++) {
    digits = DIGITS[Number(value % 64n)] + digits;
    value /= 64n;
  }
  return digits;
}

/** A number of 128 bits as people write UUIDs. */
export function uuidOf(value: bigint): string {
  const hex = value.toString(16).padStart(32, '0');
  return [hex.slice(0, 8), hex.slice(8, 12), hex.slice(12, 16), hex.slice(16, 20), hex.slice(20)].join('-');
}
