/** What counts as ductwork, by which evidence; what does not; and what nobody can tell. */
import { describe, expect, it } from 'vitest';
import { DUCT, OPENING, WALL } from '../../fixtures/cases/base.js';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';

type Builder = ConstructorParameters<typeof ModelBuilder>[0];
async function read(build: (b: ModelBuilder) => void, options: Partial<Builder> = {}, change = (text: string) => text) {
  const b = new ModelBuilder({ fileName: 'kinds.ifc', ...options });
  build(b);
  return readFederation([{ name: 'kinds.ifc', bytes: new TextEncoder().encode(change(b.toString())) }]);
}
const untyped = { ...DUCT, form: 'flowUntyped' } as const;

describe('a flow segment without a type', () => {
  it.each<[string, { name: string; system?: string }, RegExp]>([
    ['a duct word in its name', { name: 'Abluftkanal 12' }, /^name "Abluftkanal 12"$/],
    ['another language', { name: 'Gaine de soufflage' }, /^name/],
    ['its system', { name: 'Element 7', system: 'Supply air 01' }, /^system "Supply air 01"$/],
  ])('is ductwork by %s', async (_, duct, evidence) => {
    for (const schema of ['IFC2X3', 'IFC4'] as const) {
      const { airElements, models } = await read((b) => b.duct({ ...untyped, ...duct }), { schema });
      expect(airElements.map((e) => e.kind)).toEqual(['segment']);
      expect(airElements[0]!.evidence).toMatch(evidence);
      expect(models[0]!.counts.unclassified).toBe(0);
    }
  });

  it.each(['Cable tray 300', 'Kabelleiter', 'Pipe DN50', 'Abwasserrohr'])(
    'is another service by its name: %s',
    async (name) => {
      const { airElements, otherServices, models } = await read((b) => b.duct({ ...untyped, name }), {
        schema: 'IFC2X3',
      });
      expect([airElements.length, otherServices.length, models[0]!.counts.unclassified]).toEqual([0, 1, 0]);
    },
  );

  it('is unclassified where nothing tells, is said, and still takes up room in an opening', async () => {
    const federation = await read(
      (b) => {
        b.opening(b.wall(WALL), OPENING);
        b.duct({ ...DUCT, width: 300, from: [2850, -2500, 2000], to: [2850, 2500, 2000] });
        b.duct({ ...untyped, name: 'Element 7', width: 200, from: [3200, -2500, 2000], to: [3200, 2500, 2000] });
      },
      { schema: 'IFC2X3' },
    );
    expect(federation.models[0]!.counts).toMatchObject({ ducts: 1, unclassified: 1, otherServices: 1 });
    expect(federation.models[0]!.problems.map((p) => p.code)).toEqual(['unclassified-flow-element']);
    const [p] = findPenetrations(federation).penetrations;
    expect(p!.others.map((o) => o.kind)).toEqual(['other']);
    expect(p!.gaps).toMatchObject({ right: 100, facing: { right: p!.others[0]!.globalId } });
  });
});

describe('what a damper is for', () => {
  it.each([
    ['FIREDAMPER', 'fire'],
    ['FIRESMOKEDAMPER', 'fireSmoke'],
    ['SMOKEDAMPER', 'smoke'],
    ['CONTROLDAMPER', 'control'],
    ['BALANCINGDAMPER', 'control'],
    ['NOTDEFINED', 'unknown'],
  ])('%s is %s in every schema', async (purpose, expected) => {
    for (const schema of ['IFC2X3', 'IFC4', 'IFC4X3'] as const) {
      const { airElements } = await read(
        (b) =>
          b.damper({
            name: 'D',
            from: [0, 0, 0],
            to: [0, 200, 0],
            width: 400,
            height: 300,
            purpose: purpose as 'FIREDAMPER',
          }),
        { schema },
      );
      expect(airElements.map((e) => e.damper?.purpose)).toEqual([expected]);
    }
  });
});
