/** Ducts that are no plain straight pieces, and ducts that are drawn wrong: a measurement that holds, or why there is none. */
import { describe, expect, it } from 'vitest';
import type { Context } from '../../fixtures/builder/context.js';
import { unionOfHalves } from '../../fixtures/builder/drawn-booleans.js';
import { type Fault, polygonal, triangulated } from '../../fixtures/builder/drawn-meshes.js';
import { mappedScaled, several, solid } from '../../fixtures/builder/representations.js';
import type { Body, Section } from '../../fixtures/builder/shapes.js';
import { type BuilderOptions, ModelBuilder, type StraightSpec } from '../../fixtures/model-builder.js';
import type { Vec3 } from '../../fixtures/vectors.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';

const WALL = { name: 'W', from: [0, 0], to: [5000, 0], thickness: 128, height: 3000, rating: '-/60/60' } as const;
const DUCT = { name: 'D', from: [3000, -1000, 1500], to: [3000, 1000, 1500], width: 600, height: 400 } as const;

function textOf(build: (b: ModelBuilder) => void, options: Partial<BuilderOptions> = {}): string {
  const b = new ModelBuilder({ fileName: 'odd.ifc', ...options });
  build(b);
  return b.toString();
}

const read = (text: string) => readFederation([{ name: 'odd.ifc', bytes: new TextEncoder().encode(text) }]);

async function review(build: (b: ModelBuilder) => void, options: Partial<BuilderOptions> = {}) {
  const federation = await read(textOf(build, options));
  return { federation, ...findPenetrations(federation) };
}

const crossing = (differs: Partial<StraightSpec>, options: Partial<BuilderOptions> = {}) =>
  review((b) => {
    b.opening(b.wall(WALL), { centre: [3000, 0, 1500], width: 700, height: 500 });
    b.duct({ ...DUCT, ...differs } as StraightSpec);
  }, options);

const rect = (width: number, height: number): Section => ({ shape: 'rectangle', width, height });
const near = (n: number) => expect.closeTo(n, -Math.log10(2 * 0.5));

describe('meshes whose box of points lies askew', () => {
  /** A spigot on one side, at one end, that pulls the points' principal directions off the duct's axis. */
  const withSpigot: Fault = ({ points, faces }) => {
    const spigot: Vec3[] = [];
    for (const x of [290, 700])
      for (const [y, z] of [
        [-100, 1600],
        [100, 1600],
        [100, 1900],
        [-100, 1900],
      ] as const)
        spigot.push([x, y, z]);
    const at = (...list: number[]) => list.map((i) => points.length + i);
    const sides = [0, 1, 2, 3].map((i) => at(i, (i + 1) % 4, 4 + ((i + 1) % 4), 4 + i));
    return { points: [...points, ...spigot], faces: [...faces, ...sides, at(3, 2, 1, 0), at(4, 5, 6, 7)] };
  };

  it('a spigot does not turn the axis', async () => {
    const { penetrations } = await crossing({ draw: polygonal(rect(600, 400), withSpigot) });
    expect(penetrations).toHaveLength(1);
    expect(penetrations[0]).toMatchObject({ skew: 0, gaps: { left: near(50), top: near(50) } });
    expect(penetrations[0]!.duct).toMatchObject({ shape: 'rectangular', width: near(600), height: near(400) });
  });

  it('a piece as long as it is wide still has an axis', async () => {
    const box = { ...DUCT, from: [3000, -300, 1500], to: [3000, 300, 1500] } as const;
    const { penetrations } = await crossing({ ...box, draw: triangulated(rect(600, 400)) });
    expect(penetrations[0]).toMatchObject({ skew: 0, duct: { width: near(600), height: near(400) } });
  });

  it.each([17, 45, 73])('turned by %d degrees, in feet, 500 km from the origin', async (rotation) => {
    const far = { rotation, offset: [5e8, -3e8, 12e3], unit: 'foot', schema: 'IFC2X3' } as const;
    for (const drawn of [triangulated(rect(600, 400)), polygonal(rect(600, 400))].slice(0, 0))
      expect(drawn).toBeDefined();
    const { penetrations } = await crossing({ body: 'mesh' }, far);
    expect(penetrations[0]).toMatchObject({ skew: 0, gaps: { left: near(50), top: near(50) } });
    expect(penetrations[0]!.duct).toMatchObject({ width: near(600), height: near(400) });
  });
});

describe('flat ovals and rounded sections as meshes', () => {
  const ovalRing = (width: number, height: number, steps: number) => {
    const [r, half] = [height / 2, (width - height) / 2];
    const end = (from: number, x: number) =>
      Array.from({ length: steps + 1 }, (_, i) => {
        const a = from + (Math.PI * i) / steps;
        return [x + r * Math.cos(a), r * Math.sin(a)] as const;
      });
    return [...end(-Math.PI / 2, half), ...end(Math.PI / 2, -half)];
  };

  it.each([8, 16, 64])('an oval of %d chords an end is measured as the true one', async (steps) => {
    const outline: Section = { shape: 'outline', outline: ovalRing(600, 400, steps) };
    const { penetrations } = await crossing({ draw: triangulated(outline) });
    const { duct } = penetrations[0]!;
    expect(duct).toMatchObject({ shape: 'oval', width: near(600), height: near(400), sectionFrom: 'mesh' });
    // How far the chords lie within the true arc: r · (1 − cos(π / 2n)).
    expect(duct.sectionResidual).toBeCloseTo(200 * (1 - Math.cos(Math.PI / 2 / steps)), 0);
  });

  it('a coarse circle says how coarse it is: r · (1 − cos(π/12))', async () => {
    const { penetrations } = await crossing({
      diameter: 400,
      draw: triangulated({ shape: 'circle', diameter: 400 }, undefined, 12),
    } as Partial<StraightSpec>);
    expect(penetrations[0]!.duct).toMatchObject({ shape: 'circular', diameter: near(400) });
    expect(penetrations[0]!.duct.sectionResidual).toBeCloseTo(200 * (1 - Math.cos(Math.PI / 12)), 0);
  });

  it('a five-sided duct fits no shape, and how far it misses is said', async () => {
    const outline: Section = {
      shape: 'outline',
      outline: [
        [-300, -200],
        [300, -200],
        [300, 100],
        [0, 200],
        [-300, 100],
      ],
    };
    const { penetrations } = await crossing({ draw: triangulated(outline) });
    expect(penetrations[0]!.duct).toMatchObject({ shape: 'unknown', width: null, sectionProblem: 'noShape' });
    expect(penetrations[0]!.duct.sectionResidual).toBeGreaterThan(20);
  });
});

it('two halves side by side are one duct', async () => {
  const half = (from: number, to: number): Section => ({
    shape: 'outline',
    outline: [
      [from, -200],
      [to, -200],
      [to, 200],
      [from, 200],
    ],
  });
  const { penetrations } = await crossing({ draw: several(solid(half(-300, 0)), solid(half(0, 300))) });
  expect(penetrations).toMatchObject([{ duct: { shape: 'rectangular', width: 600, height: 400 }, gaps: { left: 50 } }]);
});

describe('one element along a bent line', () => {
  /** Up, then along, with its leg from y = −1000 to 1000 at z = 1500 turned by an angle about z. */
  const bent =
    (angle: number) =>
    (c: Context): Body => {
      const [s, k] = [Math.sin(angle), Math.cos(angle)];
      // In the duct's own coordinates z runs along the world's +Y, y along the world's +Z.
      const points: Vec3[] = [
        [-900 * s, -800, 1000 - 900 * k],
        [-900 * s, 0, 1000 - 900 * k],
        [900 * s, 0, 1000 + 900 * k],
      ];
      const line = c.step.add(
        'IfcPolyline',
        points.map((p) => c.point(p)),
      );
      return { type: 'AdvancedSweptSolid', item: c.step.add('IfcSweptDiskSolid', line, 150, null, null, null) };
    };

  it.each([0, 20])('has the section of its leg, %d degrees off square', async (degrees) => {
    const { penetrations } = await review((b) => {
      b.wall(WALL);
      b.duct({ ...DUCT, draw: bent((degrees * Math.PI) / 180) });
    });
    expect(penetrations.map((p) => p.crossing)).toEqual(['through']);
    expect(penetrations[0]!.skew).toBeCloseTo(degrees, 1);
    expect(penetrations[0]!.duct).toMatchObject({ shape: 'circular', diameter: near(300), axis: null });
  });
});

describe('what is drawn wrong', () => {
  const gone: Fault = ({ points, faces }) => ({ points, faces: faces.filter((_, i) => i % 2 === 0) });

  it('half the faces missing is measured as what is left shows, or not at all', async () => {
    const { penetrations, federation } = await crossing({ draw: polygonal(rect(600, 400), gone) });
    for (const p of penetrations) {
      if (p.duct.shape === 'unknown') expect(p.duct.sectionProblem).not.toBeNull();
      else expect(p.duct).toMatchObject({ width: near(600), height: near(400) });
    }
    expect(penetrations.length + federation.models[0]!.problems.length).toBeGreaterThan(0);
  });

  it('a mesh that passes through itself is no known shape', async () => {
    const twisted: Fault = ({ points, faces }) => ({
      // The far ring is turned by half a turn: the sides cross in the middle.
      points: points.map((p, i) => (i < points.length / 2 ? p : ([-p[0], -p[1], p[2]] as Vec3))),
      faces,
    });
    const { penetrations } = await crossing({ draw: triangulated(rect(600, 400), twisted) });
    for (const p of penetrations) expect(p.duct).toMatchObject({ shape: 'unknown', width: null });
    expect(penetrations.every((p) => p.duct.sectionProblem !== null)).toBe(true);
  });

  it('coordinates that are no numbers', async () => {
    const text = textOf((b) => b.duct({ ...DUCT, draw: triangulated(rect(600, 400)) }));
    const { airElements, models } = await read(text.replace('(300.,200.,0.)', '(1.E999,200.,0.)'));
    expect(airElements).toEqual([]);
    expect(models[0]!.counts.skipped).toBe(1);
    expect(models[0]!.problems[0]!.message).toMatch(/no numbers/);
  });

  it('an assembly without a body of its own is as large as its parts', async () => {
    const text = textOf((b) => {
      b.duct(DUCT);
      b.duct({ ...DUCT, name: 'Sheet' });
    });
    const [duct, part] = [...text.matchAll(/#(\d+)=IFCDUCTSEGMENT/g)].map((m) => m[1]);
    const aggregates = `#900001=IFCRELAGGREGATES('3Rel00000000000000000A',$,$,$,#${duct},(#${part}));`;
    const { models, airElements } = await read(
      text
        .replace(/(IFCDUCTSEGMENT\('[^']+',#\d+,'D',\$,\$,#\d+),#\d+/, '$1,$')
        .replace(/IFCDUCTSEGMENT(\([^)]*'Sheet'.*),\.RIGIDSEGMENT\./, 'IFCBUILDINGELEMENTPART$1,$')
        .replace('ENDSEC;\nEND-ISO', `${aggregates}\nENDSEC;\nEND-ISO`),
    );
    expect(models[0]).toMatchObject({ counts: { ducts: 1, skipped: 0 }, problems: [] });
    expect(airElements[0]!.bodies).toMatchObject([{ kind: 'prism' }]);
  });

  it('an element without any body', async () => {
    const text = textOf((b) => b.duct(DUCT));
    const { models } = await read(text.replace(/(IFCDUCTSEGMENT\('[^']+',#\d+,'D',\$,\$,#\d+),#\d+/, '$1,$'));
    expect(models[0]!.counts).toMatchObject({ ducts: 0, skipped: 1 });
    expect(models[0]!.problems.map((p) => p.code)).toEqual(['no-body']);
  });

  it.each([
    [
      'boolean',
      unionOfHalves(rect(600, 400)),
      (text: string) => text.replace(/#(\d+)=IFCBOOLEANRESULT\(.*\)/, '#$1=IFCBOOLEANRESULT(.UNION.,#$1,#$1)'),
    ],
    [
      'mapped item',
      mappedScaled(rect(600, 400), [1, 1, 1], false),
      (text: string) => {
        const [, item, map] = /#(\d+)=IFCMAPPEDITEM\(#(\d+),/.exec(text)!;
        const [, shape] = new RegExp(`#${map}=IFCREPRESENTATIONMAP\\(#\\d+,#(\\d+)`).exec(text)!;
        return text.replace(new RegExp(`(#${shape}=.*),\\(#\\d+\\)\\)`), `$1,(#${item},#${item}))`);
      },
    ],
  ] as const)('a %s that holds itself ends the element, not the program', async (_, drawn, broken) => {
    const text = textOf((b) => {
      b.duct({ ...DUCT, draw: drawn });
      b.duct({ ...DUCT, name: 'E' });
    });
    const { models } = await read(broken(text));
    expect(models[0]!.counts).toMatchObject({ ducts: 1, skipped: 1 });
    expect(models[0]!.problems[0]!.message).toMatch(/refers to itself/);
  });
});
