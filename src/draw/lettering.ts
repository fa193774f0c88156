/** Text as strokes, so that a picture needs no font: the public Roman Simplex letters. */
import { stringToPaths } from 'hershey';

/** Units of the letters from the foot of a capital to its head. */
const CAPITAL = 21;
const FOOT = -9;
const KNOWN = /[^A-Za-z0-9.,:;!?"°$/()|\-+='#&\\_*[\]{}<>~%@ ]/gu;

export interface Lettering {
  readonly width: number;
  /** Lines through points x, y: x from the left, y downwards from the head of a capital. */
  readonly strokes: readonly (readonly (readonly [number, number])[])[];
}

/** @param height of a capital; letters that the font lacks are drawn as "?" */
export function lettering(text: string, height: number): Lettering {
  const { bounds, paths } = stringToPaths(text.replace(KNOWN, '?'));
  const k = height / CAPITAL;
  return {
    width: (bounds.maxX - bounds.minX) * k,
    strokes: paths.map((path) => path.map(([x, y]) => [(x - bounds.minX) * k, (CAPITAL + FOOT - y) * k] as const)),
  };
}
