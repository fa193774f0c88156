/**
 * Access for cleaning from model to finding. Golden case G15: horizontal cleanouts at 0, 6.0 and 12.2 m, a bend 3.2 m from
 * the nearest; WAC 51-52-0506 (IMC 506.3.9.1) allows 20 ft = 6096 mm and 10 ft = 3048 mm.
 */
import { describe, expect, it } from 'vitest';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';
import { judge } from '../../src/rules/index.js';
import { NO_FACTS } from '../read/no-facts.js';
import { choicesFor } from './factories.js';
import { shippedRules } from './rule-cases.js';

const SIZE = { width: 400, height: 400, system: 'Kitchen exhaust' } as const;
const IMC = { jurisdiction: 'United States', edition: ['IMC'] };

/** Capped at neither end: an open end is an opening, so the panels stand right at the ends. */
async function crossingsWith(places: readonly number[], modelled: boolean, bendAt?: number, wallAt?: number) {
  const b = new ModelBuilder({ fileName: 'access.ifc' });
  const length = bendAt ?? places.at(-1)! + 150;
  const straightEnd = bendAt === undefined ? length : length - 400;
  b.duct({ name: 'A', from: [-150, 0, 3000], to: [straightEnd, 0, 3000], ...SIZE });
  if (bendAt !== undefined) {
    b.bend({ name: 'bend', corner: [bendAt, 0, 3000], incoming: [1, 0, 0], outgoing: [0, 1, 0], radius: 400, ...SIZE });
    b.duct({ name: 'B', from: [bendAt, 400, 3000], to: [bendAt, 5000, 3000], ...SIZE });
  }
  for (const x of places)
    b.accessPanel({
      ...{ name: `Cleanout ${x}`, from: [x, 0, 3200], to: [x, 0, 3220], width: 305, height: 305 },
      system: SIZE.system,
    });
  if (wallAt !== undefined) {
    const across = { from: [wallAt, -2000], to: [wallAt, 2000] } as const;
    b.wall({ name: 'Wall', ...across, thickness: 200, height: 4000, rating: '-/60/60' });
  }
  const facts = modelled ? { ...NO_FACTS, accessPanels: { modelled } } : NO_FACTS;
  const bytes = new TextEncoder().encode(b.toString());
  return findPenetrations(await readFederation([{ name: 'access.ifc', bytes }], { facts }), { facts });
}

type Choices = ReturnType<typeof choicesFor>;
const judged = async (crossings: Awaited<ReturnType<typeof crossingsWith>>, choices: Partial<Choices>, all = false) => {
  const brief = { choices: { ...choicesFor(), ...choices } };
  return judge(crossings, shippedRules, { brief, allFindings: all });
};
const short = ({ findings }: Awaited<ReturnType<typeof judged>>) =>
  findings
    .filter(({ check }) => /access|cleanout/.test(check))
    .map(({ check, outcome, measured }) => [check, outcome, measured]);

describe('G15 under the IMC', () => {
  it('6.2 m between cleanouts fails, 6.0 m does not, and one panel is proposed between', async () => {
    const crossings = await crossingsWith([0, 6000, 12200], true);
    const result = await judged(crossings, IMC);
    expect(short(result)).toEqual([['us-grease-duct-cleanout-spacing', 'failed', 6200]]);
    expect(result.findings.find(({ check }) => check === 'us-grease-duct-cleanout-spacing')!.limit).toEqual({
      atMost: 6096,
    });
    // The frame of the panel keeps 152.5 + 50 mm clear of the cleanout that is there.
    expect(result.proposedPanels).toMatchObject([{ system: 'Kitchen exhaust', at: [11997.5, 0, 3000], size: 305 }]);
    expect(short(await judged(await crossingsWith([0, 6000, 12000], true), IMC))).toEqual([]);
  });

  it('a bend 3.2 m from the nearest cleanout fails, 3.0 m does not', async () => {
    const short32 = short(await judged(await crossingsWith([0, 4800], true, 8000), IMC));
    expect(short32).toContainEqual(['us-grease-duct-cleanout-at-bend', 'failed', 3200]);
    const short30 = short(await judged(await crossingsWith([0, 5000], true, 8000), IMC));
    expect(short30.map(([check]) => check)).not.toContain('us-grease-duct-cleanout-at-bend');
  });

  it('nothing passes, and another code or service leaves it out', async () => {
    const crossings = await crossingsWith([0, 6000, 12200], true);
    const all = short(await judged(crossings, IMC, true));
    expect(all.filter(([, outcome]) => outcome === 'passed')).toEqual([['access-panels-modelled', 'passed', null]]);
    const uk = short(await judged(crossings, { jurisdiction: 'United Kingdom', edition: ['TR19 Grease'] }));
    expect(uk.map(([check, , measured]) => [check, measured]).sort()).toEqual([
      ['uk-kitchen-exhaust-access-spacing', 6000],
      ['uk-kitchen-exhaust-access-spacing', 6200],
    ]);
    const other = crossings.runs.map((run) => ({ ...run, system: 'SA', systems: ['SA'] }));
    const access = crossings.access.map((one) => ({ ...one, systemNames: [] }));
    expect(short(await judged({ ...crossings, runs: other, access }, IMC))).toEqual([]);
  });
});

describe('what is not said', () => {
  it('whether all panels are modelled: said once for the model, and what would be needed is proposed', async () => {
    const result = await judged(await crossingsWith([0, 6000, 12200], false), IMC);
    expect(short(result)).toEqual([['access-panels-modelled', 'cantTell', null]]);
    expect(result.proposedPanels).toHaveLength(1);
  });

  it('which code holds: said once for the model', async () => {
    const { findings } = await judged(await crossingsWith([0, 6000, 12200], true), {});
    expect(findings.map(({ check }) => check).filter((check) => check !== 'review-possible')).toEqual(['code-named']);
    const [, codes] = /codes that there are checks of: (.*)\)/.exec(findings.at(-1)!.message)!;
    const named = codes!.split('; ');
    expect(named).toContain('United States: IMC');
    expect(named).toEqual([...new Set(named)].sort());
  });
});

describe("the project's own specification", () => {
  const asking = (entry: object) => ({ access: [{ source: 'specification C-12', ...entry }] }) as Partial<Choices>;

  it('is held to without any code, for the system that it names', async () => {
    const crossings = await crossingsWith([0, 6000, 12200], true);
    const held = await judged(crossings, asking({ system: 'kitchen EXHAUST', spacing: 3000 }));
    expect(short(held).map(([check, , measured]) => [check, measured])).toEqual([
      ['access-spacing-as-asked', 6200],
      ['access-spacing-as-asked', 6000],
    ]);
    // 6.0 m needs one at 3.0 m, 6.2 m two.
    expect(held.proposedPanels.map(({ at }) => at[0]).sort((a, b) => a - b)).toEqual([3000, 9000, 12000]);
    expect(held.proposedPanels.map(({ source }) => source)).toEqual(Array(3).fill('specification C-12'));
    const other = await judged(crossings, asking({ system: 'SA', spacing: 3000 }));
    expect(short(other)).toEqual([]);
    expect(other.proposedPanels).toEqual([]);
  });

  it('is met by panels that are proposed clear of the wall that the duct passes', async () => {
    const proposed = async (wallAt?: number) =>
      (await judged(await crossingsWith([0, 5800], true, undefined, wallAt), asking({ spacing: 3000 }))).proposedPanels
        .map(({ at }) => at[0])
        .sort((a, b) => a - b);
    const [alone, ...others] = await proposed();
    expect(others).toEqual([]);
    expect(alone).toBeGreaterThan(2799);
    expect(alone).toBeLessThan(3001);
    // Half the wall, half a panel, and the room round its frame keep it off the only place for one.
    const around = await proposed(2900);
    expect(around).toHaveLength(2);
    for (const x of around) expect(Math.abs(x - 2900)).toBeGreaterThan(100);
    expect(around[0]).toBeLessThan(2900);
    expect(around[1]).toBeGreaterThan(2900);
  });

  it('is held for the service that it names and for no other, and waits where the service is not known', async () => {
    const crossings = await crossingsWith([0, 6000], true);
    const unnamed = {
      ...crossings,
      runs: crossings.runs.map((run) => ({ ...run, system: null, systems: [] })),
      access: crossings.access.map((one) => ({ ...one, systemNames: [] })),
    };
    const held = async (service: string, from = crossings) => {
      const found = short(await judged(from, asking({ service, spacing: 3000 })));
      return [...new Set(found.map(([check, outcome]) => `${check} ${outcome}`))];
    };
    expect(await held('kitchenExhaust')).toEqual(['access-spacing-as-asked failed']);
    expect(await held('smokeExhaust')).toEqual([]);
    expect(await held('kitchenExhaust', unnamed)).toEqual(['access-spacing-as-asked cantTell']);
  });

  it('can not be looked up for a run of unknown system', async () => {
    const crossings = await crossingsWith([0, 6000], true);
    const unnamed = { ...crossings, runs: crossings.runs.map((run) => ({ ...run, system: null, systems: [] })) };
    const result = short(await judged(unnamed, asking({ system: 'KX', spacing: 3000 })));
    expect(new Set(result.map(([check, outcome]) => `${check} ${outcome}`))).toEqual(
      new Set(['access-spacing-as-asked cantTell']),
    );
  });
});
