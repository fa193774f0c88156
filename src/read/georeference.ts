/** Where a file's own coordinates lie: its world coordinate system and its map conversion. */
import { type Affine, WORLD } from '../geometry/frame.js';
import type { Source } from './source.js';
import { unitFactor } from './units.js';
import { num, ref, text } from './value.js';

/** IfcMapConversion, lengths in mm: map = scale · rotation · engineering + offset. */
export interface MapConversion {
  readonly offset: readonly [number, number, number];
  /** Radians, counter-clockwise from the map's east to the file's x axis. */
  readonly rotation: number;
  /** Map millimetres per engineering millimetre: 1 but for a projection's own scale. */
  readonly scale: number;
  readonly crs: string | undefined;
}

/** IfcGeometricRepresentationContext.WorldCoordinateSystem of the 3D model. */
export function readWorldCoordinateSystem({ file, placements }: Source): Affine {
  const context = modelContext(file.ids('IFCGEOMETRICREPRESENTATIONCONTEXT'), file);
  const wcs = ref(context?.WorldCoordinateSystem);
  return wcs === undefined || file.entity(wcs) !== 'IFCAXIS2PLACEMENT3D' ? WORLD : placements.axis3(wcs);
}

function modelContext(ids: readonly number[], file: Source['file']) {
  const lines = ids.map((id) => file.line(id));
  return (
    lines.find((line) => /model/i.test(text(line?.ContextType) ?? '')) ??
    lines.find((l) => num(l?.CoordinateSpaceDimension) === 3)
  );
}

export function readMapConversion({ file, mm }: Source): MapConversion | undefined {
  const line = file.line(file.ids('IFCMAPCONVERSION', true)[0] ?? 0);
  if (!line) return undefined;
  const crs = file.line(ref(line.TargetCRS) ?? 0);
  const mapUnit = ref(crs?.MapUnit);
  const mapMm = mapUnit === undefined ? mm : 1000 * unitFactor(file, mapUnit);
  const size = (x: unknown) => (num(x) ?? 0) * mapMm;
  return {
    offset: [size(line.Eastings), size(line.Northings), size(line.OrthogonalHeight)],
    rotation: Math.atan2(num(line.XAxisOrdinate) ?? 0, num(line.XAxisAbscissa) ?? 1),
    scale: mapScale(num(line.Scale) ?? 1, mm / mapMm),
    crs: text(crs?.Name),
  };
}

/**
 * Scale turns project units into map units and may hold the projection's own scale (0.9996 …) as well. Many files leave
 * out the change of unit (Scale 1 in a millimetre file with a map in metres); which of the two was meant shows from the
 * number, since projections stay within two per cent of 1.
 */
function mapScale(stated: number, unitRatio: number): number {
  const own = stated / unitRatio;
  return Math.abs(own - 1) < 0.02 ? own : Math.abs(stated - 1) < 0.02 ? stated : own;
}
