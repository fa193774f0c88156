/**
 * What dampers say of themselves and where they sit, from IFC4 and from IFC2X3 (IfcFlowController with an IfcDamperType,
 * whose set for fire and smoke dampers has ControlType alone: buildingSMART's psd files), against closed-form truth.
 */
import { describe, expect, it } from 'vitest';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { Penetration } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';

const SIZE = { width: 400, height: 250 } as const;
const WALL = { name: 'Wall', from: [0, 0], to: [6000, 0], thickness: 100, height: 3000, rating: 'EI 60' } as const;

async function found(build: (b: ModelBuilder) => void, schema: 'IFC4' | 'IFC2X3' = 'IFC4', modelled = false) {
  const b = new ModelBuilder({ fileName: 'a.ifc', schema });
  b.wall(WALL);
  build(b);
  const bytes = new TextEncoder().encode(b.toString());
  const federation = await readFederation([{ name: 'a.ifc', bytes }]);
  const facts = { ...NO_FACTS, ...(modelled && { accessPanels: { modelled } }) };
  return findPenetrations(federation, { facts }).penetrations;
}
const NO_FACTS = {
  ...{ ratingProperties: [], ratings: [], barriers: [], constructions: [], damperPurposes: [], ductMaterials: [] },
  ...{ protectionModelled: false, protections: [] },
};

const at = (y: number) => [3000, y, 1500] as const;
/** Duct, damper from `low` to `high` across the wall's middle plane at y = 0, duct. */
function chain(
  b: ModelBuilder,
  low: number,
  high: number,
  damper: Partial<Parameters<ModelBuilder['damper']>[0]> = {},
) {
  const piece = (from: number, to: number) => ({ from: at(from), to: at(to), ...SIZE, ports: true }) as const;
  const first = b.duct({ name: 'before', ...piece(-1500, low) });
  const middle = b.damper({ name: 'FD', ...piece(low, high), rating: 'EI 60 (ve ho i↔o) S', ...damper } as never);
  const last = b.duct({ name: 'behind', ...piece(high, 1500) });
  b.connect(first, middle, last);
}
const damperIn = ([p]: readonly Penetration[]) => p!.dampers[0]!;

describe.each(['IFC4', 'IFC2X3'] as const)('%s', (schema) => {
  it('reads class, orientation and actuation of a fire damper', async () => {
    const told = { actuation: 'SPRING', orientation: 'HORIZONTAL' };
    const damper = damperIn(await found((b) => chain(b, -100, 100, told), schema));
    // Its class allows both, its own properties floors alone.
    expect(damper).toMatchObject({ purpose: 'fire', orientation: 'floor', fireSides: 'both' });
    expect(damper.actuation).toEqual({ type: 'SPRING', closure: null, control: null, fusibleLink: null });
  });

  it('reads what shuts a fire and smoke damper', async () => {
    const told = { purpose: 'FIRESMOKEDAMPER', actuation: 'Electric' };
    const { purpose, actuation } = damperIn(await found((b) => chain(b, -100, 100, told), schema));
    const own = schema === 'IFC2X3' ? { control: 'Electric' } : { type: 'Electric' };
    expect([purpose, actuation]).toEqual([
      'fireSmoke',
      { type: null, closure: null, control: null, fusibleLink: null, ...own },
    ]);
  });

  it('knows nothing of what is not said, or said in two ways', async () => {
    const silent = damperIn(
      await found((b) => chain(b, -100, 100, { rating: '1 hour', actuation: 'NOTKNOWN' }), schema),
    );
    expect([silent.orientation, silent.fireSides, silent.actuation]).toEqual([null, null, null]);
    const twofold = { rating: 'EI 60 (ve i→o) S', orientation: 'HORIZONTAL' };
    const torn = damperIn(await found((b) => chain(b, -100, 100, twofold), schema));
    expect([torn.orientation, torn.fireSides]).toEqual([null, 'one']);
  });
});

it.each([
  ['in the middle', -100, 100, 0, [50, 50]],
  ['on one side', -20, 180, 80, [-30, 130]],
  ['on the other', -180, 20, -80, [130, -30]],
  ['as long as the wall is thick', -50, 50, 0, [0, 0]],
] as const)('%s', async (_, low, high, offset, standsOut) => {
  const damper = damperIn(await found((b) => chain(b, low, high)));
  expect([damper.offset, damper.standsOut]).toEqual([offset, standsOut]);
  expect(damper.size).toEqual({ ...SIZE, diameter: null, from: 'duct' });
});

it.each([
  ['a hollow casing shows the air in it', { body: 'hollow', width: 440, height: 290 }, [438, 288, 'geometry']],
  ['a stated size comes before the duct', { nominal: { width: 300, height: 200 } }, [300, 200, 'property']],
  ['a stated width says no more than the duct', { nominal: { width: 300 } }, [400, 250, 'duct']],
  ['nor does a stated height', { nominal: { height: 200 } }, [400, 250, 'duct']],
  ['a casing larger than its duct', { width: 440, height: 290 }, [400, 250, 'duct']],
] as const)('size: %s', async (_, damper, [width, height, from]) => {
  expect(damperIn(await found((b) => chain(b, -100, 100, damper))).size).toEqual({
    width,
    height,
    diameter: null,
    from,
  });
});

describe('the ducts beside it tell its size as far as they agree', () => {
  type Section = { readonly width: number; readonly height: number } | { readonly diameter: number };
  const sizeBetween = async (first: Section, last: Section) => {
    const [p] = await found((b) => {
      const before = b.duct({ name: 'before', from: at(-1500), to: at(-100), ports: true, ...first });
      const casing = { width: 460, height: 310, ports: true, rating: 'EI 60 (ve ho i↔o) S' } as const;
      const damper = b.damper({ name: 'FD', from: at(-100), to: at(100), ...casing } as never);
      const behind = b.duct({ name: 'behind', from: at(100), to: at(1500), ports: true, ...last });
      b.connect(before, damper, behind);
    });
    const { width, height, diameter, from } = p!.dampers.find(({ name }) => name === 'FD')!.size!;
    return [from, width, height, diameter];
  };
  const CASING = ['casing', 460, 310, null];
  it.each<[string, Section, Section, readonly unknown[]]>([
    ['of one size', SIZE, SIZE, ['duct', 400, 250, null]],
    ['within the rounding of sizes', SIZE, { width: 402, height: 248 }, ['duct', 400, 250, null]],
    ['wider', SIZE, { width: 402.1, height: 250 }, CASING],
    ['narrower', SIZE, { width: 397.9, height: 250 }, CASING],
    ['higher', SIZE, { width: 400, height: 252.1 }, CASING],
    ['lower', SIZE, { width: 400, height: 247.9 }, CASING],
    ['turned', SIZE, { width: 250, height: 400 }, CASING],
    ['round, of one size', { diameter: 250 }, { diameter: 252 }, ['duct', null, null, 250]],
    ['round, of two', { diameter: 250 }, { diameter: 252.1 }, CASING],
    ['one of them round', { width: 250, height: 250 }, { diameter: 250 }, CASING],
    ['the other round', { diameter: 250 }, { width: 250, height: 250 }, CASING],
  ])('%s', async (_, first, last, expected) => {
    expect(await sizeBetween(first, last)).toEqual(expected);
  });
});

it.each<[string, readonly [number, number], readonly [number, number], readonly [number, number]]>([
  ['lying, as its casing lies', [440, 290], [300, 200], [300, 200]],
  ['lying, its casing upright', [290, 440], [300, 200], [200, 300]],
  ['upright, its casing lying', [440, 290], [200, 300], [300, 200]],
  ['upright, as its casing stands', [290, 440], [200, 300], [200, 300]],
  ['lying, in a square casing', [440, 440], [300, 200], [300, 200]],
])('a stated size is turned as the casing shows: %s', async (_, casing, stated, expected) => {
  const [width, height] = casing;
  const nominal = { width: stated[0], height: stated[1] };
  const { size } = damperIn(await found((b) => chain(b, -100, 100, { width, height, nominal } as never)));
  expect(size).toEqual({ width: expected[0], height: expected[1], diameter: null, from: 'property' });
});

it('of a damper without ducts the casing alone is known', async () => {
  const [p] = await found((b) => b.damper({ name: 'FD', from: at(-100), to: at(100), diameter: 315 }));
  expect(p!.dampers[0]!.size).toEqual({ width: null, height: null, diameter: 315, from: 'casing' });
  // A box by itself does not even say which way the air goes.
  const [box] = await found((b) => b.damper({ name: 'FD', from: at(-100), to: at(100), ...SIZE }));
  expect(box!.dampers[0]!.size).toBeNull();
});

it('a wall beside it, a slab over it and a column: the nearest counts', async () => {
  const stub = (x: number) => ({ ...WALL, name: `Stub ${x}`, from: [x, 50], to: [x, 2000] }) as const;
  const { construction } = damperIn(
    await found((b) => {
      chain(b, -100, 100);
      // Faces at 2,650 and 3,330: 150 mm left of the casing and 130 mm right of it.
      b.wall(stub(2600));
      b.wall(stub(3380));
    }),
  );
  expect(construction).toMatchObject({ kind: 'corner', side: 'right', distance: 130 });
});

describe('beside the wall', () => {
  const beside = async (from: number, purpose = 'FIREDAMPER') => {
    const [p] = await found((b) => chain(b, from, from + 200, { purpose }));
    return [p!.duct.name, p!.dampers.length, p!.damperOutside && [p!.damperOutside.name, p!.damperOutside.distance]];
  };
  it('is named with its distance from the face, on either side', async () => {
    expect(await beside(350)).toEqual(['before', 0, ['FD', 300]]);
    expect(await beside(-550)).toEqual(['behind', 0, ['FD', 300]]);
  });
  it('is none where it holds back no fire, or stands too far off', async () => {
    expect(await beside(350, 'BALANCINGDAMPER')).toEqual(['before', 0, null]);
    expect(await beside(1050.1)).toEqual(['before', 0, null]);
  });
});

describe('access', () => {
  type Panel = readonly [y: number, name?: string, x?: number];
  const access = async (modelled: boolean, panels: readonly Panel[]) => {
    const build = (b: ModelBuilder) => {
      chain(b, -100, 100);
      for (const [y, name = 'Access panel', x = 3000] of panels)
        b.accessPanel({ name, from: [x, y, 1625], to: [x, y, 1645], width: 200, height: 200 });
    };
    const { distance, withinReach } = damperIn(await found(build, 'IFC4', modelled)).access;
    return [distance, withinReach];
  };
  it.each([
    ['within reach, the nearest of two', false, [[400], [900]], [200, true]],
    ['on the limit', false, [[800]], [600, true]],
    ['too far, and others may be there', false, [[1000]], [800, null]],
    ['too far, and there are no others', true, [[1000]], [800, false]],
    ['none, and all are modelled', true, [], [null, false]],
    ['named otherwise', true, [[400, 'Label']], [null, false]],
    ['on another duct', true, [[400, 'Access panel', 4000]], [null, false]],
  ] as const)('%s', async (_, modelled, panels, expected) => {
    expect(await access(modelled, panels)).toEqual(expected);
  });
});

it('a damper that is drawn within a duct that goes on through it is what passes the wall', async () => {
  const [one, ...others] = await found((b) => {
    const piece = (from: number, to: number) => ({ from: at(from), to: at(to), ...SIZE }) as const;
    b.duct({ name: 'sleeve', ...piece(-1500, 1500) });
    b.damper({ name: 'FD', ...piece(-100, 100), rating: 'EI 60 (ve ho i↔o) S' } as never);
  });
  expect(others).toEqual([]);
  expect(one!.duct.name).toBe('FD');
  expect(one!.dampers.map(({ name }) => name)).toEqual(['FD']);
});
