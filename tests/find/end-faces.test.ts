/** Faces that a duct may go on from, whichever way the triangles of a body are wound. */
import { expect, it } from 'vitest';
import { endFacesOf } from '../../src/find/end-faces.js';
import { prismMesh } from '../../src/geometry/loft.js';
import { rectangle } from '../../src/geometry/polygon.js';
import { dot, sub } from '../../src/geometry/vector.js';
import type { Mesh, Vec3 } from '../../src/model.js';
import { upright } from './elements.js';

/** 400 × 300 and 1000 high, its middle at x = 0, y = 0, z = 2500. */
const box = prismMesh(upright(rectangle(400, 300), 2000, 3000));
const inverted: Mesh = { ...box, triangles: box.triangles.toReversed() };

it.each([
  ['outwards', box],
  ['inwards', inverted],
])('the way out leads away from the middle where triangles are wound %s', (_, mesh) => {
  const faces = endFacesOf([mesh]);
  const middle: Vec3 = [0, 0, 2500];
  expect(faces.map(({ centre, normal }) => Math.round(dot(sub(centre, middle), normal))).sort((a, b) => a - b)).toEqual(
    [150, 150, 200, 200, 500, 500],
  );
});

it('a face that misses a rectangle by 2 mm at one corner is one, by more it is none', () => {
  const faces = (off: number) =>
    endFacesOf([
      prismMesh(
        upright(
          [
            [-200, -150],
            [200, -150],
            [200, 50],
            [200 - off, 150 - off],
            [100, 150],
            [-200, 150],
          ],
          0,
          1000,
        ),
      ),
    ]);
  const ends = (off: number) => faces(off).filter(({ normal }) => Math.abs(normal[2]) > 0.9).length;
  expect([ends(2), ends(2.01)]).toEqual([2, 0]);
});
