/** Readiness is counted from the federation alone, so each number here is counted by hand from a small one. */
import { describe, expect, it } from 'vitest';
import type { AirElement, Barrier, Body, Federation, Opening, OtherService, Rating } from '../../src/model.js';
import { buildReadiness, readinessSchema, writeReadiness } from '../../src/report/readiness.js';
import { CONTRADICTIONS, QUESTIONS } from '../../src/report/readiness-questions.js';
import { aModel, level1, stated, unreadable, unstated } from './factories.js';

const mesh: Body = { kind: 'mesh', positions: new Float64Array(9), triangles: new Uint32Array([0, 1, 2]) };
const prism: Body = {
  kind: 'prism',
  frame: { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
  outline: [
    [0, 0],
    [1, 0],
    [0, 1],
  ],
  voids: [],
  sweep: [0, 0, 1],
};

const anAir = (globalId: string, air: Partial<AirElement> = {}): AirElement => ({
  model: 'm1',
  globalId,
  name: `Duct ${globalId}`,
  entity: 'IFCDUCTSEGMENT',
  storey: level1,
  bodies: [prism],
  kind: 'segment',
  evidence: 'IFCDUCTSEGMENT',
  ports: [
    { globalId: `${globalId}-a`, at: [0, 0, 0], connectedTo: 'other' },
    { globalId: `${globalId}-b`, at: [0, 0, 1], connectedTo: undefined },
  ],
  system: 'KX',
  systemType: 'EXHAUST',
  material: 'steel',
  stated: { width: 600, height: 400 },
  damper: undefined,
  ...air,
});

const aWall = (globalId: string, barrier: Partial<Barrier> = {}): Barrier => ({
  model: 'm2',
  globalId,
  name: `Wall ${globalId}`,
  entity: 'IFCWALL',
  storey: level1,
  bodies: [prism],
  kind: 'wall',
  openings: [],
  rating: stated,
  compartmentation: undefined,
  layers: [{ material: 'brick', thickness: 100 }],
  construction: 'unknown',
  extendToStructure: undefined,
  drawing: undefined,
  ...barrier,
});

/** One that says all there is to say, with an access door of its own. */
const FIRE_DAMPER = {
  damper: {
    purpose: 'fire',
    rating: { ...stated, text: 'EI 120' },
    orientation: 'both',
    actuation: { type: 'SPRING' },
  },
  isAccessPanel: true,
} as const;

const anOpening = (globalId: string, filledBy: string[] = []): Opening => ({
  model: 'm2',
  globalId,
  name: '',
  entity: 'IFCOPENINGELEMENT',
  storey: undefined,
  bodies: [prism],
  filledBy,
  doors: [],
});

const aService = (globalId: string, kind: OtherService['kind']): OtherService => ({
  model: 'm1',
  globalId,
  name: '',
  entity: 'IFCPIPESEGMENT',
  storey: undefined,
  bodies: [mesh],
  kind,
});

const federationOf = (federation: Partial<Federation> = {}): Federation => ({
  origin: [0, 0, 0],
  frame: 'engineering',
  models: [aModel(), aModel({ id: 'm2', file: 'architecture.ifc', sha256: 'b'.repeat(64) })],
  airElements: [],
  otherServices: [],
  barriers: [],
  columns: [],
  ...federation,
});

const duration: Rating = { ...unstated, state: 'durationOnly', text: '1 HR', duration: 60, from: 'type' };

/** A bit of everything, right and wrong. */
const mixed = (): Federation => {
  const { counts } = aModel();
  return federationOf({
    models: [
      aModel({
        counts: { ...counts, ducts: 3, fittings: 1, dampers: 3, skipped: 2, unclassified: 1 },
        problems: [
          { code: 'unreadable-geometry', globalId: 'x', message: 'Duct segment "X" was not read: it is broken.' },
          { code: 'no-body', globalId: 'y', message: 'Duct segment "Y" was not read: it has no Body representation.' },
          { code: 'unclassified-flow-element', globalId: 'u', message: 'IFCFLOWSEGMENT "U" was not checked.' },
        ],
      }),
      aModel({
        id: 'm2',
        file: 'architecture.ifc',
        sha256: 'b'.repeat(64),
        counts: { ...counts, ducts: 0, barriers: 6, openings: 3 },
      }),
    ],
    airElements: [
      anAir('a'),
      anAir('b', { bodies: [mesh], stated: {}, ports: [] }),
      anAir('c', { kind: 'flexible', system: undefined, systemType: undefined, material: 'unknown' }),
      anAir('d', { kind: 'fitting', bodies: [mesh], systemType: undefined, storey: undefined }),
      anAir('e', { kind: 'damper', ...FIRE_DAMPER }),
      anAir('f', { kind: 'damper', damper: { ...FIRE_DAMPER.damper, purpose: 'fireSmoke', rating: unstated } }),
      anAir('g', { kind: 'damper', damper: { purpose: 'unknown', rating: unstated } }),
    ],
    otherServices: [aService('p', 'pipe'), aService('q', 'pipe'), aService('r', 'cable')],
    barriers: [
      aWall('1', { openings: [anOpening('o1', ['door']), anOpening('o2')] }),
      aWall('2', { openings: [anOpening('o3')] }),
      aWall('3', { rating: unreadable, layers: [{ material: 'studs', thickness: undefined }] }),
      aWall('4', { rating: duration, layers: [] }),
      aWall('5', { kind: 'floor', rating: unstated, storey: { globalId: 's2', name: 'Level 2', elevation: 3600 } }),
      aWall('6', { kind: 'roof', rating: { ...unstated, state: 'notRequired' }, storey: undefined }),
    ],
  });
};

describe('what is there', () => {
  it('is counted over all models', () => {
    expect(buildReadiness(mixed()).together).toEqual({
      air: {
        total: 7,
        byKind: { segment: 2, fitting: 1, damper: 3, silencer: 0, flexible: 1, fan: 0, terminal: 0, equipment: 0 },
        sections: { profile: 2, mesh: 1 },
        withSystem: 6,
        systems: [
          { name: 'KX', type: 'EXHAUST', elements: 5 },
          { name: 'KX', type: null, elements: 1 },
        ],
        withPorts: 6,
        ports: { total: 12, connected: 6 },
        materialKnown: 6,
        sizeStated: 2,
        withoutStorey: 1,
      },
      dampers: {
        total: 3,
        byPurpose: { fire: 1, fireSmoke: 1, smoke: 0, control: 0, unknown: 1 },
        ratings: [
          { text: null, state: 'unstated', from: null, read: 'nothing stated', elements: 1 },
          {
            text: 'EI 120',
            state: 'stated',
            from: 'occurrence',
            read: 'loadbearing not asked for, integrity 120 min and insulation 120 min',
            elements: 1,
          },
        ],
      },
      barriers: {
        total: 6,
        byKind: { wall: 4, floor: 1, roof: 1 },
        byRatingState: { stated: 2, durationOnly: 1, notRequired: 1, unstated: 1, unreadable: 1 },
        ratings: [
          {
            text: '-/120/120',
            state: 'stated',
            from: 'occurrence',
            read: 'loadbearing not asked for, integrity 120 min and insulation 120 min',
            elements: 2,
          },
          { text: null, state: 'notRequired', from: null, read: 'no rating required', elements: 1 },
          { text: null, state: 'unstated', from: null, read: 'nothing stated', elements: 1 },
          {
            text: '1 HR',
            state: 'durationOnly',
            from: 'type',
            read: '60 min, for which criteria is not said',
            elements: 1,
          },
          {
            text: 'FR 1hr (TBC)',
            state: 'unreadable',
            from: 'type',
            read: 'not readable, so not known',
            elements: 1,
          },
        ],
        byConstruction: {
          steelStud: 0,
          timberStud: 0,
          shaftWall: 0,
          masonry: 0,
          aeratedConcrete: 0,
          concrete: 0,
          hollowCore: 0,
          ribbedDeck: 0,
          massTimber: 0,
          sandwichPanel: 0,
          unknown: 6,
        },
        withLayers: 5,
        withThicknesses: 4,
        withoutStorey: 1,
      },
      openings: { total: 3, filled: 1, hosts: 2 },
      otherServices: { total: 3, byKind: { pipe: 2, cable: 1, other: 0 } },
      storeys: [
        { name: 'Level 1', elevation: 0 },
        { name: 'Level 2', elevation: 3600 },
      ],
    });
  });

  it('counts an opening of a roof once, though each slab of the roof lists it', () => {
    const moved = { ...prism, frame: { ...prism.frame, origin: [5000, 0, 0] as const } };
    const slabs = ['1', '2'].map((id) => aWall(id, { kind: 'roof', openings: [anOpening('o'), anOpening('p')] }));
    const copy = aWall('3', { openings: [{ ...anOpening('o'), bodies: [moved] }] });
    const { openings } = buildReadiness(federationOf({ barriers: [...slabs, copy] })).together;
    expect(openings).toEqual({ total: 3, filled: 0, hosts: 3 });
  });

  it('is counted for each model from its own elements', () => {
    const [services, architecture] = buildReadiness(mixed()).models;
    expect(services?.holds).toMatchObject({ air: { total: 7 }, barriers: { total: 0 }, otherServices: { total: 3 } });
    expect(architecture?.holds).toMatchObject({ air: { total: 0 }, barriers: { total: 6 }, openings: { total: 3 } });
    expect(services).toMatchObject({ file: 'services.ifc', skipped: 2, unclassified: 1 });
    expect(services?.problems.map(({ code, count }) => [code, count])).toEqual([
      ['unreadable-geometry', 1],
      ['no-body', 1],
      ['unclassified-flow-element', 1],
    ]);
  });

  it('agrees with its schema, also with nothing at all', () => {
    for (const federation of [mixed(), federationOf(), federationOf({ models: [] })]) {
      const readiness = buildReadiness(federation);
      expect(readinessSchema.parse(JSON.parse(JSON.stringify(readiness)))).toEqual(readiness);
    }
  });
});

describe('what is lacking', () => {
  const lacks = (federation: Federation) => buildReadiness(federation).lacks;
  const codes = (federation: Federation) => lacks(federation).map((lack) => lack.code);
  const whole = () =>
    federationOf({
      airElements: [anAir('a'), anAir('e', { kind: 'damper', ...FIRE_DAMPER })],
      barriers: [aWall('1', { openings: [anOpening('o1')] })],
    });

  it('doors of rated walls alone are asked for their rating', () => {
    const door = (globalId: string, rating: Rating) => ({ globalId, name: globalId, rating });
    const withDoors = (rating: Rating) =>
      aWall(`wall ${rating.text}`, {
        rating,
        openings: [{ ...anOpening('o'), doors: [door('d1', stated), door('d2', unstated)] }],
      });
    const found = lacks(federationOf({ barriers: [withDoors(stated), withDoors(unstated)] }));
    expect(found.filter(({ code }) => code === 'door-rating-unknown')).toMatchObject([{ count: 1, of: 2 }]);
  });

  it('is nothing where nothing is', () => {
    expect(lacks(whole())).toEqual([]);
  });

  it('is counted by what could have it', () => {
    expect(lacks(mixed()).map(({ code, count, of }) => [code, count, of])).toEqual([
      ['rating-unstated', 1, 6],
      ['rating-unreadable', 1, 6],
      ['rating-duration-only', 1, 6],
      ['layers-missing', 1, 6],
      ['layer-thickness-missing', 1, 6],
      ['barrier-storey-missing', 1, 6],
      ['section-mesh-only', 1, 3],
      ['size-unstated', 1, 3],
      ['system-missing', 1, 7],
      ['ports-missing', 1, 7],
      ['duct-material-unknown', 1, 7],
      ['duct-storey-missing', 1, 7],
      ['system-type-missing', 1, 6],
      ['damper-purpose-unknown', 1, 3],
      ['damper-rating-unknown', 1, 2],
      ['not-read', 2, 15],
      ['not-classified', 1, 1],
    ]);
  });

  it('names the elements and one way to mend it', () => {
    const four = ['1', '2', '3', '4'].map((id) => aWall(id, { rating: unstated }));
    const [lack] = lacks(federationOf({ barriers: four, airElements: [anAir('a')] })).filter(
      ({ code }) => code === 'rating-unstated',
    );
    expect(lack?.what).toBe('4 of 4 barriers state no fire rating.');
    expect(lack?.mend).toMatch(/FireRating.*Pset_WallCommon/);
    expect(lack?.examples).toEqual(
      ['1', '2', '3'].map((globalId) => ({ model: 'm2', globalId, name: `Wall ${globalId}` })),
    );
  });

  it('says when there is nothing to check at all', () => {
    expect(codes(federationOf())).toEqual(['no-ductwork', 'no-barriers']);
    expect(codes({ ...whole(), barriers: [aWall('1')] })).toEqual(['no-openings']);
  });

  it('does not ask an IFC2X3 file for the type of a system, which it has no place for', () => {
    const withSystemType = (schema: string, systemType: string | undefined) => {
      const [services, architecture] = federationOf().models;
      return codes({
        ...whole(),
        models: [{ ...services!, schema }, architecture!],
        airElements: [anAir('a', { systemType })],
      });
    };
    expect(withSystemType('IFC2X3', undefined)).toEqual([]);
    expect(withSystemType('IFC4', undefined)).toEqual(['system-type-missing']);
    expect(withSystemType('IFC4', 'NOTDEFINED')).toEqual(['system-type-missing']);
  });

  it('is which layer holds the rating, and on which face they begin', () => {
    const of = (layers: Barrier['layers'], more: Partial<Barrier>) =>
      codes({
        ...whole(),
        barriers: [aWall('1', { layers, openings: [anOpening('o')], construction: 'concrete', ...more })],
      });
    const cavity = { material: 'Air', thickness: 40, role: 'cavity' } as const;
    const core = { material: 'Core', thickness: 200 };
    const layersFrom = { at: [0, 0, 0], direction: [0, 1, 0] } as const;
    expect(of([{ ...core, role: 'leaf' }, cavity], { layersFrom })).toEqual([]);
    expect(of([{ ...core, role: 'leaf' }, cavity], {})).toEqual(['layer-order-unknown']);
    expect(of([core, cavity], { layersFrom })).toEqual(['leaf-not-told']);
    // Of what nothing is known to be built of, the layers are not asked.
    expect(of([core, cavity], { layersFrom, construction: 'unknown' })).toEqual([]);
  });

  it('is a name where a layer has none', () => {
    const barriers = [aWall('1', { layers: [{ material: '', thickness: 100 }], openings: [anOpening('o')] })];
    expect(codes({ ...whole(), barriers })).toEqual(['layers-missing']);
    expect(buildReadiness({ ...whole(), barriers }).together.barriers).toMatchObject({
      withLayers: 0,
      withThicknesses: 0,
    });
  });

  it('is nearness where a file lies more than 1 m from all others', () => {
    const along = (x: number): Body => ({ ...prism, frame: { ...prism.frame, origin: [x, 0, 0] } });
    const withDuctAt = (x: number, model = 'm1') => ({
      ...whole(),
      airElements: [anAir('a', { model, bodies: [along(x)] })],
    });
    // The barrier reaches from 0 to 1.
    expect(codes(withDuctAt(1001))).toEqual([]);
    expect(codes(withDuctAt(1002))).toEqual(['files-apart']);
    expect(codes(withDuctAt(-1002))).toEqual(['files-apart']);
    expect(codes(withDuctAt(1002, 'm2'))).toEqual([]);
    const [lack] = lacks(withDuctAt(12_345.6));
    expect(lack).toMatchObject({
      what: 'architecture.ifc lies 12.34 m apart from the nearest other file, services.ifc; from middle to middle -12.35 m along x, 0 m along y, 0 m along z.',
      mend: 'Export all files from the same origin, or each with its right IfcMapConversion; leave out files of other buildings.',
    });
  });

  it('is agreement where files hold the same element, or contradict each other', () => {
    const problem = (code: string, globalId: string | null) => ({ code, globalId, message: 'x' });
    const [services, architecture] = whole().models;
    const found = lacks({
      ...whole(),
      models: [
        { ...services!, problems: [problem('map-differs', null)] },
        { ...architecture!, problems: [problem('element-repeated', '1'), problem('element-repeated', 'z')] },
      ],
    });
    expect(found.map(({ code, what, examples }) => [code, what, examples])).toEqual([
      [
        'element-repeated',
        '2 elements are given twice, in the same place.',
        [
          { model: 'm2', globalId: '1', name: 'Wall 1' },
          { model: 'm2', globalId: 'z', name: '' },
        ],
      ],
      ['map-differs', '1 file has map coordinates of another map.', []],
    ]);
  });

  it('is told in plain words with a way to mend it that names where it is mended', () => {
    for (const { code, mend } of [...QUESTIONS, ...CONTRADICTIONS]) {
      expect(mend, code).toMatch(/^(Fill|Write|State|Give|Use|Put|Export|Assign|Associate|Set|Agree) [^.].+\.$/);
      expect(mend, code).toMatch(/Ifc[A-Z]|Pset_|FireRating|GlobalId|file/);
      expect(mend.length, code).toBeLessThan(300);
    }
  });

  it('is another file where one is given twice', () => {
    const models = [aModel(), aModel({ id: 'm2', file: 'copy.ifc' })];
    expect(lacks({ ...whole(), models }).map((lack) => lack.what)).toEqual([
      'copy.ifc (m2) has the same content as a file before it.',
    ]);
  });

  it('tells a rating that leaves a criterion open from one that does not ask for it', () => {
    const withRating = (rating: Rating) => ({
      ...whole(),
      barriers: [aWall('1', { rating, openings: [anOpening('o')] })],
    });
    expect(codes(withRating({ ...stated, insulation: null }))).toEqual(['rating-criterion-open']);
    expect(codes(withRating({ ...stated, insulation: 'none' }))).toEqual([]);
  });
});

describe('the printed readiness', () => {
  it('reads like this', () => {
    const federation = federationOf({
      models: [
        aModel({
          counts: { ...aModel().counts, skipped: 1 },
          problems: [
            { code: 'no-body', globalId: 'x', message: 'Duct "X" was not read: it has no Body representation.' },
          ],
        }),
      ],
      airElements: [anAir('a'), anAir('b', { system: undefined }), anAir('e', { kind: 'damper', ...FIRE_DAMPER })],
      otherServices: [aService('p', 'pipe')],
      barriers: [
        aWall('1', { model: 'm1', openings: [anOpening('o1', ['door'])] }),
        aWall('2', { model: 'm1', rating: unreadable }),
      ],
    });
    expect(writeReadiness(buildReadiness(federation))).toBe(
      `services.ifc (m1): IFC4, lengths in MILLIMETRE, written by Invented Author 1
  Ductwork        2 rigid segments, 1 damper
  Sections        2 from a swept profile, 0 from a mesh only; 2 state a size
  Systems         known for 2 of 3: KX (EXHAUST) 2
  Ports           3 of 3 have ports; 3 of 6 ports connected
  Duct material   known for 3 of 3
  Dampers         1 for fire
  Damper ratings  stated for all fire dampers
    "EI 120" 1 ×, on the element, read as: loadbearing not asked for, integrity 120 min and
      insulation 120 min
  Barriers        2 walls
  Ratings         1 stated, 1 unreadable
    "-/120/120" 1 ×, on the element, read as: loadbearing not asked for, integrity 120 min and
      insulation 120 min
    "FR 1hr (TBC)" 1 ×, on the type, read as: not readable, so not known
  Materials       stated for 2 of 2; with all thicknesses for 2
  Openings        1 in 1 barrier; 1 filled by another element
  Other services  1 pipe
  Storeys         Level 1 at 0 mm
  Not read        1 element
    no-body, 1 time: Duct "X" was not read: it has no Body representation.

Lacking, and how to mend it at the source
  - 1 of 2 barriers has a fire rating that can not be read.
    It is: Wall 2 (2)
    Write the agreed rating alone into FireRating, with its criteria, e.g. "-/120/120" or "EI
    120"; no remarks, no question marks.
  - 1 of 3 pieces of ductwork belongs to no system.
    It is: Duct b (b)
    Assign it to an IfcDistributionSystem (IFC2X3: IfcSystem) through IfcRelAssignsToGroup.
  - 1 of 3 pieces of ductwork and barriers could not be read, so will not be checked.
    See the reasons under each model; export the element again with a Body representation of
    solids or closed faces.

Says what the models hold and lack; no rules were applied, and nothing here says that anything
is compliant.
`,
    );
  });

  it('says where the files were placed and which one an element is in, when there are several', () => {
    const printed = writeReadiness(buildReadiness({ ...mixed(), frame: 'map' }));
    expect(printed).toContain('  Coordinates     the map conversions of the files differ, so they were placed by map');
    expect(printed).toContain('It is: Wall 3 (m2 3)');
    expect(writeReadiness(buildReadiness(mixed()))).toContain('the files were placed by their own coordinates\n');
  });

  it('keeps to its width and prints no control characters from a model', () => {
    const barriers = Array.from({ length: 30 }, (_, i) =>
      aWall(`w${i}`, { name: `\u001b[31m${'n'.repeat(90)}`, rating: { ...unreadable, text: `text ${i}\u0007` } }),
    );
    const airElements = Array.from({ length: 20 }, (_, i) => anAir(`d${i}`, { system: `System ${i}\u0000` }));
    const printed = writeReadiness(buildReadiness(federationOf({ barriers, airElements })));
    expect(printed.split('\n').filter((line) => line.length > 96)).toEqual([]);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what must not be printed
    expect(printed.replaceAll('\n', '')).not.toMatch(/[\u0000-\u001f\u007f-\u009f]/);
    expect(printed).toContain('and 18 more texts');
    expect(printed).toMatch(/known for 20 of 20: System 0 .*and\s+12 more/s);
  });
});
