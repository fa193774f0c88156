/**
 * geometry.glb of the demo building and of real models. Oracle for the file: the glTF validator of the Khronos Group
 * (package gltf-validator), which checks against glTF 2.0 (ISO/IEC 12113:2022).
 */
import { validateBytes } from 'gltf-validator';
import { beforeAll, describe, expect, it } from 'vitest';
import { nameOf } from '../../src/element-refs.js';
import { dot, length, sub, unit } from '../../src/geometry/vector.js';
import type { Federation, Vec3 } from '../../src/model.js';
import type { Report } from '../../src/report/schema.js';
import { writeGeometry } from '../../src/report/write-geometry.js';
import { type Geometry, readGeometry } from '../../viewer/model/geometry.js';
import { review } from '../one-wall.js';
import { hasModels, modelInput } from '../reference/shared-models.js';
import { demoBuilt } from '../report/demo-report.js';

let federation: Federation;
let report: Report;
let bytes: Uint8Array;
let geometry: Geometry;

beforeAll(async () => {
  ({ federation, report } = await demoBuilt());
  bytes = writeGeometry(federation, report);
  geometry = readGeometry(bytes.slice().buffer);
}, 60_000);

const pointsOf = ({ positions }: { readonly positions: Float32Array }): Vec3[] =>
  Array.from(
    { length: positions.length / 3 },
    (_, i): Vec3 => [positions[3 * i]!, positions[3 * i + 1]!, positions[3 * i + 2]!],
  );

describe('the demo building', () => {
  it('is a glTF file without errors and warnings', async () => {
    const { issues } = await validateBytes(bytes);
    expect(issues).toMatchObject({ numErrors: 0, numWarnings: 0, messages: [] });
  });

  it('has a node for each listed finding with a place', () => {
    const placed = report.findings.filter(({ at }) => at !== null);
    expect(placed.length).toBeGreaterThan(100);
    expect(geometry.findings.map(({ extras }) => [extras.id, extras.at])).toEqual(placed.map(({ id, at }) => [id, at]));
  });

  it('has a face for each barrier that something passes', () => {
    const passed = new Set(report.penetrations.map(({ barrier }) => nameOf(barrier)));
    expect([...geometry.faces.keys()].sort()).toEqual([...passed].map((name) => name.replace(' ', '/')).sort());
    for (const { barrier, position, frame } of report.penetrations) {
      const face = geometry.faces.get(`${barrier.model}/${barrier.globalId}`)!;
      const by = sub(position, face.origin);
      const [x, y] = [dot(by, face.right), dot(by, face.up)];
      const us = face.outline[0]!.map(([u]) => u);
      const vs = face.outline[0]!.map(([, v]) => v);
      expect(x).toBeGreaterThan(Math.min(...us));
      expect(x).toBeLessThan(Math.max(...us));
      expect(y).toBeGreaterThan(Math.min(...vs));
      expect(y).toBeLessThan(Math.max(...vs));
      expect(Math.abs(dot(frame.normal, face.normal))).toBeCloseTo(1, 6);
    }
  });
});

describe('protection of the demo building, as it will be built', () => {
  it('is there for each layer that the take-off counts on a piece, and for nothing else', () => {
    const counted = new Set(
      report.takeoff!.items.flatMap(({ run, element, layer }) =>
        run && element && layer ? [`${run} ${nameOf(element)} ${layer.number}`] : [],
      ),
    );
    const drawn = new Set(
      geometry.protection.flatMap(({ extras: { run, element, layer } }) =>
        element ? [`${run} ${nameOf(element)} ${layer}`] : [],
      ),
    );
    expect(counted.size).toBeGreaterThan(150);
    expect(drawn).toEqual(counted);
  });

  it('is exactly as large as the duct and twice its thickness, and stops at the faces of barriers', () => {
    const parts = report.runs.flatMap((run) =>
      run.stretches.flatMap((stretch) =>
        stretch.parts.map((part, i) => ({
          part,
          run: run.id,
          ends: stretch.ends.filter((end) => end.part === i).map(({ penetration }) => penetration),
        })),
      ),
    );
    const thickness = new Map(
      report.takeoff!.items.flatMap(({ layer, element, run }) =>
        layer && element ? [[`${run} ${nameOf(element)}`, layer.thickness] as const] : [],
      ),
    );
    let measured = 0;
    let stopped = 0;
    for (const { part, run, ends } of parts) {
      const section = part.measures?.section;
      const t = thickness.get(`${run} ${nameOf(part)}`);
      if (!section?.width || !section.height || t === undefined || part.measures!.way !== 'level') continue;
      const way = unit(sub(part.to, part.from));
      const across: Vec3 = [-way[1], way[0], 0];
      const [from, to] = [part.from, part.to].map((p) => sub(p, federation.origin)) as [Vec3, Vec3];
      for (const node of geometry.protection) {
        const { extras } = node;
        if (!extras.element || extras.run !== run || nameOf(extras.element) !== nameOf(part)) continue;
        const points = pointsOf(node);
        const along = points.map((p) => dot(sub(p, from), way));
        // Of a piece that a barrier cuts each stretch has its own.
        if (Math.min(...along) < -1 || Math.max(...along) > length(sub(to, from)) + 1) continue;
        const size = (direction: Vec3): number => {
          const values = points.map((p) => dot(p, direction));
          return Math.max(...values) - Math.min(...values);
        };
        const layers = 2 * extras.layer * t;
        expect(Math.abs(size(across) - (section.width + layers))).toBeLessThan(0.05);
        expect(Math.abs(size([0, 0, 1]) - (section.height + layers))).toBeLessThan(0.05);
        measured++;
        for (const id of ends) {
          const p = report.penetrations.find((one) => one.id === id)!;
          if (p.treatment.chosen?.gapDatum !== 'stopsAtFace' || p.skew !== 0) continue;
          const off = points.map((q) => Math.abs(dot(sub(q, sub(p.position, federation.origin)), p.frame.normal)));
          expect(Math.min(...off)).toBeGreaterThanOrEqual(p.barrier.thickness! / 2 - 0.01);
          expect(Math.min(...off)).toBeLessThan(p.barrier.thickness! / 2 + 60);
          stopped++;
        }
      }
    }
    expect(measured).toBeGreaterThan(150);
    expect(stopped).toBeGreaterThan(80);
  });

  it('reaches as far along the duct as the build-up of the detail is long, and a collar as far across', () => {
    let seen = 0;
    for (const p of report.penetrations) {
      const { chosen } = p.treatment;
      if (!chosen || p.skew !== 0) continue;
      for (const part of chosen.parts) {
        const nodes = geometry.protection.filter(
          ({ extras }) => extras.penetration === p.id && extras.part === part.part,
        );
        const middle = sub(p.position, federation.origin);
        const points = nodes.flatMap(pointsOf).map((q) => sub(q, middle));
        const reach = (direction: Vec3): number => Math.max(...points.map((q) => Math.abs(dot(q, direction))));
        const half = p.barrier.thickness! / 2;
        if (part.part === 'localBuildUp' && part.length !== null) {
          expect(nodes).toHaveLength(chosen.faces === 'both' ? 2 : 1);
          expect(Math.abs(reach(p.frame.normal) - half - part.length)).toBeLessThan(0.02);
          const outside = (chosen.layers! + part.layers) * chosen.layerThickness!;
          expect(Math.abs(reach(p.frame.right) - p.duct.width! / 2 - outside)).toBeLessThan(0.06);
          seen++;
        }
        if (part.part === 'boardCollar' && part.width !== null) {
          expect(Math.abs(reach(p.frame.right) - p.duct.width! / 2 - part.width)).toBeLessThan(0.06);
          seen++;
        }
        if (part.part === 'packing' && p.opening) {
          expect(reach(p.frame.normal)).toBeLessThanOrEqual(half + 0.01);
          seen++;
        }
      }
    }
    expect(seen).toBeGreaterThan(120);
  });

  it('is light: a straight layer has 32 triangles', () => {
    const counts = geometry.protection
      .filter(({ extras }) => extras.part === 'board')
      .map(({ triangles }) => triangles.length / 3);
    expect(new Set(counts)).toEqual(new Set([32]));
  });
});

describe('nothing to draw', () => {
  it('is a glTF file too', async () => {
    const none: Federation = {
      ...{ ...federation, airElements: [], otherServices: [], barriers: [], columns: [], obstacles: [] },
    };
    const empty = writeGeometry(none, { ...report, penetrations: [], findings: [], runs: [], takeoff: null });
    expect((await validateBytes(empty)).issues).toMatchObject({ numErrors: 0, numWarnings: 0 });
    expect(readGeometry(empty.slice().buffer).elements).toEqual([]);
  });
});

describe.skipIf(!hasModels)('real models', () => {
  it.each(['pcert-hvac.ifc', 'bcf-mep.ifc', 'all-categories-feet.ifc', 'classroom.ifc'])(
    '%s is a glTF file without errors and warnings',
    async (name) => {
      const made = await review([modelInput(name)]);
      const { issues, info } = await validateBytes(writeGeometry(made.federation, made.report));
      expect(issues).toMatchObject({ numErrors: 0, numWarnings: 0 });
      expect(info.totalTriangleCount).toBeGreaterThan(0);
    },
    60_000,
  );
});
