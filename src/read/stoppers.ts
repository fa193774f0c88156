/**
 * Elements that stop their reader: they break web-ifc's memory, fill it, or never end. What stopped is thrown away, and
 * the file is read again without the element, which is named among the file's problems.
 */
import { InputError } from './container.js';
import { MOST_STOPPERS } from './limits.js';

/** Elements to leave out, by express id, each with what it did to its reader, in words. */
export type Stoppers = ReadonlyMap<number, string>;

/** A reader came to an end by itself. */
export class ReaderStopped extends Error {
  constructor(
    /** As the platform says it, in one line. */
    readonly why: string,
    /** Express id of the element that it was at; 0: at none. */
    readonly element: number,
  ) {
    super(why);
  }
}

/**
 * Errors of the machine rather than of the program: memory out of bounds, stack or list too long. After them web-ifc's
 * memory can't be trusted; what it throws itself leaves it as it was.
 */
export const isOfMachine = (error: unknown): error is Error =>
  error instanceof RangeError || (error instanceof Error && error.name === 'RuntimeError');

/**
 * @param attempt reads the whole file with a reader of its own
 * @throws InputError when the file can't be read, also not without what stopped its reader
 */
export async function withoutStoppers<T>(attempt: (stoppers: Stoppers) => Promise<T>): Promise<T> {
  const stoppers = new Map<number, string>();
  for (;;) {
    try {
      return await attempt(stoppers);
    } catch (error) {
      if (!(error instanceof ReaderStopped)) throw error;
      const { element, why } = error;
      if (element === 0 || stoppers.has(element) || stoppers.size === MOST_STOPPERS) throw stopped(error, stoppers);
      stoppers.set(element, why);
    }
  }
}

function stopped({ why, element }: ReaderStopped, before: Stoppers): InputError {
  const at = element === 0 ? '' : ` at element #${element}`;
  const others = before.size === 0 ? '' : `, as ${before.size} other elements did`;
  return new InputError(`stopped its reader${at} (${why})${others}; repair the model or leave it out`);
}
