/** On models of others: what stands near ductwork is found, and its distances are those that manifold-3d measures. */
import Module from 'manifold-3d';
import { describe, expect, it } from 'vitest';
import { obstacleIndex } from '../../src/find/obstacles.js';
import { readPieces } from '../../src/find/pieces.js';
import { grown } from '../../src/geometry/box.js';
import { clearDistance } from '../../src/geometry/clear-distance.js';
import { prismMesh } from '../../src/geometry/loft.js';
import { isClosed } from '../../src/geometry/mesh.js';
import type { Body, Mesh, Vec3 } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { hasModels, modelInput } from './shared-models.js';

const FILES = ['pcert-architecture.ifc', 'pcert-hvac.ifc', 'pcert-structural.ifc'];
const REACH = 500;
const MOST = 4;

describe.skipIf(!hasModels)('distances on a real model', () => {
  it('agree with an outside judge', async () => {
    const federation = await readFederation(FILES.map(modelInput));
    expect(federation.obstacles?.length).toBeGreaterThan(5);
    const pieces = readPieces(federation.airElements);
    const standing = obstacleIndex(federation, pieces);
    const library = await Module();
    library.setup();
    const meshOf = (body: Body): Mesh => (body.kind === 'mesh' ? body : prismMesh(body));
    // It keeps single precision, so both are moved to the origin.
    const solid = (mesh: Mesh, [x, y, z]: Vec3) => {
      const moved = mesh.positions.map((v, i) => v - [x, y, z][i % 3]!);
      const given = { numProp: 3, vertProperties: Float32Array.from(moved), triVerts: mesh.triangles };
      return new library.Manifold(new library.Mesh(given));
    };
    let compared = 0;
    let worst = 0;
    for (const piece of pieces)
      for (const other of standing(grown(piece.box, REACH))) {
        const [own, body] = [piece.bodies[0]!, other.bodies[0]!];
        if (other.piece === piece || compared >= MOST) continue;
        const meshes = [meshOf(own), meshOf(body)];
        if (!meshes.every((mesh) => isClosed(mesh) && mesh.triangles.length < 6000)) continue;
        const found = clearDistance(own, body, REACH);
        if (!found || found.distance === 0) continue;
        const [a, b] = meshes.map((mesh) => solid(mesh, piece.box.min));
        worst = Math.max(worst, Math.abs(a!.minGap(b!, 2 * REACH) - found.distance));
        compared++;
      }
    expect(compared).toBeGreaterThan(0);
    expect(worst).toBeLessThan(0.05);
  });
});
