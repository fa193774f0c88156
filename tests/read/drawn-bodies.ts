/** Reads one duct that is drawn by hand, and measures its body with school geometry. */
import type { Context } from '../../fixtures/builder/context.js';
import type { Body as Drawn, Section } from '../../fixtures/builder/shapes.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { type Vec3, X, Z } from '../../fixtures/vectors.js';
import { frameAlong } from '../../src/geometry/frame.js';
import { prismMesh } from '../../src/geometry/loft.js';
import { cutBodies } from '../../src/geometry/section.js';
import type { Body } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { SWEPT_SAGITTA } from '../../src/tolerances.js';

export type Draw = (c: Context, length: number) => Drawn;

export async function read(drawn: Draw, schema: 'IFC2X3' | 'IFC4' = 'IFC4') {
  const b = new ModelBuilder({ fileName: 'swept.ifc', schema });
  b.duct({ name: 'D', from: [0, 0, 0], to: [0, 0, 1000], width: 600, height: 400, draw: drawn });
  const bytes = new TextEncoder().encode(b.toString());
  const { airElements, models, origin } = await readFederation([{ name: 'swept.ifc', bytes }]);
  return { bodies: airElements[0]?.bodies ?? [], problems: models[0]!.problems, origin };
}

/** Enclosed by the triangles, by the divergence theorem; a prism by its own mesh. */
export function volume(bodies: readonly Body[]): number {
  return bodies.reduce((sum, body) => {
    const { positions: p, triangles: t } = body.kind === 'mesh' ? body : prismMesh(body);
    let six = 0;
    const at = (i: number): Vec3 => [p[3 * i]!, p[3 * i + 1]!, p[3 * i + 2]!];
    for (let f = 0; f < t.length; f += 3) {
      const [a, b, c] = [at(t[f]!), at(t[f + 1]!), at(t[f + 2]!)];
      six +=
        a[0] * (b[1] * c[2] - b[2] * c[1]) + a[1] * (b[2] * c[0] - b[0] * c[2]) + a[2] * (b[0] * c[1] - b[1] * c[0]);
    }
    return sum + Math.abs(six / 6);
  }, 0);
}

/** Section on a plane, in the federation's world coordinates. */
export function section({ bodies, origin }: Awaited<ReturnType<typeof read>>, at: Vec3, normal: Vec3) {
  const inner: Vec3 = [at[0] - origin[0], at[1] - origin[1], at[2] - origin[2]];
  return cutBodies(bodies, frameAlong(inner, normal, Math.abs(normal[2]) > 0.9 ? X : Z));
}

export const rect = (width: number, height: number): Section => ({ shape: 'rectangle', width, height });
export const round = (diameter: number): Section => ({ shape: 'circle', diameter });
/** Relative: chords of sagitta s take no more than 4s/d of a circle's area, and as much of the way. */
export const CHORDS = (8 * SWEPT_SAGITTA) / 300;
export const about = (value: number, share: number) => ({
  asymmetricMatch: (n: number) => Math.abs(n / value - 1) <= share,
  toString: () => `${value} to ${share * 100} %`,
});
