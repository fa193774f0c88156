/**
 * Developed surfaces of branches, bends and hollow ones, held to a general library: manifold-3d unites and subtracts the
 * solids and says how large their surfaces are; nothing of src/ makes them.
 */
import Module, { type Manifold, type ManifoldToplevel } from 'manifold-3d';
import { beforeAll, expect, it } from 'vitest';
import { outerSurface } from '../../src/geometry/outer-surface.js';
import type { Mesh, Vec3 } from '../../src/model.js';

const REACH = 10;
const SEGMENTS = 48;
let kernel: ManifoldToplevel;
beforeAll(async () => {
  kernel = await Module();
  kernel.setup();
});

/** As a file would have it: its corners shared. */
function meshOf(solid: Manifold): Mesh {
  const { vertProperties, triVerts, numProp, mergeFromVert, mergeToVert } = solid.getMesh();
  const to = new Map([...mergeFromVert].map((from, i) => [from, mergeToVert[i]!]));
  const positions = Float64Array.from({ length: (vertProperties.length / numProp) * 3 }, (_, i) =>
    Number(vertProperties[Math.floor(i / 3) * numProp + (i % 3)]),
  );
  return { kind: 'mesh', positions, triangles: triVerts.map((v) => to.get(v) ?? v) };
}

const measured = (solid: Manifold, ends: readonly Vec3[]): number => {
  const found = outerSurface(
    meshOf(solid),
    ends.map((at) => ({ at, joined: undefined })),
    REACH,
  );
  if (typeof found === 'string') throw new Error(found);
  return found.area;
};

/** Along an axis from one place to another, so many sides or a rectangle. */
type Section = { readonly diameter: number } | { readonly width: number; readonly height: number };
const polygonArea = (section: Section): number =>
  'diameter' in section
    ? (SEGMENTS / 2) * (section.diameter / 2) ** 2 * Math.sin((2 * Math.PI) / SEGMENTS)
    : section.width * section.height;
const bar = (section: Section, length: number): Manifold =>
  'diameter' in section
    ? kernel.Manifold.cylinder(length, section.diameter / 2, section.diameter / 2, SEGMENTS)
    : kernel.Manifold.cube([section.width, section.height, length], true).translate([0, 0, length / 2]);
/** From -1000 to 1000 along x, and from 0 to 900 up. */
const tee = (main: Section, branch: Section, beyond = 0): Manifold =>
  bar(main, 2000 + 2 * beyond)
    .translate([0, 0, -1000 - beyond])
    .rotate([0, 90, 0])
    .add(bar(branch, 900 + beyond));
const TEE_ENDS: readonly Vec3[] = [
  [-1000, 0, 0],
  [1000, 0, 0],
  [0, 0, 900],
];
const inner = (section: Section, t: number): Section =>
  'diameter' in section
    ? { diameter: section.diameter - 2 * t }
    : { width: section.width - 2 * t, height: section.height - 2 * t };

const TEES: readonly (readonly [string, Section, Section])[] = [
  ['round on round', { diameter: 500 }, { diameter: 300 }],
  ['round on round of the same size', { diameter: 400 }, { diameter: 400 }],
  ['rectangular on rectangular', { width: 400, height: 600 }, { width: 300, height: 250 }],
  ['round on rectangular', { width: 500, height: 700 }, { diameter: 350 }],
];

it.each(TEES)('a tee, %s, to 0.001 %%', (_, main, branch) => {
  const solid = tee(main, branch);
  const truth = solid.surfaceArea() - 2 * polygonArea(main) - polygonArea(branch);
  expect(Math.abs(measured(solid, TEE_ENDS) / truth - 1)).toBeLessThan(1e-5);
});

it.each(TEES)('a hollow tee of 2 mm, %s, counts outside alone, to 0.001 %%', (_, main, branch) => {
  const solid = tee(main, branch);
  const hollow = solid.subtract(tee(inner(main, 2), inner(branch, 2), 1));
  const truth = solid.surfaceArea() - 2 * polygonArea(main) - polygonArea(branch);
  expect(Math.abs(measured(hollow, TEE_ENDS) / truth - 1)).toBeLessThan(1e-5);
});

it('a quarter bend of any section, to 0.001 %', () => {
  for (const radius of [350, 500, 900]) {
    const profile = kernel.CrossSection.square([400, 300], true).translate([radius, 0]);
    const solid = profile.revolve(128, 90);
    const truth = solid.surfaceArea() - 2 * 400 * 300;
    const found = measured(solid, [
      [radius, 0, 0],
      [0, radius, 0],
    ]);
    expect(Math.abs(found / truth - 1)).toBeLessThan(1e-5);
    // Pappus: 2 · (400 + 300) · R · π/2, less what 32 chords of a quarter cut off.
    expect(Math.abs(found / (1400 * radius * (Math.PI / 2)) - 1)).toBeLessThan(0.001);
  }
});
