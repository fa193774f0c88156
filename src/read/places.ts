/** What people find their way by: grid axes and rooms, in the file's own coordinates. */
import { applyPoint } from '../geometry/frame.js';
import type { Grid, GridAxis, Space, Vec2, Vec3 } from '../model.js';
import { ARC_SAGITTA } from '../tolerances.js';
import { readCurve } from './curves.js';
import { BrokenPlacement } from './placement.js';
import { saysShaft } from './shafts.js';
import { readElement, type Source, tryBodies } from './source.js';
import { ref, refs, text } from './value.js';

const FAMILIES = ['UAxes', 'VAxes', 'WAxes'] as const;

export function readGrids(source: Source, model: string): Grid[] {
  const { file } = source;
  return file.ids('IFCGRID', true).flatMap((id) => {
    const line = file.line(id);
    if (!line) return [];
    const placed = gridPlacement(source, ref(line.ObjectPlacement));
    if (!placed) return [];
    const families = FAMILIES.map((family) =>
      refs(line[family]).flatMap((axis): GridAxis[] => {
        const ends = axisEnds(source, ref(file.line(axis)?.AxisCurve));
        const tag = text(file.line(axis)?.AxisTag);
        if (!ends || tag === undefined || tag.trim() === '') return [];
        const [from, to] = ends.map(([x, y]) => applyPoint(placed, [x, y, 0]));
        return [{ tag: tag.trim(), ends: [from!, to!] }];
      }),
    ).filter((family) => family.length > 0);
    const { globalId, name } = readElement(source, id, line);
    return families.length > 0 ? [{ model, globalId, name, families }] : [];
  });
}

/** A grid that can not be placed names no places; nothing else is lost with it. */
function gridPlacement({ placements, problems }: Source, placement: number | undefined) {
  try {
    return placements.object(placement);
  } catch (error) {
    if (!(error instanceof BrokenPlacement)) throw error;
    problems.push({ code: 'unreadable-grid', globalId: null, message: `A grid was not read: ${error.message}.` });
    return undefined;
  }
}

/** Undefined for circles and other bent curves: offsets from those mean little to people. */
function axisEnds(source: Source, id: number | undefined): readonly [Vec2, Vec2] | undefined {
  const curve = id === undefined ? undefined : readCurve(source, id);
  if (!curve) return undefined;
  const isBounded = Number.isFinite(curve.to - curve.from);
  const points = isBounded ? curve.points(curve.from, curve.to) : curve.points(0, 1);
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last || !points.flat().every(Number.isFinite)) return undefined;
  const run = Math.hypot(last[0] - first[0], last[1] - first[1]);
  const isOn = ([x, y]: Vec3) =>
    Math.abs((last[0] - first[0]) * (y - first[1]) - (last[1] - first[1]) * (x - first[0])) <= ARC_SAGITTA * run;
  if (!(run > 0) || !points.every(isOn)) return undefined;
  return [
    [first[0], first[1]],
    [last[0], last[1]],
  ];
}

/** Rooms without a body can not be told to hold a point, so they are left out. */
export function readSpaces(source: Source, model: string): Space[] {
  const { file } = source;
  return file.ids('IFCSPACE', true).flatMap((id) => {
    const line = file.line(id);
    const bodies = line && tryBodies(source, line, 'Space');
    if (!line || !bodies || bodies.length === 0) return [];
    const shaft = saysShaft(source, [line.Name, line.LongName, line.ObjectType]);
    return [
      { ...readElement(source, id, line), model, bodies, longName: text(line.LongName)?.trim() || undefined, shaft },
    ];
  });
}
