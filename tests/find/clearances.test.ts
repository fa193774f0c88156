/** What stands beside ducts, from models; from the drawing. */
import { expect, it } from 'vitest';
import { ModelBuilder, rectangle } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';
import { NO_FACTS } from '../read/no-facts.js';

const protections = [{ system: 'KX', kind: 'blanket', evidence: 'an invented drawing' }] as const;

it('tells how far off a pipe runs from a duct that is wrapped, and over what length of it', async () => {
  const b = new ModelBuilder({ fileName: 'beside.ifc' });
  b.duct({ name: 'D', from: [0, 0, 2500], to: [6000, 0, 2500], width: 600, height: 400, system: 'KX' });
  const size = { thickness: 200, height: 3400 };
  b.wall({ name: 'W', from: [1000, -2000], to: [1000, 2000], ...size, rating: '-/60/60' });
  // The room that all of it is in.
  const corners = rectangle([-1000, -2000], [7000, 2000]);
  for (const [i, from] of corners.entries())
    b.wall({ name: `Outer ${i}`, from, to: corners[(i + 1) % corners.length]!, ...size });
  // Its near side 100 mm off the duct's.
  b.pipe({ name: 'Pipe', from: [2000, 450, 2500], to: [4500, 450, 2500], diameter: 100 });
  // What the duct goes through is not beside it.
  const web = { min: [5000, -500, 2000], max: [5100, 500, 3000] } as const;
  b.solid({ name: 'Web of a beam', entity: 'IfcBeam', ...web });
  const federation = await readFederation([{ name: 'beside.ifc', bytes: new TextEncoder().encode(b.toString()) }]);
  const { runs } = findPenetrations(federation, { facts: { ...NO_FACTS, protections } });
  expect(
    runs[0]!.stretches
      .flatMap(({ clearances }) => clearances)
      .map(({ obstacle, side, distance, length }) => [obstacle.name, side, distance, length]),
  ).toEqual([['Pipe', 'left', 100, 2500]]);
});
