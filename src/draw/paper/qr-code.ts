/** A QR code (ISO/IEC 18004) as SVG, so that a telephone finds on site what a card is about. */
import { encode } from 'uqr';
import { INK, SHEET } from './palette.js';
import { element } from './svg.js';

/** Light modules round the code: the quiet zone of ISO/IEC 18004. */
const QUIET = 4;

/** @param size of the picture with its quiet zone, mm; read at arm's length from 15 mm on. */
export function drawQrCode(text: string, size: number): string {
  // M bears 15 % dirt: a card hangs where drywall is cut.
  const { data } = encode(text, { ecc: 'M', border: QUIET });
  const runs = data.flatMap((row, y) => darkRuns(row).map(([x, length]) => `M${x} ${y}h${length}v1h${-length}z`));
  return element(
    'svg',
    {
      class: 'qr',
      viewBox: `0 0 ${data.length} ${data.length}`,
      width: `${size}mm`,
      height: `${size}mm`,
      role: 'img',
      'shape-rendering': 'crispEdges',
    },
    element('rect', { width: data.length, height: data.length, fill: SHEET }),
    element('path', { d: runs.join(''), fill: INK }),
  );
}

/** Where dark modules begin in a row, and how many follow each other. */
function darkRuns(row: readonly boolean[]): [number, number][] {
  const runs: [number, number][] = [];
  row.forEach((dark, x) => {
    if (!dark) return;
    const last = runs.at(-1);
    if (last && last[0] + last[1] === x) last[1] += 1;
    else runs.push([x, 1]);
  });
  return runs;
}
