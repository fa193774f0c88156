/** Duct runs: what is joined, by ports and, where no port says anything, by ends that touch. */
import { describe, expect, it } from 'vitest';
import { demoBuilding } from '../../fixtures/demo-building.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { Federation } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { hasModels, modelFiles, modelInput } from '../reference/shared-models.js';

const encoder = new TextEncoder();
const input = (name: string, text: string) => ({ name, bytes: encoder.encode(text) });

async function runsIn(build: (b: ModelBuilder) => void) {
  const b = new ModelBuilder({ fileName: 'runs.ifc' });
  build(b);
  return named(await readFederation([input('runs.ifc', b.toString())]));
}

function named(federation: Federation) {
  const names = new Map(federation.airElements.map((e) => [`${e.model}/${e.globalId}`, e.name]));
  const name = (ref: { model: string; globalId: string }) => names.get(`${ref.model}/${ref.globalId}`)!;
  const { runs } = findPenetrations(federation);
  return runs.map((run) => ({
    ...run,
    elements: run.elements.map(name).sort(),
    serves: run.serves.map(name).sort(),
    joints: run.joints.map((joint) => ({ ...joint, elements: joint.elements.map(name).sort() })),
  }));
}

const without = (federation: Federation): Federation => ({
  ...federation,
  airElements: federation.airElements.map((element) => ({ ...element, ports: [] })),
});
/** The same runs have the same names, whatever order the elements come in. */
const partition = (runs: Awaited<ReturnType<typeof runsIn>>) =>
  runs.map(({ elements, serves }) => [...elements, '|', ...serves].join(', ')).sort();

const DUCT = { width: 400, height: 250, system: 'SA' } as const;
const straight = (b: ModelBuilder, name: string, from: number, to: number, y = 0, more: object = {}) =>
  b.duct({ name, from: [from, y, 2500], to: [to, y, 2500], ...DUCT, ...more });

describe('joined by touching', () => {
  it('end to end, also with a flange between that nobody drew', async () => {
    const [run, ...others] = await runsIn((b) => {
      straight(b, 'A', 0, 1500);
      straight(b, 'B', 1500, 3000);
      straight(b, 'C', 3008, 4500);
    });
    expect(others).toEqual([]);
    expect(run).toMatchObject({ id: 'R-001', system: 'SA', elements: ['A', 'B', 'C'], serves: [], length: 4492 });
    expect(run!.joints).toEqual([
      { elements: ['A', 'B'], at: [1500, 0, 2500], from: 'touching', flow: null },
      { elements: ['B', 'C'], at: [3000, 0, 2500], from: 'touching', flow: null },
    ]);
  });

  it('not over a wider gap, nor side by side, nor corner to corner', async () => {
    const runs = await runsIn((b) => {
      straight(b, 'A', 0, 1500);
      straight(b, 'far', 1511, 3000);
      straight(b, 'beside', 0, 1500, 400, { body: 'hollow' });
      straight(b, 'askew', 1500, 3000, 800);
    });
    expect(partition(runs)).toEqual(['A, |', 'askew, |', 'beside, |', 'far, |']);
  });

  it('a branch on the side of a main, and what is only near it not', async () => {
    const runs = await runsIn((b) => {
      straight(b, 'main', 0, 6000);
      b.duct({ name: 'branch', from: [2000, 125, 2500], to: [2000, 2000, 2500], ...DUCT });
      b.duct({ name: 'short of it', from: [4000, 250, 2500], to: [4000, 2000, 2500], ...DUCT });
    });
    expect(runs.map(({ elements }) => elements)).toEqual([['branch', 'main'], ['short of it']]);
  });

  it('ducts of two systems that touch are not joined; one of no system is', async () => {
    const runs = await runsIn((b) => {
      straight(b, 'A', 0, 1500);
      straight(b, 'other', 1500, 3000, 0, { system: 'RA' });
      b.duct({ name: 'none', from: [0, 0, 2500], to: [-1500, 0, 2500], width: 400, height: 250 });
    });
    expect(runs.map(({ elements, system, systems }) => [elements, system, systems])).toEqual([
      [['other'], 'RA', ['RA']],
      [['A', 'none'], 'SA', ['SA']],
    ]);
  });

  it('bends and transitions that follow one another', async () => {
    const [run, ...others] = await runsIn((b) => {
      const size = { width: 400, height: 250, system: 'SA' } as const;
      straight(b, 'A', 0, 1500);
      b.bend({ name: 'up', corner: [1900, 0, 2500], incoming: [1, 0, 0], outgoing: [0, 1, 0], radius: 400, ...size });
      b.bend({
        name: 'back',
        corner: [1900, 800, 2500],
        incoming: [0, 1, 0],
        outgoing: [1, 0, 0],
        radius: 400,
        ...size,
      });
      b.transition({
        ...{ name: 'narrowing', from: [2300, 800, 2500], to: [2800, 800, 2500], ...size },
        endSize: { width: 300, height: 250 },
      });
      b.duct({ name: 'B', from: [2800, 800, 2500], to: [4000, 800, 2500], ...size, width: 300 });
    });
    expect(others).toEqual([]);
    expect(run!.elements).toEqual(['A', 'B', 'back', 'narrowing', 'up']);
  });

  it.each([
    [0, ['branch, main, |']],
    [5, ['branch, main, |']],
    [11, ['branch, |', 'main, |']],
  ])('a branch that ends %d mm before the side of a duct', async (gap, expected) => {
    const runs = await runsIn((b) => {
      straight(b, 'main', 0, 3000);
      b.duct({ name: 'branch', from: [1000, 200 + gap, 2500], to: [1000, 2000, 2500], ...DUCT, width: 200 });
    });
    expect(partition(runs)).toEqual(expected);
  });

  it('two transitions without ports, face to face', async () => {
    const size = { width: 400, height: 250, system: 'SA' } as const;
    const build = (b: ModelBuilder, gap = 0) => {
      b.transition({
        ...{ name: 'narrowing', from: [0, 0, 2500], to: [500, 0, 2500], ...size, ports: false },
        endSize: { width: 300, height: 200 },
      });
      b.transition({
        ...{ name: 'widening', from: [500 + gap, 0, 2500], to: [1000, 0, 2500], ...size, ports: false },
        ...{ width: 300, height: 200, endSize: { width: 400, height: 250 } },
      });
    };
    expect(partition(await runsIn(build))).toEqual(['narrowing, widening, |']);
    expect(partition(await runsIn((b) => build(b, 11)))).toEqual(['narrowing, |', 'widening, |']);
  });

  it('up to terminals and equipment, which end it; fans belong to it', async () => {
    const runs = await runsIn((b) => {
      straight(b, 'A', 0, 1500);
      b.fan({ name: 'fan', from: [1500, 0, 2500], to: [2000, 0, 2500], ...DUCT });
      straight(b, 'B', 2000, 3000);
      b.airHandler({
        name: 'handler',
        from: [3000, 0, 2500],
        to: [4500, 0, 2500],
        width: 1200,
        height: 1200,
        system: 'SA',
      });
      straight(b, 'C', 4500, 6000);
      b.terminal({ name: 'grille', from: [6000, 0, 2500], to: [6100, 0, 2500], ...DUCT });
    });
    expect(partition(runs)).toEqual(['A, B, fan, |, handler', 'C, |, grille, handler']);
  });
});

describe('joined by ports', () => {
  it('where ports say so; a port that is not connected leaves it to what touches', async () => {
    const [run, ...others] = await runsIn((b) => {
      const [a, c] = [straight(b, 'A', 0, 1500, 0, { ports: true }), straight(b, 'B', 1500, 3000, 0, { ports: true })];
      straight(b, 'C', 3000, 4500, 0, { ports: true });
      b.connect(a, c);
    });
    expect(others).toEqual([]);
    expect(run!.joints.map(({ elements, from }) => [...elements, from])).toEqual([
      ['A', 'B', 'ports'],
      ['B', 'C', 'touching'],
    ]);
  });
});

describe('the demo building', async () => {
  const federation = await readFederation(demoBuilding().files.map(({ name, text }) => input(name, text)));

  it('has the runs of its plan, with its ports and without', () => {
    const runs = named(federation);
    // 21 in the main building, 3 in the net store, 16 in the boat store, 7 on the car deck, 7 in the pavilion,
    // 6 in the rope walk, 7 in the winch house, 9 in the crane house, 6 in the smokery.
    expect(runs.length).toBe(82);
    const kitchen = runs.find(({ elements }) => elements.includes('KX riser'))!;
    expect(kitchen).toMatchObject({ system: 'KX', serves: ['KX hood'] });
    expect(kitchen.elements).toEqual(
      ['FD-G-9', 'KX fan', 'KX riser', 'KX riser 2', 'KX riser 3', 'KX transition', 'KX-G bend'].concat([
        'KX-G-1',
        'KX-G-2',
        'KX-G-3',
        'KX-G-4a',
        'KX-G-4b',
      ]),
    );
    // The two returns that face each other across the kitchen wall are not one.
    expect(runs.filter(({ elements }) => elements.includes('RA-G-3') && elements.includes('RA-G-4'))).toEqual([]);
    for (const { systems } of runs) expect(systems.length).toBeLessThan(2);
    // And the same without any port.
    expect(partition(named(without(federation)))).toEqual(partition(runs));
  });

  it('every penetration names the run of its duct', () => {
    for (const { duct } of findPenetrations(federation).penetrations) expect(duct.run).toMatch(/^R-\d{3}$/);
  });
});

describe.skipIf(!hasModels)('real models', () => {
  it.each(modelFiles)(
    '%s has the runs that its ports say, with its ports and without',
    { timeout: 120_000 },
    async (file) => {
      const federation = await readFederation([modelInput(file)]);
      const runs = named(federation);
      expect(partition(named(without(federation)))).toEqual(partition(runs));
      const linked = federation.airElements.flatMap((e) => e.ports).filter((p) => p.connectedTo !== undefined);
      const byPorts = runs.flatMap(({ joints }) => joints).filter(({ from }) => from === 'ports');
      expect(byPorts.length).toBeGreaterThanOrEqual(linked.length > 0 ? 1 : 0);
    },
  );
});
