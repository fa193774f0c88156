/** From the bytes of a file to the bytes of a STEP file that can be parsed, or one clear sentence why not. */
import { unzipSync } from 'fflate';
import { HARMLESS_UNPACKED, LARGEST_MODEL, MOST_UNPACKED_TIMES } from './limits.js';

/** The input can not be reviewed. The message says what is wrong and what to do; the caller names the file. */
export class InputError extends Error {}

/** Headers are short; anything longer is not one. */
const HEADER_BYTES = 64 * 1024;
const TRAILER_BYTES = 4096;

/** Schema names that web-ifc opens as they are. Other releases and corrections of these go by the base name. */
const KNOWN_SCHEMAS = /^IFC(2X3|2X_FINAL|4|4X[12]|4X3(_ADD[12]|_RC[1-4])?)$/;
const READ_SCHEMAS = /^IFC(2X3|2X_FINAL|4|4X[123])(_\w+)?$/;

/** One character for each byte, so that places in the text are places in the bytes. */
const SINGLE_BYTES = new TextDecoder('latin1');

export interface StepBytes {
  readonly bytes: Uint8Array;
  /** As the header has it, upper case. */
  readonly schema: string;
  /** When the file was written, as its header has it; null where that is no date and time. */
  readonly writtenAt: string | null;
}

/** @throws InputError */
export function unpack(name: string, bytes: Uint8Array): StepBytes {
  if (bytes.length === 0) throw new InputError('is empty; export it again');
  const zipped = bytes[0] === 0x50 && bytes[1] === 0x4b;
  const named = /\.ifczip$/i.test(name);
  if (zipped && !named) throw new InputError('is a zip archive under another name; rename it to .ifczip or unpack it');
  if (named && !zipped)
    throw new InputError('is named .ifczip but is no zip archive; rename it to .ifc if it is plain IFC');
  const model = zipped ? unzipModel(bytes) : bytes;
  if (model.length > LARGEST_MODEL) throw new InputError(TOO_LARGE);
  return checked(model);
}

function unzipModel(archive: Uint8Array): Uint8Array {
  let total = 0;
  let isBomb = false;
  let models: Record<string, Uint8Array>;
  const names: string[] = [];
  try {
    // Nothing is unpacked before all of it is known to be in bounds: fflate asks of each file before it inflates it.
    unzipSync(archive, {
      filter: ({ name, size, originalSize }) => {
        if (!isModel(name)) return false;
        names.push(name);
        total += originalSize;
        isBomb ||= originalSize > HARMLESS_UNPACKED && originalSize > MOST_UNPACKED_TIMES * size;
        return false;
      },
    });
    if (names.length > 1) throw new InputError(`holds ${names.length} .ifc files; pack each model on its own`);
    if (total > LARGEST_MODEL) throw new InputError(TOO_LARGE);
    if (isBomb)
      throw new InputError(
        `unpacks to more than ${MOST_UNPACKED_TIMES} times its size, as no model does; pack it again`,
      );
    models = unzipSync(archive, { filter: ({ name }) => isModel(name) });
  } catch (error) {
    if (error instanceof InputError) throw error;
    throw new InputError(`is a damaged zip archive (${error instanceof Error ? error.message : error}); make it again`);
  }
  const [found] = Object.values(models);
  if (!found) throw new InputError('is a zip archive without an .ifc file in it; put the model inside');
  if (found.length !== total)
    throw new InputError('is a damaged zip archive (it says another size than it has); make it again');
  return found;
}

const TOO_LARGE = `is larger than ${LARGEST_MODEL / 2 ** 30} GiB; split the model`;

const isModel = (name: string): boolean => /\.ifc$/i.test(name) && !name.startsWith('__MACOSX/');

function checked(bytes: Uint8Array): StepBytes {
  const head = SINGLE_BYTES.decode(bytes.subarray(0, HEADER_BYTES)).replace(/^ï»¿/, '');
  if (!/^\s*(\/\*.*?\*\/\s*)*ISO-10303-21\s*;/s.test(head))
    throw new InputError('is no IFC file: it does not begin with ISO-10303-21; choose the .ifc export of the model');
  const declared = /FILE_SCHEMA\s*\(\s*\(\s*'([^']*)'/.exec(head);
  if (!declared || !/HEADER\s*;/.test(head) || !/ENDSEC\s*;/.test(head))
    throw new InputError('has a damaged header: no FILE_SCHEMA is to be found; export it again');
  const schema = declared[1]!.trim().toUpperCase();
  if (!READ_SCHEMAS.test(schema))
    throw new InputError(
      `is a STEP file of schema ${schema || '(none)'}, which is not read; export it as IFC4 or IFC2X3`,
    );
  const tail = SINGLE_BYTES.decode(bytes.subarray(Math.max(0, bytes.length - TRAILER_BYTES)));
  if (!/END-ISO-10303-21\s*;/.test(tail))
    throw new InputError('is cut off: its END-ISO-10303-21 is missing; export or copy it again');
  return { bytes: underKnownName(bytes, head, declared, schema), schema, writtenAt: timeOf(head) };
}

/** FILE_NAME has the file's name, then the time as ISO 8601, often without a zone. */
function timeOf(head: string): string | null {
  const time = /FILE_NAME\s*\(\s*'(?:[^']|'')*'\s*,\s*'([^']*)'/.exec(head)?.[1]?.trim() ?? '';
  const isTime = /^\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)?$/.test(time);
  return isTime && !Number.isNaN(Date.parse(time)) ? time : null;
}

/** Same length, so that no other byte moves: the shorter name is followed by blanks outside its quotes. */
function underKnownName(bytes: Uint8Array, head: string, declared: RegExpExecArray, schema: string): Uint8Array {
  if (KNOWN_SCHEMAS.test(schema)) return bytes;
  const alias = READ_SCHEMAS.exec(schema)![0].split('_')[0]!;
  const skipped = bytes[0] === 0xef ? 3 : 0;
  const start = head.indexOf(`'${declared[1]}'`, declared.index) + skipped;
  const patched = bytes.slice();
  const text = `'${alias}'`.padEnd(declared[1]!.length + 2);
  for (let i = 0; i < text.length; i++) patched[start + i] = text.charCodeAt(i);
  return patched;
}
