/**
 * How much of a file is read at most: one named constant for each limit, with the reason for its size. What lies beyond is
 * said in one line, of the file or as a problem of the element; nothing is cut short in silence.
 */

/** Bytes of a model, unpacked: web-ifc's memory ends at 4 GiB, and holds the file and all that is drawn of it. */
export const LARGEST_MODEL = 2 * 2 ** 30;

/** Models pack to a tenth; even one wall copied ten thousand times packs to no less than a fiftieth. */
export const MOST_UNPACKED_TIMES = 100;

/** Packed files that unpack to less than this do no harm, however well they pack. */
export const HARMLESS_UNPACKED = 64 * 2 ** 20;

/** Corners of one outline: a circle of 100 m drawn within 0.01 mm has 16,000. */
export const MOST_CORNERS = 20_000;

/** Triangles of one item: the finest grilles and machines of makers have about 100,000, ducts and walls some hundreds. */
export const MOST_TRIANGLES = 300_000;

/** Items of one element, counted each time that a mapping repeats them: real ones have some hundreds. */
export const MOST_ITEMS = 20_000;

/** mm, of one element along any axis: the longest buildings are drawn in pieces; what is longer has lost its unit of length. */
export const LARGEST_ELEMENT = 1_000_000;

/** Seconds that one element may take: real ones take thousandths, the worst on a busy machine a few. */
export const ELEMENT_SECONDS = 60;

/** Seconds that a file may take: models are read at 1 to 5 MiB a second; a busy machine is twenty times as slow. */
export const FILE_SECONDS = { least: 120, eachMiB: 20 } as const;

/** Elements of one file that may stop its reader and be left out; more show that the file is damaged as a whole. */
export const MOST_STOPPERS = 5;

/** MiB of JavaScript's own memory for the reader of one file: a model of 100 MB takes about 1,000. */
export const READER_MEMORY = 4096;

export interface TimeLimits {
  readonly elementSeconds: number;
  readonly fileSeconds: number;
}

export const timeLimitsFor = (bytes: number): TimeLimits => ({
  elementSeconds: ELEMENT_SECONDS,
  fileSeconds: FILE_SECONDS.least + Math.ceil((FILE_SECONDS.eachMiB * bytes) / 2 ** 20),
});
