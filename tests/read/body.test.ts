/** Items that web-ifc can't draw: one element's fault, said in words; but a dead instance must end its reader. */
import { describe, expect, it } from 'vitest';
import { readBodies } from '../../src/read/body.js';
import type { CurveContext } from '../../src/read/curves.js';
import { Reference } from '../../src/read/part21-values.js';
import { Placements } from '../../src/read/placement.js';
import type { StepFile } from '../../src/read/step-file.js';
import { UnreadableGeometry } from '../../src/read/unreadable.js';

const ref = (id: number) => new Reference(id);
const LINES: Readonly<Record<number, Record<string, unknown>>> = {
  1: { Representations: [ref(2)] },
  2: { RepresentationIdentifier: 'Body', Items: [ref(3)] },
  3: {},
};

function bodiesWhen(mesh: () => unknown) {
  const file = { line: (id: number) => LINES[id], entity: (id: number) => (id === 3 ? 'IFCADVANCEDBREP' : ''), mesh };
  const context: CurveContext = {
    file: file as unknown as StepFile,
    placements: new Placements(file as unknown as StepFile, 1),
    mm: 1,
    angle: 1,
  };
  return () => readBodies(context, { Representation: ref(1) });
}
const failing = (error: Error) => () => {
  throw error;
};

describe('an item that can not be drawn', () => {
  it('is unreadable geometry of its element', () => {
    expect(bodiesWhen(failing(new Error('std::bad_alloc')))).toThrow(UnreadableGeometry);
    expect(bodiesWhen(failing(new Error('std::bad_alloc')))).toThrow('its IFCADVANCEDBREP can not be drawn');
  });

  it('ends the reader where web-ifc itself died of it', () => {
    const death = Object.assign(new Error('memory access out of bounds'), { name: 'RuntimeError' });
    expect(bodiesWhen(failing(death))).toThrow('memory access out of bounds');
    expect(bodiesWhen(failing(death))).not.toThrow(UnreadableGeometry);
  });

  it.each([
    ['no triangle', [], /gives no surface/],
    ['a coordinate that is no number', [0, 0, 0, 1, 0, 0, 0, Number.NaN, 0], /coordinates that are no numbers/],
  ])('with %s is said too', (_, positions, message) => {
    const mesh = {
      positions: Float64Array.from(positions),
      triangles: Uint32Array.from(positions.length > 0 ? [0, 1, 2] : []),
    };
    expect(bodiesWhen(() => mesh)).toThrow(message);
  });
});
