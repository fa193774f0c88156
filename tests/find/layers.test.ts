/** Layers of one wall or slab told into leaf, lining and cavity; thicknesses from the drawing of each case. */
import { describe, expect, it } from 'vitest';
import type { Layer } from '../../fixtures/builder/properties.js';
import { type BuilderOptions, ModelBuilder, rectangle } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import type { BarrierFacts } from '../../src/model.js';
import { readFederation } from '../../src/read/read-federation.js';
import { shippedConstructions as constructions } from '../rules/rule-cases.js';

type Wall = Parameters<ModelBuilder['wall']>[0];

async function penetrations(
  build: (b: ModelBuilder) => void,
  options: Partial<BuilderOptions> = {},
  change = (text: string) => text,
) {
  const b = new ModelBuilder({ ...options, fileName: 'layers.ifc' });
  build(b);
  const bytes = new TextEncoder().encode(change(b.toString()));
  return findPenetrations(await readFederation([{ name: 'layers.ifc', bytes }], { constructions })).penetrations;
}

const total = (layers: readonly Layer[]): number => layers.reduce((sum, { thickness }) => sum + thickness, 0);
const layer = (material: string, thickness: number, more: Partial<Layer> = {}): Layer => ({
  material,
  thickness,
  ...more,
});

const ALONG_X = { name: 'W', from: [0, 0], to: [6000, 0], height: 3000, rating: '-/60/60' } as const;
const OPENING = { centre: [3000, 0, 1500], width: 500, height: 400 } as const;
const DUCT = { name: 'D', from: [3000, -2000, 1500], to: [3000, 2000, 1500], width: 400, height: 300 } as const;

/** A wall along x whose layers, where they begin at the near face, follow each other along y. */
async function wallOf(
  layers: readonly Layer[],
  more: Partial<Wall> = {},
  options: Partial<BuilderOptions> = {},
  change?: (text: string) => string,
): Promise<BarrierFacts> {
  const found = await penetrations(
    (b) => {
      b.opening(b.wall({ ...ALONG_X, thickness: total(layers), layers, ...more } as Wall), OPENING);
      b.duct(DUCT);
    },
    options,
    change,
  );
  expect(found.length).toBe(1);
  return found[0]!.barrier;
}

const built = ({ buildUp }: BarrierFacts) => buildUp.map(({ kind, thickness }) => `${kind} ${thickness}`);

const LINED = [
  layer('Plaster', 15),
  layer('Reinforced concrete', 180),
  layer('Timber battens', 38),
  layer('Plasterboard', 12.5),
];
const STUDS = [layer('Plasterboard', 26), layer('Steel studs', 64), layer('Plasterboard', 26)];

describe('a wall of layers', () => {
  it('of concrete, plastered and lined, is as thick as its concrete', async () => {
    expect(await wallOf(LINED)).toMatchObject({
      ...{ construction: 'concrete', thickness: 245.5, drawnThickness: 245.5, layersThickness: 245.5 },
      ...{ leafThickness: 180, leafFrom: 'layers', leafProblem: null, buildUpAlong: 'normal', boards: null },
      buildUp: [
        { kind: 'lining', material: 'Plaster', thickness: 15 },
        { kind: 'leaf', material: 'Reinforced concrete', thickness: 180 },
        { kind: 'lining', material: 'Timber battens', thickness: 38 },
        { kind: 'lining', material: 'Plasterboard', thickness: 12.5 },
      ],
    });
  });

  it('of studs is the leaf from board to board', async () => {
    const found = await wallOf(STUDS);
    expect(found).toMatchObject({ leafThickness: 116, leafFrom: 'geometry', boards: [1, 1] });
    expect(built(found)).toEqual(['leaf 26', 'leaf 64', 'leaf 26']);
  });

  it('of studs with tiles and a furred lining is the leaf without them', async () => {
    const found = await wallOf([...STUDS, layer('Furring', 27), layer('Plasterboard', 12.5), layer('Tiles', 10)]);
    expect(found).toMatchObject({ leafThickness: 116, leafFrom: 'layers', boards: [1, 1] });
    expect(built(found)).toEqual(['leaf 26', 'leaf 64', 'leaf 26', 'lining 27', 'lining 12.5', 'lining 10']);
  });

  it.each(['ventilated', 'unknown'] as const)('with air (%s) by IsVentilated has a cavity', async (air) => {
    for (const schema of ['IFC2X3', 'IFC4'] as const) {
      const cladding = [layer('Cladding', 20), layer('Zone 7', 40, { air }), layer('Concrete blocks', 190)];
      const found = await wallOf(cladding, {}, { schema });
      expect(built(found)).toEqual(['lining 20', 'cavity 40', 'leaf 190']);
      expect(found.buildUp[1]!.element).toBeNull();
      expect(found.leafThickness).toBe(190);
    }
  });

  it('with two leaves of one class is as thick as the thinner; where one bears load, as that one', async () => {
    const leaves = (category?: string) => [
      layer('Brick', 102),
      layer('Air gap', 50),
      layer('Concrete block', 140, category === undefined ? {} : { category }),
    ];
    expect(await wallOf(leaves())).toMatchObject({ construction: 'masonry', leafThickness: 102 });
    const bearing = await wallOf(leaves('LoadBearing'));
    expect(bearing.leafThickness).toBe(140);
    expect(built(bearing)).toEqual(['lining 102', 'cavity 50', 'leaf 140']);
  });

  it('takes its construction from the layer that bears load', async () => {
    const clad = [
      layer('Brick', 102, { category: 'Outer finish' }),
      layer('Concrete', 200, { category: 'LoadBearing' }),
    ];
    expect(await wallOf(clad)).toMatchObject({ construction: 'concrete', leafThickness: 200 });
    expect((await wallOf(clad.map(({ material, thickness }) => layer(material, thickness)))).construction).toBe(
      'unknown',
    );
  });

  it('one layer is the whole wall', async () => {
    expect(await wallOf([layer('Concrete blocks', 190)])).toMatchObject({
      ...{ leafThickness: 190, leafFrom: 'geometry', buildUpAlong: 'normal' },
      buildUp: [{ kind: 'leaf', material: null, thickness: 190 }],
    });
  });
});

describe('what can not be told is not guessed', () => {
  it('layers that do not add up to what is drawn', async () => {
    const found = await wallOf(LINED, { thickness: 200 });
    expect(found).toMatchObject({ leafThickness: null, leafFrom: null, leafProblem: 'thicknessDiffers' });
    expect(built(found)).toEqual(['leaf 200']);
  });

  it('up to 2 mm of rounding they do', async () => {
    expect((await wallOf(LINED, { thickness: 247.5 })).leafThickness).toBe(180);
    expect((await wallOf(LINED, { thickness: 247.6 })).leafThickness).toBeNull();
  });

  it('a layer without a thickness', async () => {
    const unstated = (text: string) => text.replace(/(IFCMATERIALLAYER\(#\d+),38\./, '$1,$$');
    const found = await wallOf(LINED, {}, {}, unstated);
    expect(found).toMatchObject({ leafThickness: null, leafProblem: 'thicknessUnstated', layersThickness: null });
  });

  it('that does not matter where all of it is the leaf', async () => {
    const unstated = (text: string) => text.replace(/(IFCMATERIALLAYER\(#\d+),64\./, '$1,$$');
    expect(await wallOf(STUDS, {}, {}, unstated)).toMatchObject({ leafThickness: 116, leafFrom: 'geometry' });
  });

  it('a name that tells the class of layers that do not', async () => {
    const layers = [layer('Core', 200), layer('Void', 50), layer('Skin', 20)];
    const found = await wallOf(layers, { name: 'Concrete wall' });
    expect(found).toMatchObject({ construction: 'concrete', leafThickness: null, leafProblem: 'notTold' });
    // Of what is not known at all the whole is judged, as ever: no test can be looked up for it.
    expect(await wallOf(layers)).toMatchObject({ construction: 'unknown', leafThickness: 270, leafProblem: null });
  });
});

describe('the order of the layers', () => {
  const near = ['lining 15', 'leaf 180', 'lining 38', 'lining 12.5'];
  const far = [...near].reverse();

  it('goes by where they begin and which way they follow', async () => {
    expect(built(await wallOf(LINED))).toEqual(near);
    expect(built(await wallOf(LINED, { layerSense: 'NEGATIVE' }))).toEqual(far);
    // Drawn the other way round, the wall has its axis against y.
    const turned = { from: [6000, 0], to: [0, 0] } as const;
    expect(built(await wallOf(LINED, turned))).toEqual(far);
    expect(built(await wallOf(LINED, { ...turned, layerSense: 'NEGATIVE' }))).toEqual(near);
  });

  it('is that of the file, and said to be, where nothing tells or the offset contradicts', async () => {
    const none = await wallOf(LINED, { layerSense: 'none' });
    expect([built(none), none.buildUpAlong, none.leafThickness]).toEqual([near, 'file', 180]);
    const beside = (text: string) => text.replace(/(\.AXIS2\.,\.POSITIVE\.),-122\.75/, '$1,0.');
    const wrong = await wallOf(LINED, {}, {}, beside);
    expect([built(wrong), wrong.buildUpAlong, wrong.leafThickness]).toEqual([near, 'file', 180]);
  });

  it('is right in walls at every angle, in feet, far from the origin', async () => {
    const angles = Array.from({ length: 24 }, (_, i) => i * 15 + 4);
    const found = await penetrations(
      (b) => {
        for (const [i, degrees] of angles.entries()) {
          const [c, s] = [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)];
          const at = [4e6 + i * 8000, 5e6] as const;
          const on = (x: number, y: number) => [at[0] + x * c - y * s, at[1] + x * s + y * c] as const;
          const layerSense = i % 2 === 0 ? 'POSITIVE' : 'NEGATIVE';
          const thickness = total(LINED);
          b.opening(
            b.wall({
              ...ALONG_X,
              name: `W${degrees}`,
              from: on(-2000, 0),
              to: on(2000, 0),
              thickness,
              layers: LINED,
              layerSense,
            }),
            { ...OPENING, centre: [...at, 1500] },
          );
          b.duct({ ...DUCT, name: `D${degrees}`, from: [...on(0, -900), 1500], to: [...on(0, 900), 1500] });
        }
      },
      { unit: 'foot' },
    );
    expect(found.length).toBe(angles.length);
    for (const { barrier, frame } of found) {
      const degrees = Number(barrier.name.slice(1));
      const i = angles.indexOf(degrees);
      const y = [-Math.sin((degrees * Math.PI) / 180), Math.cos((degrees * Math.PI) / 180)];
      const follow = (y[0]! * frame.normal[0] + y[1]! * frame.normal[1]) * (i % 2 === 0 ? 1 : -1);
      expect([barrier.name, built(barrier)]).toEqual([barrier.name, follow > 0 ? near : far]);
      expect([barrier.buildUpAlong, barrier.leafThickness]).toEqual(['normal', 180]);
    }
  });

  it('of a slab goes up from its lower face; its crossing looks down', async () => {
    const layers = [
      layer('Plaster', 10),
      layer('Reinforced concrete', 220),
      layer('Polystyrene', 30),
      layer('Screed', 60),
    ];
    const [found] = await penetrations((b) => {
      const slab = b.slab({
        ...{ name: 'S', outline: rectangle([0, 0], [6000, 6000]), thickness: 320, top: 0, rating: '90/90/90', layers },
      });
      b.opening(slab, { centre: [3000, 3000, -160], width: 500, height: 400 });
      b.duct({ name: 'D', from: [3000, 3000, -1500], to: [3000, 3000, 1500], width: 400, height: 300 });
    });
    expect(found!.frame.normal).toEqual([0, 0, -1]);
    expect(built(found!.barrier)).toEqual(['lining 60', 'lining 30', 'leaf 220', 'lining 10']);
    expect(found!.barrier.leafThickness).toBe(220);
  });

  it('stays with a wall that is lined by another element', async () => {
    const [found] = await penetrations((b) => {
      b.opening(b.wall({ ...ALONG_X, thickness: 195, layers: LINED.slice(0, 2) }), OPENING);
      const { rating: _, ...unrated } = ALONG_X;
      const lining = b.wall({ ...unrated, name: 'L', from: [0, 147.5], to: [6000, 147.5], thickness: 60 });
      b.opening(lining, { ...OPENING, centre: [3000, 147.5, 1500] });
      b.duct(DUCT);
    });
    // 195 mm to y = 97.5, then 20 mm of nothing, then 60 mm.
    expect(built(found!.barrier)).toEqual(['lining 15', 'leaf 180', 'cavity 20', 'lining 60']);
    expect(found!.barrier).toMatchObject({ thickness: 275, drawnThickness: 195, leafThickness: 180 });
  });
});

it('ExtendToStructure is read beside how the wall meets the slab', async () => {
  for (const schema of ['IFC2X3', 'IFC4'] as const)
    for (const extendToStructure of [true, false, undefined]) {
      const [found] = await penetrations(
        (b) => {
          const wall = { ...ALONG_X, thickness: 116, layers: STUDS };
          b.opening(b.wall(extendToStructure === undefined ? wall : { ...wall, extendToStructure }), OPENING);
          b.slab({ name: 'S', outline: rectangle([-500, -500], [6500, 500]), thickness: 200, top: 3600 });
          b.duct(DUCT);
        },
        { schema },
      );
      expect(found!.barrier.head).toMatchObject({ gap: 400, extendToStructure: extendToStructure ?? null });
    }
});

describe('shaft walls', () => {
  const SHAFT = [
    layer('Core board', 25),
    layer('Steel studs', 64),
    layer('Plasterboard', 15),
    layer('Plasterboard', 15),
  ];

  it('are told by words, and on which face their boards are by the order of the layers', async () => {
    expect(await wallOf(SHAFT)).toMatchObject({ construction: 'shaftWall', leafThickness: 119, boards: [0, 2] });
    expect(await wallOf(SHAFT, { layerSense: 'NEGATIVE' })).toMatchObject({ boards: [2, 0], buildUpAlong: 'normal' });
    expect(await wallOf(SHAFT, { layerSense: 'none' })).toMatchObject({ boards: [0, 2], buildUpAlong: 'file' });
  });

  it('are no shaft walls for having boards on one side', async () => {
    expect(await wallOf(SHAFT.slice(1))).toMatchObject({ construction: 'steelStud', boards: [0, 2] });
    const named = await wallOf(SHAFT.slice(1), { name: 'Shaft wall 3' });
    expect(named).toMatchObject({ construction: 'shaftWall', boards: [0, 2] });
  });

  it.each([
    ['a shaft of 600 mm', 600, 2],
    ['a cavity of 61 mm', 61, 2],
    ['a cavity of 59 mm', 59, 1],
  ])('with %s between two walls', async (_, width, barriers) => {
    const found = await penetrations((b) => {
      for (const [name, y] of [
        ['A', -(width + 119) / 2],
        ['B', (width + 119) / 2],
      ] as const) {
        const wall = b.wall({ ...ALONG_X, name, from: [0, y], to: [6000, y], thickness: 119, layers: SHAFT });
        b.opening(wall, { ...OPENING, centre: [3000, y, 1500] });
      }
      b.duct(DUCT);
    });
    expect(found.map(({ barrier }) => barrier.leaves.length)).toEqual(barriers === 2 ? [0, 0] : [1]);
    expect(found.map(({ barrier }) => barrier.thickness)).toEqual(barriers === 2 ? [119, 119] : [238 + width]);
    for (const { barrier } of found) expect([barrier.construction, barrier.leafThickness]).toEqual(['shaftWall', 119]);
  });
});
