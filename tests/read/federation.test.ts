import { describe, expect, it } from 'vitest';
import { DUCT, OPENING, WALL } from '../../fixtures/cases/base.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';
import { buildReport } from '../../src/report/build-report.js';
import { writeJson } from '../../src/report/json.js';
import { judgeWithResults } from '../../src/rules/index.js';
import { shippedRules } from '../rules/rule-cases.js';

type Options = ConstructorParameters<typeof ModelBuilder>[0];
const encode = (name: string, text: string) => ({ name, bytes: new TextEncoder().encode(text) });

function architecture(options: Partial<Options> = {}) {
  const b = new ModelBuilder({ fileName: 'architecture.ifc', ...options });
  b.opening(b.wall(WALL), OPENING);
  return encode('architecture.ifc', b.toString());
}
function services(options: Partial<Options> = {}) {
  const b = new ModelBuilder({ fileName: 'services.ifc', ...options });
  b.duct(DUCT);
  return encode('services.ifc', b.toString());
}

describe('a federation of files', () => {
  it('is the same in any file order', async () => {
    const [a, s] = [architecture({ unit: 'foot', schema: 'IFC2X3' }), services()];
    const forth = await readFederation([a, s]);
    expect(await readFederation([s, a])).toEqual(forth);
    expect(forth.models.map((m) => [m.id, m.file])).toEqual([
      ['m1', 'architecture.ifc'],
      ['m2', 'services.ifc'],
    ]);
    expect(findPenetrations(await readFederation([s, a]))).toEqual(findPenetrations(forth));
  });

  it('gives the same report, byte for byte, in any file order', async () => {
    const copy = { ...services({ unit: 'metre' }), name: 'services-again.ifc' };
    const files = [architecture({ schema: 'IFC2X3' }), services(), copy];
    const orders = [
      [0, 1, 2],
      [0, 2, 1],
      [1, 0, 2],
      [1, 2, 0],
      [2, 0, 1],
      [2, 1, 0],
    ];
    const reports = await Promise.all(
      orders.map(async (order) => {
        const { models, ...rest } = await readFederation(order.map((i) => files[i]!));
        const crossings = findPenetrations({ models, ...rest });
        const { judgement, results } = judgeWithResults(crossings, shippedRules, { models, allFindings: true });
        const given = { models, crossings, judgement, results, createdAt: '2026-01-01T00:00:00Z', toolVersion: '0' };
        return new TextDecoder().decode(writeJson(buildReport(given)));
      }),
    );
    expect(reports[0]).toContain('"element-repeated"');
    for (const report of reports) expect(report).toBe(reports[0]);
  });

  it('has an origin of whole metres at the least corner of the barriers, wherever that is', async () => {
    const offset = [421_000_123, 5_800_000_456, 12_000] as const;
    const federation = await readFederation([architecture({ offset }), services({ offset })]);
    for (const v of federation.origin) expect(v % 1000).toBe(0);
    expect(findPenetrations(federation).penetrations[0]!.position).toEqual([421_003_123, 5_800_000_456, 14_000]);
  });

  it('overlays raw coordinates where only one file has a map conversion, and says nothing', async () => {
    const conversion = { eastings: 1000, northings: 2000, height: 5, rotation: 10, mapUnit: 'metre' } as const;
    const federation = await readFederation([architecture({ mapConversion: conversion }), services()]);
    expect(federation.frame).toBe('engineering');
    expect(findPenetrations(federation).penetrations.length).toBe(1);
  });

  it('knows that files with different map conversions are apart though their own coordinates agree', async () => {
    const at = (eastings: number) => ({ eastings, northings: 0, height: 0, rotation: 0, mapUnit: 'metre' }) as const;
    const federation = await readFederation([
      architecture({ mapConversion: at(1000) }),
      services({ mapConversion: at(1_000_000_000) }),
    ]);
    expect(federation.frame).toBe('map');
    const crossings = findPenetrations(federation);
    expect(crossings.penetrations).toEqual([]);
    expect(crossings.apart).toEqual([
      // Along x the wall reaches from 0 to 5000, the duct from 2700 to 3300, 999,999,000 further on; along z the wall to
      // 3000 and the duct from 1800 to 2200.
      { model: 'm2', from: 'm1', distance: 999_999_000 + 2700 - 5000, offset: [999_999_000 + 500, 0, 500] },
    ]);
  });

  it('reads every number of a model with its unit, also a conversion on a conversion', async () => {
    for (const unit of ['millimetre', 'metre', 'foot', 'inch', 'inchOnFoot'] as const) {
      const federation = await readFederation([architecture({ unit })]);
      const [barrier] = findPenetrations(federation).barriers;
      expect(barrier!.thickness).toBeCloseTo(128, 3);
    }
  });
});
