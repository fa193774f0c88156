import { expect, it } from 'vitest';
import { isJudgedAtFace } from '../../src/rules/at-faces.js';
import { barrier, clearance, face, obstacle, penetration } from './factories.js';

const SYSTEM = { localBuildUp: 200, buildUpThickness: 100 };
/** In a wall of 128 mm whose middle is at y = 0; the pipe stands beside the duct, named by a face. */
const pipe = obstacle({ model: 'm1', globalId: 'B1' });
const passed = penetration({
  barrier: barrier({ thickness: 128 }),
  position: [3000, 0, 2000],
  faces: [face({ obstacles: [pipe] }), null],
});
const beside = (changes: Parameters<typeof clearance>[0] = {}) =>
  clearance({
    obstacle: { model: 'm1', globalId: 'B1', what: 'service', kind: 'pipe' },
    ...{ side: 'right', distance: 90, at: [3400, 164, 2000], length: 100, ...changes },
  });

it('leaves to the faces what stands wholly beside the local build-up', () => {
  // From 50 mm to 150 mm before the face; the build-up ends at 200 mm.
  expect(isJudgedAtFace(beside(), passed, SYSTEM)).toBe(true);
  expect(isJudgedAtFace(beside({ at: [3400, -164, 2000] }), passed, SYSTEM)).toBe(true);
  // Just to the end of the build-up, and a little over it.
  expect(isJudgedAtFace(beside({ length: 200 }), passed, SYSTEM)).toBe(true);
  expect(isJudgedAtFace(beside({ length: 202 }), passed, SYSTEM)).toBe(false);
});

it('judges here what no face names, what is further off than the build-up, and what is not known', () => {
  expect(isJudgedAtFace(beside(), { ...passed, faces: [face(), face()] }, SYSTEM)).toBe(false);
  expect(isJudgedAtFace(beside({ distance: 100 }), passed, SYSTEM)).toBe(false);
  expect(isJudgedAtFace(beside({ distance: 99.9 }), passed, SYSTEM)).toBe(true);
  // So near the middle of the wall that both would lie beside the build-up if they were thin.
  const near = { at: [3400, 80, 2000] } as const;
  expect(isJudgedAtFace(beside({ ...near, length: null }), passed, SYSTEM)).toBe(false);
  expect(isJudgedAtFace(beside(near), { ...passed, barrier: barrier({ thickness: null }) }, SYSTEM)).toBe(false);
  // Another element of the same model, and the same name in another model.
  const named = (changes: Parameters<typeof obstacle>[0]) => ({
    ...passed,
    faces: [null, face({ obstacles: [obstacle({ ...pipe, ...changes })] })] as const,
  });
  expect(isJudgedAtFace(beside(), named({}), SYSTEM)).toBe(true);
  expect(isJudgedAtFace(beside(), named({ globalId: 'B2' }), SYSTEM)).toBe(false);
  expect(isJudgedAtFace(beside(), named({ model: 'm3' }), SYSTEM)).toBe(false);
  expect(isJudgedAtFace(beside(), passed, { localBuildUp: 200 })).toBe(false);
  expect(isJudgedAtFace(beside(), passed, { buildUpThickness: 100 })).toBe(false);
});
