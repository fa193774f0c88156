/** Walls and floors of parts, with steps, ribs, hollows, recesses; what is expected follows from the drawing in each case. */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { type BuilderOptions, ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { ProjectFacts } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { buildReadiness } from '../../src/report/readiness.js';
import { constructionRows, loadRules } from '../../src/rules/index.js';
import { NO_FACTS } from '../read/no-facts.js';

const constructions = constructionRows(
  loadRules([{ file: 'constructions.yaml', text: readFileSync('rules/constructions.yaml', 'utf8') }]),
);

type Build = (b: ModelBuilder) => void;

async function review(build: Build, facts: Partial<ProjectFacts> = {}, options: Partial<BuilderOptions> = {}) {
  const b = new ModelBuilder({ ...options, fileName: 'parts.ifc' });
  build(b);
  const all = { ...NO_FACTS, ...facts };
  const bytes = new TextEncoder().encode(b.toString());
  const federation = await readFederation([{ name: 'parts.ifc', bytes }], { facts: all, constructions });
  return { federation, penetrations: findPenetrations(federation, { facts: all }).penetrations };
}

const DUCT = { name: 'D', from: [3000, -2000, 1500], to: [3000, 2000, 1500], width: 400, height: 300 } as const;
const WHOLE = { name: 'W', from: [0, 0], to: [6000, 0], height: 3000, rating: '-/60/60' } as const;
const BOARD = { entity: 'IfcBuildingElementPart', material: 'Gypsum plasterboard' } as const;
const STUDS = [0, 600, 1200, 1800, 2400, 3600, 4200, 4800, 5400, 5950].map((x) => ({
  name: `Stud ${x}`,
  entity: 'IfcMember' as const,
  material: 'Steel stud',
  along: [x, x + 50] as const,
  across: [-46, 46] as const,
}));
const BOARDS = [
  { ...BOARD, name: 'Board left', across: [46, 62] as const },
  { ...BOARD, name: 'Board right', across: [-62, -46] as const },
];

describe.each([['IFC4'], ['IFC2X3']] as const)('a wall of parts, %s', (schema) => {
  it('of boards on studs is one wall of its whole thickness, whatever hollow the duct passes', async () => {
    const { federation, penetrations } = await review(
      (b) => {
        b.opening(b.composed({ ...WHOLE, entity: 'IfcWall', parts: [...BOARDS, ...STUDS] }), {
          centre: [3000, 0, 1500],
          width: 500,
          height: 400,
        });
        b.duct(DUCT);
      },
      {},
      { schema },
    );
    expect(penetrations).toMatchObject([
      {
        crossing: 'through',
        position: [3000, 0, 1500],
        barrier: { name: 'W', thickness: 124, construction: 'steelStud', rating: { integrity: 60 } },
        opening: { width: 500, height: 400 },
        gaps: { left: 50, right: 50, top: 50, bottom: 50 },
      },
    ]);
    expect(federation.barriers[0]!.layers.slice(0, 2)).toEqual([
      { material: 'Gypsum plasterboard', thickness: undefined },
      { material: 'Gypsum plasterboard', thickness: undefined },
    ]);
  });

  it('is passed through an opening in each part', async () => {
    const { penetrations } = await review(
      (b) => {
        const wall = b.composed({ ...WHOLE, entity: 'IfcWall', parts: [...BOARDS, ...STUDS] });
        for (const [name, y] of [
          ['Board left', 54],
          ['Board right', -54],
        ] as const)
          b.opening(wall.parts[name]!, { centre: [3000, y, 1500], width: 500, height: 400, depth: 16 });
        b.duct(DUCT);
      },
      {},
      { schema },
    );
    expect(penetrations).toMatchObject([{ barrier: { thickness: 124 }, gaps: { left: 50, top: 50 } }]);
  });

  it('that touch each other is passed through an opening in each, not through recesses that leave a web', async () => {
    const layers = [
      { name: 'Outer', entity: 'IfcBuildingElementPart', material: 'Brick', across: [0, 100] },
      { name: 'Inner', entity: 'IfcBuildingElementPart', material: 'Brick', across: [-100, 0] },
    ] as const;
    const through = (depth: number): Build => {
      return (b) => {
        const wall = b.composed({ ...WHOLE, entity: 'IfcWall', parts: layers });
        b.opening(wall.parts.Outer!, { centre: [3000, 100 - depth / 2, 1500], width: 500, height: 400, depth });
        b.opening(wall.parts.Inner!, { centre: [3000, depth / 2 - 100, 1500], width: 500, height: 400, depth });
        b.duct(DUCT);
      };
    };
    const [whole, web] = [await review(through(100), {}, { schema }), await review(through(95), {}, { schema })];
    expect(whole.penetrations).toMatchObject([{ barrier: { thickness: 200 }, opening: { width: 500 } }]);
    expect(web.penetrations).toMatchObject([{ barrier: { thickness: 200 }, opening: null }]);
  });

  it('drawn as walls in an assembly is passed as leaves, rated by the assembly', async () => {
    const { federation, penetrations } = await review(
      (b) => {
        const parts = [
          { name: 'Brick leaf', entity: 'IfcWall', material: 'Brick', across: [40, 140] },
          { name: 'Block leaf', entity: 'IfcWall', material: 'Concrete block', across: [-100, 0] },
        ] as const;
        const wall = b.composed({ ...WHOLE, entity: 'IfcElementAssembly', parts });
        b.opening(wall, { centre: [3000, 20, 1500], width: 500, height: 400, depth: 400 });
        b.duct(DUCT);
      },
      {},
      { schema },
    );
    // Both leaves list the opening of the assembly.
    expect(federation.barriers.map(({ openings }) => openings.length)).toEqual([1, 1]);
    const { counts } = federation.models[0]!;
    expect(counts).toMatchObject({ barriers: 2, barriersOfParts: 1, skipped: 0, openings: 1 });
    expect(buildReadiness(federation).together.openings.total).toBe(counts.openings);
    expect(penetrations).toMatchObject([
      { barrier: { thickness: 240, leaves: [{}], rating: { integrity: 60 } }, gaps: { left: 50 } },
    ]);
  });

  it('of plates in an assembly that is said to be a wall is one barrier', async () => {
    const parts = [{ name: 'Panel', entity: 'IfcPlate', material: 'Sandwich panel', across: [-50, 50] }] as const;
    const { penetrations } = await review(
      (b) => {
        b.composed({ ...WHOLE, entity: 'IfcElementAssembly', parts });
        b.duct(DUCT);
      },
      {},
      { schema },
    );
    expect(penetrations).toMatchObject([{ barrier: { name: 'W', thickness: 100, construction: 'sandwichPanel' } }]);
  });
});

describe('a curtain wall', () => {
  const panels = [0, 1, 2, 3].map((i) => ({
    name: `Panel ${i}`,
    entity: 'IfcPlate' as const,
    along: [i * 1500, (i + 1) * 1500] as const,
    across: [-15, 15] as const,
  }));
  const build =
    (rated: number | undefined): Build =>
    (b) => {
      const { rating: _, ...whole } = WHOLE;
      const parts = panels.map((panel, i) => (i === rated ? { ...panel, rating: '-/30/30' } : panel));
      b.composed({ ...whole, entity: 'IfcCurtainWall', parts });
      for (const x of [2250, 3000]) b.duct({ ...DUCT, name: `D ${x}`, from: [x, -2000, 1500], to: [x, 2000, 1500] });
    };

  it('is passed by its panels, across their joints too', async () => {
    const { penetrations } = await review(build(undefined));
    expect(penetrations.map((p) => [p.duct.name, p.crossing, p.barrier.name, p.barrier.thickness]).sort()).toEqual([
      ['D 2250', 'through', 'W', 30],
      ['D 3000', 'through', 'W', 30],
    ]);
  });

  it('whose panel states a rating is passed by that panel', async () => {
    const { penetrations } = await review(build(1));
    expect(penetrations.find((p) => p.duct.name === 'D 2250')).toMatchObject({
      crossing: 'through',
      barrier: { name: 'Panel 1', thickness: 30, rating: { integrity: 30 } },
    });
  });
});

describe('what the brief names', () => {
  const build: Build = (b) => {
    const { rating: _, ...whole } = WHOLE;
    const parts = [{ name: 'Bulkhead over corridor', entity: 'IfcCovering', across: [-40, 40] }] as const;
    b.composed({ ...whole, name: 'Group', entity: 'IfcElementAssembly', parts: [] });
    b.composed({ ...whole, name: 'Kit', entity: 'IfcElementAssembly', parts });
    b.duct(DUCT);
  };
  it('is a barrier, by words in its name', async () => {
    const { penetrations } = await review(build, { barriers: [{ words: ['BULKHEAD'], kind: 'wall' }] });
    expect(penetrations).toMatchObject([{ barrier: { name: 'Bulkhead over corridor', kind: 'wall', thickness: 80 } }]);
  });
  it('is none without the brief', async () => {
    expect((await review(build)).penetrations).toEqual([]);
  });
});

describe('slabs by their section', () => {
  const riser = (x: number, y: number, width = 400, height = 300) =>
    ({ name: 'R', from: [x, y, -1000], to: [x, y, 2000], width, height }) as const;
  const SLAB = { name: 'S', at: [0, 0, 0], length: 6000, thickness: 200, rating: '60/60/60' } as const;
  const one = async (build: Build) => {
    const { penetrations } = await review(build);
    expect(penetrations.length).toBe(1);
    return penetrations[0]!;
  };

  it('hollow-core: the cores are no openings and take nothing from the thickness', async () => {
    const section = [
      [0, 0],
      [3000, 0],
      [3000, 200],
      [0, 200],
    ] as const;
    const cores = [150, 350, 550, 750, 950, 1150, 1350].map((y) => ({ centre: [y, 100] as const, diameter: 150 }));
    for (const y of [950, 1050]) {
      const p = await one((b) => {
        b.profiledSlab({ ...SLAB, section, cores });
        b.duct(riser(3000, y, 100, 100));
      });
      expect(p).toMatchObject({ crossing: 'through', opening: null, barrier: { thickness: 200 } });
    }
  });

  /** A composite deck: 80 of concrete over troughs of 60, every 300; narrower at the bottom. */
  const deck = Array.from({ length: 8 }, (_, i): (readonly [number, number])[] => [
    [i * 300 + 60, 60],
    [i * 300 + 90, 0],
    [i * 300 + 210, 0],
    [i * 300 + 240, 60],
  ]).flat();
  const section = [[0, 60], ...deck, [2400, 60], [2400, 140], [0, 140]] as const;

  it('composite deck: a duct over rib and trough is judged by the thinner', async () => {
    for (const y of [150, 300, 450]) {
      const p = await one((b) => {
        b.opening(b.profiledSlab({ ...SLAB, section }), { centre: [3000, y + 600, 70], width: 500, height: 400 });
        b.duct(riser(3000, y + 600));
      });
      expect(p).toMatchObject({ crossing: 'through', barrier: { thickness: 80 }, gaps: { left: 50, top: 50 } });
    }
  });

  it('composite deck: a duct within a rib is judged by the rib', async () => {
    const p = await one((b) => {
      b.profiledSlab({ ...SLAB, section });
      b.duct(riser(3000, 150 + 600, 80, 80));
    });
    expect(p).toMatchObject({ crossing: 'through', barrier: { thickness: 140 } });
  });

  it('with a step is passed at either height with the thickness there', async () => {
    const stepped = [
      [0, 0],
      [3000, 0],
      [3000, 250],
      [6000, 250],
      [6000, 400],
      [2800, 400],
      [2800, 200],
      [0, 200],
    ] as const;
    for (const [y, thickness, z] of [
      [1500, 200, 100],
      [4500, 150, 325],
    ] as const) {
      const p = await one((b) => {
        b.profiledSlab({ ...SLAB, section: stepped });
        b.duct(riser(3000, y));
      });
      expect(p).toMatchObject({ crossing: 'through', position: [3000, y, z], barrier: { thickness } });
    }
  });

  it('as a sloping roof has the thickness square to its slope', async () => {
    const rise = Math.tan((30 * Math.PI) / 180);
    const sloping = [
      [0, 0],
      [4000, 4000 * rise],
      [4000, 4000 * rise + 250],
      [0, 250],
    ] as const;
    const p = await one((b) => {
      b.profiledSlab({ ...SLAB, kind: 'ROOF', section: sloping });
      b.duct({ ...riser(3000, 1500), to: [3000, 1500, 4000] });
    });
    expect(p).toMatchObject({ crossing: 'through', skew: 30, barrier: { kind: 'roof' } });
    expect(p.barrier.thickness).toBeCloseTo(250 * Math.cos(Math.PI / 6), 0.1);
  });
});

describe('openings that are none', () => {
  const WALL = { name: 'W', from: [0, 0], to: [6000, 0], thickness: 200, height: 3000, rating: '-/60/60' } as const;
  it.each([
    ['a recess from one side', [50]],
    ['recesses from both sides that leave a web', [50, -50]],
  ] as const)('%s', async (_, sides) => {
    const { penetrations } = await review((b) => {
      const wall = b.wall(WALL);
      for (const y of sides) b.opening(wall, { centre: [3000, y, 1500], width: 500, height: 400, depth: 98 });
      b.duct(DUCT);
    });
    expect(penetrations).toMatchObject([{ crossing: 'through', opening: null, gaps: { min: null } }]);
  });
  it('two that meet in the middle are one way through', async () => {
    const { penetrations } = await review((b) => {
      const wall = b.wall(WALL);
      for (const y of [50, -50]) b.opening(wall, { centre: [3000, y, 1500], width: 500, height: 400, depth: 100 });
      b.duct(DUCT);
    });
    expect(penetrations).toMatchObject([{ opening: { width: 500 }, gaps: { min: 50 } }]);
  });
});

it('elements either side of a shaft are two barriers', async () => {
  const { penetrations } = await review((b) => {
    for (const y of [0, 500])
      b.opening(b.wall({ name: `W ${y}`, from: [0, y], to: [6000, y], thickness: 100, height: 3000 }), {
        centre: [3000, y, 1500],
        width: 500,
        height: 400,
      });
    b.duct(DUCT);
  });
  expect(penetrations.map((p) => [p.barrier.name, p.barrier.thickness, p.barrier.leaves.length]).sort()).toEqual([
    ['W 0', 100, 0],
    ['W 500', 100, 0],
  ]);
});
