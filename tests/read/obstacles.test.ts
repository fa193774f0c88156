/** What is read as standing in the way of ductwork, what is not, and whether it burns. */
import { describe, expect, it } from 'vitest';
import { DUCT, WALL } from '../../fixtures/cases/base.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { obstacleIndex } from '../../src/find/obstacles.js';
import { readPieces } from '../../src/find/pieces.js';
import { burns } from '../../src/read/combustible.js';
import { readFederation } from '../../src/read/read-federation.js';

async function building(schema: 'IFC2X3' | 'IFC4') {
  const b = new ModelBuilder({ fileName: 'obstacles.ifc', schema });
  const wall = b.wall(WALL);
  const duct = b.duct(DUCT);
  const pipe = b.pipe({ name: 'Pipe', from: [2000, -2500, 2000], to: [2000, 2500, 2000], diameter: 60 });
  const at = (n: number) => ({ from: [10000 * n, 5000, 0], to: [10000 * n + 1000, 6000, 300] }) as const;
  b.block({ name: 'Beam', entity: 'IfcBeam', ...at(1), material: 'Steel S235' });
  b.block({ name: 'Joist', entity: 'IfcMember', ...at(2), material: 'Softwood C24' });
  b.block({ name: 'Board', entity: 'IfcPlate', ...at(3), combustible: true, material: 'Steel' });
  b.block({ name: 'Ceiling', entity: 'IfcCovering', predefined: 'CEILING', ...at(4) });
  b.block({ name: 'Lining', entity: 'IfcCovering', predefined: 'CLADDING', ...at(5), covers: wall });
  b.block({ name: 'Shelf', entity: 'IfcFurnishingElement', ...at(6) });
  b.block({ name: 'Box', entity: 'IfcBuildingElementProxy', ...at(7) });
  b.block({ name: 'Wool on the pipe', entity: 'IfcCovering', predefined: 'INSULATION', ...at(8), covers: pipe });
  // None of these is in anybody's way.
  b.block({ name: 'Wool on the duct', entity: 'IfcCovering', predefined: 'INSULATION', ...at(9), covers: duct });
  b.block({ name: 'Loose wool', entity: 'IfcCovering', predefined: 'INSULATION', ...at(10) });
  b.block({ name: 'Provision for void 12', entity: 'IfcBuildingElementProxy', ...at(11) });
  b.block({ name: 'Duct hanger 3', entity: 'IfcBuildingElementProxy', ...at(12) });
  b.block({ name: 'Lüftungskanal', entity: 'IfcBuildingElementProxy', ...at(13) });
  return readFederation([{ name: 'obstacles.ifc', bytes: new TextEncoder().encode(b.toString()) }]);
}

describe.each(['IFC4', 'IFC2X3'] as const)('what stands in the way, %s', (schema) => {
  it('is read with its kind and whether it burns', async () => {
    const { obstacles = [] } = await building(schema);
    expect(obstacles.map(({ name, kind, combustible }) => [name, kind, combustible])).toEqual(
      expect.arrayContaining([
        ['Beam', 'beam', false],
        ['Joist', 'member', true],
        ['Board', 'plate', true],
        ['Ceiling', 'ceiling', undefined],
        ['Lining', 'covering', undefined],
        ['Shelf', 'furniture', undefined],
        ['Box', 'other', undefined],
        ['Wool on the pipe', 'covering', undefined],
      ]),
    );
    expect(obstacles).toHaveLength(8);
  });

  it('stands in one index with barriers, services and ductwork', async () => {
    const federation = await building(schema);
    const standing = obstacleIndex(federation, readPieces(federation.airElements));
    const all = standing({ min: [-1e6, -1e6, -1e6], max: [1e6, 1e6, 1e6] });
    const count = (what: string) => all.filter((one) => one.what === what).length;
    expect(['barrier', 'column', 'obstacle', 'service', 'duct'].map(count)).toEqual([1, 0, 8, 1, 1]);
    const near = federation.obstacles!.find((one) => one.name === 'Shelf')!.bodies;
    expect(near[0]?.kind).toBe('prism');
  });
});

describe('what materials say of burning', () => {
  it.each([
    [['Concrete C30/37'], false],
    [['Plasterboard', 'Steel stud'], undefined],
    [['Concrete', 'Polystyrene'], true],
    [['Brettsperrholz'], true],
    [['Wood wool cement board'], undefined],
    [['Default'], undefined],
    [[], undefined],
  ] as const)('%j', (materials, says) => {
    expect(burns(materials)).toBe(says);
  });
});
