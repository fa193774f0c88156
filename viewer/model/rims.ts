/** Outlines of penetrations at the faces of their barriers, and what carries their marks. Inner mm. */

import { fromPlane } from '../../src/geometry/frame.js';
import { add, scale } from '../../src/geometry/vector.js';
import type { Vec3 } from '../../src/model.js';
import type { ReportPenetration } from '../../src/report/schema.js';
import { seriousness } from '../state/building.js';
import type { OpenReport, Side } from '../state/state.js';
import type { Colours } from './colours.js';
import type { Sign } from './mark-signs.js';
import { ductOnFace, middleOfRim, onFace, placeOf } from './place.js';

/** Lines of duct and opening where they pass a face; six numbers for each. */
export function rimLines(p: ReportPenetration, origin: Vec3, side: Side): number[] {
  const place = placeOf(p, origin);
  const lines: number[] = [];
  for (const outline of [...ductOnFace(place, side), ...place.opening])
    for (const [i, from] of outline.entries())
      lines.push(...onFace(place, side, from), ...onFace(place, side, outline[(i + 1) % outline.length]!));
  return lines;
}

/** Of all penetrations on both faces, with the colour of their outcome at both ends of each line. */
export function allRims(
  penetrations: readonly ReportPenetration[],
  origin: Vec3,
  { outcomes }: Colours,
): { readonly lines: Float32Array; readonly colours: Float32Array } {
  const [lines, colours]: [number[], number[]] = [[], []];
  for (const p of penetrations)
    for (const side of ['A', 'B'] as const) {
      const rim = rimLines(p, origin, side);
      for (const value of rim) lines.push(value);
      for (let i = 0; i < rim.length; i += 3) colours.push(...outcomes[p.outcome]);
    }
  return { lines: Float32Array.from(lines), colours: Float32Array.from(colours) };
}

/** Over the rim; the most serious last, so that it is drawn over the others. */
export function signsOf(penetrations: OpenReport['report']['penetrations'], origin: Vec3): Sign[] {
  return [...penetrations]
    .sort((a, b) => seriousness(b.outcome) - seriousness(a.outcome))
    .map((p) => {
      const place = placeOf(p, origin);
      const at = add(
        fromPlane(place.frame, middleOfRim(place)),
        scale(place.frame.y, place.rim.max[1] - middleOfRim(place)[1]),
      );
      return { at, outcome: p.outcome };
    });
}
