/** The room at the faces of a barrier as papers tell it. */
import { expect, it } from 'vitest';
import { FACE_HEADINGS, faceRows, nearestBeside } from '../../src/report/face-words.js';
import { face, inLine, obstacle } from '../model-factories.js';
import { aPenetration } from './factories.js';

const joint = {
  distance: 250,
  from: 'ports',
  to: { model: 'm1', globalId: 'F', name: 'Bend 3', element: 'fitting' },
} as const;

it('tells what stands on each side, from where on, and what the duct is joined with', () => {
  const tight = face({ shaft: true, roomWidth: 855, joint, obstacles: [obstacle(), inLine({ name: '' })] });
  const p = aPenetration(1, { faces: [tight, face({ towards: 'north', room: null, joint: null })] });
  expect(faceRows(p)).toEqual([
    [
      'south face (Store), a shaft 855 wide',
      'free',
      'free',
      'free',
      '90 (Pipe 1, from 50 on)',
      '250 (W9)',
      '250 (Bend 3)',
    ],
    ['north face', 'free', 'free', 'free', 'free', 'free', 'not known'],
  ]);
  for (const row of faceRows(p)) expect(row).toHaveLength(FACE_HEADINGS.length);
  expect(p.faces.map(nearestBeside)).toEqual([0, null]);
  expect(faceRows(aPenetration(1, { faces: [null, null] }))).toEqual([]);
});
