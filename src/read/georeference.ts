/** Where a file's own coordinates lie: its world coordinate system and its map conversion. */
import { type Affine, WORLD } from '../geometry/frame.js';
import type { Source } from './source.js';
import { unitFactor } from './units.js';
import { measureName, num, ref, text } from './value.js';

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

/**
 * The file's own way to say it: IfcMapConversion (IFC4), its scaled kind and IfcRigidOperation (IFC4X3); in IFC2X3 the
 * property set ePSet_MapConversion of the site or the project, an agreement of users (buildingSMART, User Guide for
 * Geo-referencing in IFC; from memory).
 */
export function readMapConversion(source: Source): MapConversion | undefined {
  const { file, mm } = source;
  const conversion = file.line(operationOf(file, file.ids('IFCMAPCONVERSION', true)) ?? 0);
  if (conversion) {
    noteUnevenScale(source, conversion);
    return mapConversion(source, conversion, file.line(ref(conversion.TargetCRS) ?? 0));
  }
  const rigid = file.line(operationOf(file, file.ids('IFCRIGIDOPERATION')) ?? 0);
  if (rigid) {
    // Coordinates may be angles too, which no building can be placed by.
    const isLength = [rigid.FirstCoordinate, rigid.SecondCoordinate].every(
      (v) => measureName(v) !== 'IFCPLANEANGLEMEASURE',
    );
    const { FirstCoordinate: Eastings, SecondCoordinate: Northings, Height: OrthogonalHeight } = rigid;
    const as = { Eastings, Northings, OrthogonalHeight, Scale: undefined };
    return isLength ? mapConversion(source, as, file.line(ref(rigid.TargetCRS) ?? 0)) : undefined;
  }
  return userConversion(source, mm);
}

type Attributes = Readonly<Record<string, unknown>>;

function mapConversion({ file, mm }: Source, line: Attributes, crs: Attributes | undefined): MapConversion {
  const mapUnit = ref(crs?.MapUnit);
  const mapMm = mapUnit === undefined ? mm : 1000 * unitFactor(file, mapUnit);
  const size = (x: unknown) => (num(x) ?? 0) * mapMm;
  const stated = (num(line.Scale) ?? 1) * (num(line.FactorX) ?? 1);
  return {
    offset: [size(line.Eastings), size(line.Northings), size(line.OrthogonalHeight)],
    rotation: Math.atan2(num(line.XAxisOrdinate) ?? 0, num(line.XAxisAbscissa) ?? 1),
    scale: mapScale(stated, mm / mapMm),
    crs: text(crs?.Name),
  };
}

/** Of several operations the one of the 3D model's context. */
function operationOf(file: Source['file'], ids: readonly number[]): number | undefined {
  return (
    ids.find((id) => /model/i.test(text(file.line(ref(file.line(id)?.SourceCRS) ?? 0)?.ContextType) ?? '')) ?? ids[0]
  );
}

/** Buildings are scaled evenly or not at all, lest walls lean: what the file says of y and z beyond that is left out. */
function noteUnevenScale(source: Source, line: Attributes): void {
  const [x, y, z] = [line.FactorX, line.FactorY, line.FactorZ].map((factor) => num(factor) ?? 1);
  if (Math.abs(x! - y!) < 1e-9 && Math.abs(x! - z!) < 1e-9) return;
  source.problems.push({
    code: 'uneven-map-scale',
    globalId: null,
    message: `Its map conversion scales x, y and z by ${x}, ${y} and ${z}; all were scaled by ${x}.`,
  });
}

const USER_SET = /^ePSet_MapConversion$/i;

function userConversion(source: Source, mm: number): MapConversion | undefined {
  const { file, properties } = source;
  const holder = [...file.ids('IFCSITE'), ...file.ids('IFCPROJECT')].find((id) =>
    properties.all(id).some((p) => USER_SET.test(p.set)),
  );
  if (holder === undefined) return undefined;
  const value = (name: string) => num(properties.find(holder, USER_SET, name)?.value);
  const crs =
    properties.find(holder, /^ePSet_ProjectedCRS$/i, 'Name')?.value ??
    properties.find(holder, USER_SET, 'TargetCRS')?.value;
  const [x, y, z] = ['Eastings', 'Northings', 'OrthogonalHeight'].map((name) => (value(name) ?? 0) * mm);
  return {
    offset: [x!, y!, z!],
    rotation: Math.atan2(value('XAxisOrdinate') ?? 0, value('XAxisAbscissa') ?? 1),
    scale: mapScale(value('Scale') ?? 1, 1),
    crs: text(crs),
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
