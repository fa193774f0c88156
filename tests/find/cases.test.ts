/**
 * The main job on every generated case: what is found must be what the case's own formulas say, to 0.5 mm, no more and
 * no fewer. The formulas are in fixtures/cases and use nothing of the program under test.
 */
import { describe, expect, it } from 'vitest';
import { CASES, type Case, type ExpectedPenetration, REPRESENTATION_CASES } from '../../fixtures/cases.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { Crossings, Federation, Penetration } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';

const TOLERANCE = 0.5;
const near = (n: number) => expect.closeTo(n, -Math.log10(2 * TOLERANCE));

const encoder = new TextEncoder();
async function review(files: Case['files']): Promise<{ federation: Federation; crossings: Crossings }> {
  const federation = await readFederation(files.map((f) => ({ name: f.name, bytes: encoder.encode(f.text) })));
  return { federation, crossings: findPenetrations(federation) };
}

describe.each([...CASES, ...REPRESENTATION_CASES])('$name: $why', ({ files, truth }) => {
  it('is found and measured', async () => {
    const { federation, crossings } = await review(files);
    const { penetrations } = crossings;
    // By name to reference, since names are what a case gives and GlobalIds may repeat.
    const refsOf = (names: readonly string[]) =>
      [...federation.airElements, ...federation.otherServices, ...federation.barriers]
        .filter((e) => names.includes(e.name))
        .map((e) => `${e.model}/${e.globalId}`)
        .sort();
    const written = (refs: readonly { model: string; globalId: string }[]) =>
      refs.map((r) => `${r.model}/${r.globalId}`).sort();
    const key = (p: { duct: { name: string } | string; barrier: { name: string } | string; position: unknown }) =>
      JSON.stringify([
        typeof p.duct === 'string' ? p.duct : p.duct.name,
        typeof p.barrier === 'string' ? p.barrier : p.barrier.name,
      ]);
    expect(penetrations.map(key).sort()).toEqual(truth.penetrations.map(key).sort());
    for (const expected of truth.penetrations) {
      const actual = penetrations
        .filter((p) => key(p) === key(expected))
        .sort((a, b) => off(a, expected) - off(b, expected))[0]!;
      const byId = (id: string | undefined) =>
        penetrations.find((p) => p.id === id)?.duct.name ??
        federation.otherServices.find((s) => s.globalId === id)?.name;
      const { section } = expected;
      expect(actual.crossing).toBe(expected.crossing);
      if (expected.position) expect([...actual.position]).toEqual(expected.position.map(near));
      expect(actual.skew).toBeCloseTo(expected.skew, 1);
      expect(actual.duct.shape).toBe(section.shape === 'oval' ? 'oval' : section.shape);
      if (section.shape === 'circular') expect(actual.duct.diameter).toEqual(near(section.diameter));
      else expect([actual.duct.width, actual.duct.height]).toEqual([near(section.width), near(section.height)]);
      if (expected.sectionFrom) expect(actual.duct.sectionFrom).toBe(expected.sectionFrom);
      if (expected.gapsTo) expect(actual.gapsTo).toBe(expected.gapsTo);
      expect(actual.opening === null).toBe(expected.opening === null);
      if (expected.opening)
        expect(actual.opening).toMatchObject({
          shape: expected.opening.shape,
          from: expected.opening.from,
          width: near(expected.opening.width),
          height: near(expected.opening.height),
        });
      if (expected.gaps)
        for (const [side, gap] of Object.entries(expected.gaps))
          expect(actual.gaps[side as 'min'], `gap ${side}`).toEqual(near(gap as number));
      else expect(actual.gaps.min).toBeNull();
      expect(Object.fromEntries(Object.entries(actual.gaps.facing).map(([side, id]) => [side, byId(id)]))).toEqual(
        expected.facing,
      );
      expect(actual.neighbours.map((n) => [byId(n.penetration), n.distance]).sort()).toEqual(
        expected.neighbours.map((n) => [n.duct, near(n.distance)]).sort(),
      );
      expect(written(actual.others)).toEqual(refsOf(expected.others));
      if (expected.elements) expect(written(actual.elements)).toEqual(refsOf(expected.elements));
      expect(written(actual.dampers)).toEqual(refsOf(expected.dampers ?? []));
      expect(written(actual.barrier.leaves)).toEqual(refsOf(expected.leaves ?? []));
      expect(actual.barrier.thickness).toEqual(near(expected.thickness));
      expect(actual.barrier.rating.text).toBe(expected.rating);
    }
    expect(crossings.facingEnds.length).toBe(truth.facingEnds.length);
    for (const [i, facing] of truth.facingEnds.entries()) {
      const actual = crossings.facingEnds[i]!;
      expect(actual.barrier.name).toBe(facing.barrier);
      expect(written(actual.ends)).toEqual(refsOf(facing.ends));
      expect([...actual.position]).toEqual(facing.position.map(near));
      expect(actual.distance).toEqual(near(facing.distance));
    }
  });
});

function off(p: Penetration, expected: ExpectedPenetration): number {
  return expected.position ? Math.hypot(...p.position.map((v, i) => v - expected.position![i]!)) : 0;
}
