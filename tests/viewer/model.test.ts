import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../src/model.js';
import type { ElementExtras } from '../../src/scene/geometry-extras.js';
import { batchGroups, batchOf } from '../../viewer/model/batch.js';
import { standingBefore } from '../../viewer/model/cut-away.js';
import { elementsNear, elementsOf } from '../../viewer/model/elements.js';
import { distanceBetween, snapAt } from '../../viewer/model/measure.js';
import { pick } from '../../viewer/model/pick.js';
import { onFace, type Place } from '../../viewer/model/place.js';
import { keptLines, sectionLines } from '../../viewer/model/section-lines.js';
import { sharpLines } from '../../viewer/model/sharp-lines.js';
import { snap } from '../../viewer/model/snap.js';
import { isCut, onPicture, overview, rayThrough, standpointFor, turned } from '../../viewer/model/standpoint.js';
import { benchBuilding, box } from './bench-building.js';

const SIZE = [800, 400] as const;
const ASPECT = 2;

/** A wall 200 thick along x, seen along +y from side A; its middle at (5000, 2000, 1500). */
const WALL: Place = {
  frame: { origin: [5000, 2000, 1500], x: [1, 0, 0], y: [0, 0, 1], z: [0, 1, 0] },
  thickness: 200,
  duct: [
    [
      [-300, -200],
      [300, -200],
      [300, 200],
      [-300, 200],
    ],
  ],
  opening: [
    [
      [-330, -230],
      [330, -230],
      [330, 230],
      [-330, 230],
    ],
  ],
  slope: [0, 0],
  rim: { min: [-330, -230], max: [330, 230] },
};
const extras = (kind: ElementExtras['kind'], globalId: string, storey: string | null = 'S'): ElementExtras => ({
  ...{ kind, globalId, name: globalId, model: 'm1', storey, system: null, host: null, face: null },
});
const node = (id: string, at: Vec3, size: Vec3, kind: ElementExtras['kind'] = 'duct') =>
  box(extras(kind, id), at, size);

describe('standpoints', () => {
  it('stand square before a face: the rim is where its millimetres say, mirrored from side B', () => {
    for (const [side, sign] of [
      ['A', 1],
      ['B', -1],
    ] as const) {
      const { pose } = standpointFor(WALL, 'front', side, ASPECT);
      const perPixel = (2 * pose.halfHeight) / SIZE[1];
      for (const [x, y] of WALL.opening[0]!) {
        const [px, py] = onPicture(pose, SIZE, onFace(WALL, side, [x, y]))!;
        expect(px).toBeCloseTo(400 + (sign * x) / perPixel, 6);
        expect(py).toBeCloseTo(200 - y / perPixel, 6);
      }
    }
  });

  it('shows about three metres and cuts just before the face, not at it and not behind', () => {
    const { pose, cut } = standpointFor(WALL, 'front', 'A', ASPECT);
    expect(2 * pose.halfHeight).toBeGreaterThan(2000);
    expect(2 * pose.halfHeight * ASPECT).toBeGreaterThanOrEqual(3000);
    expect(isCut(cut, [5000, 1900 - 2, 1500])).toBe(true);
    expect(isCut(cut, [5000, 1900, 1500])).toBe(false);
    expect(isCut(cut, [5000, 2500, 1500])).toBe(false);
    expect(isCut(standpointFor(WALL, 'front', 'B', ASPECT).cut, [5000, 2102, 1500])).toBe(true);
  });

  it('stand beside the duct, above it, and above a floor as before its upper face', () => {
    const along = standpointFor(WALL, 'along', 'A', ASPECT);
    expect(along.pose.direction).toEqual([1, 0, 0]);
    expect(isCut(along.cut, [5000 - 330 - 61, 2000, 1500])).toBe(true);
    expect(isCut(along.cut, [5000 - 330, 2000, 1500])).toBe(false);
    const above = standpointFor(WALL, 'above', 'A', ASPECT);
    expect(above.pose.direction).toEqual([-0, -0, -1]);
    expect(isCut(above.cut, [5000, 2000, 1500 + 230])).toBe(false);
    const floor: Place = { ...WALL, frame: { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, -1] } };
    expect(standpointFor(floor, 'above', 'B', ASPECT)).toEqual(standpointFor(floor, 'front', 'A', ASPECT));
  });

  it('overlook the whole building, every corner in the picture', () => {
    const { all } = elementsOf(benchBuilding(200, 3));
    for (const view of ['front', 'above'] as const) {
      const { pose } = overview(all, view, ASPECT);
      for (let i = 0; i < 8; i++) {
        const corner = [0, 1, 2].map((axis) => ((i >> axis) & 1 ? all.max[axis]! : all.min[axis]!));
        const [x, y] = onPicture(pose, SIZE, corner as unknown as Vec3)!;
        expect(x > 0 && x < SIZE[0] && y > 0 && y < SIZE[1]).toBe(true);
      }
    }
  });

  it('turn about the target without tipping over, and see through the pixel that they project to', () => {
    let { pose } = standpointFor(WALL, 'free', 'A', ASPECT);
    for (let i = 0; i < 30; i++) pose = turned(pose, 0.1, 0.2);
    expect(Math.asin(pose.direction[2])).toBeCloseTo((85 * Math.PI) / 180, 9);
    const p: Vec3 = [5200, 1900, 1600];
    const { from, along } = rayThrough(pose, SIZE, onPicture(pose, SIZE, p)!);
    const way = [p[0] - from[0], p[1] - from[1], p[2] - from[2]];
    const far = Math.hypot(...way);
    for (let axis = 0; axis < 3; axis++) expect(way[axis]! / far).toBeCloseTo(along[axis]!, 9);
  });
});

describe('batches', () => {
  it('hold every triangle once under the number of its element, by kind', () => {
    const { elements } = benchBuilding(300, 2);
    const batches = batchGroups(elementsOf({ elements })).map((group) => batchOf(group, elements));
    expect(batches).toHaveLength(3);
    const seen = new Set<number>();
    for (const { ranges, ids, triangles, positions, lines, style } of batches)
      for (const { id, vertices, triangles: corners, lines: ends } of ranges) {
        seen.add(id);
        expect(style).toBe(elements[id]!.extras.kind);
        expect([...ids.subarray(...vertices)].every((one) => one === id)).toBe(true);
        expect(positions.slice(3 * vertices[0], 3 * vertices[1])).toEqual(elements[id]!.positions);
        const own = [...triangles.subarray(...corners), ...lines.subarray(...ends)];
        expect(own.every((v) => v >= vertices[0] && v < vertices[1])).toBe(true);
        expect([corners[1] - corners[0], ends[1] - ends[0]]).toEqual([36, 24]);
      }
    expect(seen.size).toBe(elements.length);
  });

  it('part what is large, and leave out what has no shape', () => {
    const { elements } = benchBuilding(19 * 250, 1);
    const lengths = batchGroups(elementsOf({ elements })).map((group) => group.length);
    expect(lengths).toEqual([250, 562, 563, 562, 563, 562, 563, 562, 563]);
    const none = { ...elements[0]!, positions: new Float32Array(0), triangles: new Uint16Array(0) };
    expect(batchGroups(elementsOf({ elements: [none] }))).toEqual([]);
  });

  it('draw the twelve edges of a box and no diagonal', () => {
    const { positions, triangles } = node('D', [0, 0, 0], [600, 3000, 400]);
    const lengths = [];
    const lines = sharpLines(positions, triangles);
    for (let i = 0; i < lines.length; i += 2)
      lengths.push(
        Math.hypot(...[0, 1, 2].map((a) => positions[3 * lines[i]! + a]! - positions[3 * lines[i + 1]! + a]!)),
      );
    expect(lengths.sort((a, b) => a - b)).toEqual([400, 400, 400, 400, 600, 600, 600, 600, 3000, 3000, 3000, 3000]);
  });
});

describe('what is before and behind the face', () => {
  const column = node('C', [4800, 1000, 0], [300, 300, 3000], 'service');
  const beside = node('S', [8000, 1000, 0], [300, 300, 3000], 'service');
  const behind = node('B', [4900, 2500, 1400], [200, 200, 200], 'service');
  const duct = node('D', [4700, 500, 1300], [600, 4000, 400]);
  const elements = elementsOf({ elements: [column, beside, behind, duct] });

  it('names what hides the rim from that side alone', () => {
    const isOwn = (id: number) => id === 3;
    expect(standingBefore(elements, WALL, 'A', isOwn)).toEqual([0]);
    expect(standingBefore(elements, WALL, 'B', isOwn)).toEqual([2]);
    expect(standingBefore(elements, WALL, 'A', () => false)).toEqual([3, 0]);
  });

  it('picks what is first in sight, never what is cut away or hidden', () => {
    const { pose, cut } = standpointFor(WALL, 'front', 'A', ASPECT);
    const ray = rayThrough(pose, SIZE, [400, 200]);
    const hit = pick(elements, ray, cut, 6000, (id) => id !== 3)!;
    expect(hit.id).toBe(2);
    expect(hit.at[1]).toBeCloseTo(2500, 3);
    expect(pick(elements, ray, null, 6000, (id) => id !== 3)!.id).toBe(0);
    expect(pick(elements, ray, cut, 6000, (id) => id < 2)).toBeUndefined();
  });

  it('is cut along its section: the outline of the duct at the face', () => {
    const { cut } = standpointFor(WALL, 'front', 'A', ASPECT);
    const lines = sectionLines(duct, cut!);
    const ends = lines.filter((_, i) => i % 3 === 0);
    const heights = lines.filter((_, i) => i % 3 === 2);
    expect([Math.min(...ends), Math.max(...ends)]).toEqual([4700, 5300]);
    expect([Math.min(...heights), Math.max(...heights)]).toEqual([1300, 1700]);
    expect(lines.filter((_, i) => i % 3 === 1).every((y) => Math.abs(y - 1899) < 1e-6)).toBe(true);
    const kept = keptLines([0, 1000, 0, 0, 3000, 0, 0, 100, 0, 0, 200, 0], cut);
    expect(kept).toHaveLength(6);
    expect(kept[1]).toBeCloseTo(1899, 6);
  });

  it('finds what is near, the nearest first', () => {
    expect(elementsNear(elements, [5000, 2000, 1500], 1000)).toEqual([3, 2, 0]);
  });
});

describe('measuring', () => {
  const { pose, cut } = standpointFor(WALL, 'front', 'A', ASPECT);
  const project = (p: Vec3) => onPicture(pose, SIZE, p);

  it('is drawn to corners before edges, and to nothing far off', () => {
    const line = [4700, 1900, 1300, 5300, 1900, 1300];
    const [x, y] = project([4700, 1900, 1300])!;
    expect(snap(line, project, () => 0, [x + 6, y + 6])).toEqual({ at: [4700, 1900, 1300], to: 'corner' });
    const middle = project([5000, 1900, 1300])!;
    const edge = snap(line, project, () => 0, [middle[0], middle[1] + 5])!;
    expect(edge.to).toBe('edge');
    expect(edge.at[0]).toBeCloseTo(5000, 3);
    expect(snap(line, project, () => 0, [middle[0], middle[1] + 30])).toBeUndefined();
  });

  it('measures from the duct, where it is cut, to the opening, along the axes of the barrier', () => {
    const duct = node('D', [4700, 500, 1300], [600, 4000, 400]);
    const elements = elementsOf({ elements: [duct] });
    const at = project([4700, 1900, 1300])!;
    const perPixel = (2 * pose.halfHeight) / SIZE[1];
    const found = snapAt(
      { elements, isShown: () => true, cut, rims: [], project, pixel: perPixel },
      at,
      rayThrough(pose, SIZE, at),
    )!;
    // The edge of the duct runs away from the eye: it is met where it is cut.
    expect(found.at[1]).toBeCloseTo(1899, 3);
    const { total, right, up, normal } = distanceBetween([4700, 1900, 1300], [4670, 1900, 1260], {
      ...{ right: WALL.frame.x, up: WALL.frame.y, normal: WALL.frame.z },
    });
    expect([total, right, up, normal]).toEqual([50, -30, -40, 0]);
  });
});
