/** Along the runs of the demo building: every piece that is said to be protected is counted, or is named with the reason. */
import { describe, expect, it } from 'vitest';
import { nameOf } from '../../src/element-refs.js';
import { alongRuns } from '../../src/quantify/along-runs.js';
import { quantifyChoices } from '../../src/quantify/choices.js';
import { perimeter } from '../../src/supports/masses.js';
import { demoReport } from '../report/demo-report.js';
import { rules } from '../shipped-rules.js';

const report = await demoReport();
/** A report carries all that counting along runs goes by. */
const counted = alongRuns({
  crossings: { runs: report.runs, access: report.access },
  judgement: {
    tested: report.penetrations.map(({ id, treatment: { chosen, feasible, nearest } }) => ({
      ...{ penetration: id, chosen, feasible, nearest },
    })),
    ...{ strategy: report.strategy, supports: report.supports, proposedPanels: report.proposedPanels },
  },
  systems: rules.systems,
  choices: quantifyChoices(),
});
const parts = report.runs.flatMap(({ stretches }) => stretches.flatMap((one) => one.parts));
const blankets = counted.drafts.filter(({ material }) => material.kind === 'blanket');

it('leaves nothing out silently', () => {
  const done = new Set(counted.drafts.flatMap(({ element }) => (element ? [nameOf(element)] : [])));
  const named = counted.uncounted.map(({ what }) => what).join('; ');
  const wrapped = parts.filter(({ protection: { kind } }) => kind === 'blanket' || kind === 'board');
  const silent = wrapped.filter((part) => !done.has(nameOf(part)) && !named.includes(part.name));
  expect(wrapped.length).toBeGreaterThan(150);
  expect(silent.filter(({ element }) => element !== 'damper').map(({ name }) => name)).toEqual([]);
  for (const { because } of counted.uncounted) expect(because.length).toBeGreaterThan(10);
});

describe('what is cut', () => {
  /** mm² of the sheet of pieces of a name, as far as the faces of barriers. */
  const bare = (name: string): number =>
    parts
      .filter((part) => part.name === name)
      .reduce((sum, { length, measures }) => {
        const { shape, width, height } = measures!.section!;
        if (shape !== 'rectangular') throw new Error(name);
        return sum + perimeter({ shape, width: width!, height: height! }) * (length - measures!.inBarrier);
      }, 0);

  it('is no less than the outside of the sheet, whatever the layer', () => {
    const straight = [
      ...new Set(parts.filter(({ measures }) => measures?.section?.shape === 'rectangular').map((p) => p.name)),
    ];
    for (const name of straight) {
      const own = new Set(parts.filter((part) => part.name === name).map(nameOf));
      const first = blankets.filter(
        ({ element, what }) => element && own.has(nameOf(element)) && what.startsWith('layer 1'),
      );
      const cut = first.reduce((sum, { areaM2 }) => sum + areaM2!, 0) * 1e6;
      if (cut === 0) continue;
      const covers = bare(name);
      expect([name, cut >= covers]).toEqual([name, true]);
    }
    expect(straight.length).toBeGreaterThan(80);
  });

  it('weighs what its volume weighs', () => {
    for (const { areaM2, massKg } of blankets) expect(massKg! / areaM2!).toBeCloseTo(0.038 * 128, 1);
  });
});
