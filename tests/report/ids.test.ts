import { XmlDocument, type XmlElement } from 'libxml2-wasm';
import { describe, expect, it } from 'vitest';
import * as WebIFC from 'web-ifc';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { readFederation } from '../../src/read/read-federation.js';
import {
  type Facet,
  IFC_VERSIONS,
  type IfcVersion,
  INFORMATION_REQUIREMENTS,
  type Specification,
} from '../../src/report/information-requirements.js';
import { buildReadiness } from '../../src/report/readiness.js';
import { QUESTIONS } from '../../src/report/readiness-questions.js';
import { writeIds } from '../../src/report/write-ids.js';
import { hasIdsSchema, validateIds } from './ids-schema.js';

const IDS = writeIds(INFORMATION_REQUIREMENTS, '1.2.3');
const NAMESPACES = { ids: 'http://standards.buildingsmart.org/IDS', xs: 'http://www.w3.org/2001/XMLSchema' };

function parsed<T>(text: string, use: (find: (xpath: string) => XmlElement[]) => T): T {
  const document = XmlDocument.fromString(text);
  try {
    return use((xpath) => document.find(xpath, NAMESPACES) as XmlElement[]);
  } finally {
    document.dispose();
  }
}

describe.skipIf(!hasIdsSchema)('against the IDS 1.0 schema (buildingSMART, ids.xsd)', () => {
  it('the information requirements are valid', () => {
    expect(() => validateIds(IDS)).not.toThrow();
  });

  it.each([
    ['a schema that IDS does not know', 'IFC2X3', 'IFC2X2', /ifcVersion/],
    ['an unknown relation', 'IFCRELASSIGNSTOGROUP', 'IFCRELVOIDS', /relation/],
    ['a data type in lower case', 'dataType="IFCLABEL"', 'dataType="IfcLabel"', /dataType/],
    ['an unknown cardinality', 'cardinality="prohibited"', 'cardinality="forbidden"', /cardinality/],
    ['a restriction by something else', '<xs:enumeration', '<xs:enumerated', /enumerat/],
    ['a title that is missing', /<title>.*<\/title>/, '', /version/],
  ])('%s is refused', (_, from, to, message) => {
    const spoilt = IDS.replace(from, to);
    expect(spoilt).not.toBe(IDS);
    expect(() => validateIds(spoilt)).toThrow(message);
  });
});

/** IDS documentation, "IFC2X3 entities mapping": the name in an IDS facet, the occurrence and its type in the file. */
const IFC2X3_BY_TYPE: Readonly<Record<string, readonly [string, string]>> = {
  IFCDUCTSEGMENT: ['IFCFLOWSEGMENT', 'IFCDUCTSEGMENTTYPE'],
  IFCDUCTFITTING: ['IFCFLOWFITTING', 'IFCDUCTFITTINGTYPE'],
  IFCDAMPER: ['IFCFLOWCONTROLLER', 'IFCDAMPERTYPE'],
  IFCDUCTSILENCER: ['IFCFLOWTREATMENTDEVICE', 'IFCDUCTSILENCERTYPE'],
};
const SCHEMAS = { IFC2X3: WebIFC.IFC2X3, IFC4: WebIFC.IFC4, IFC4X3_ADD2: WebIFC.IFC4X3 } as const;
const classesOf = (version: IfcVersion): Map<string, unknown> =>
  new Map(Object.entries(SCHEMAS[version]).map(([name, value]) => [name.toUpperCase(), value]));

/**
 * Property sets and their properties: buildingSMART's psd files of IFC2X3 and IFC4 and the documentation of IFC 4.3.1.
 * Pset_RoofCommon and Pset_CurtainWallCommon before 4.3: from memory.
 */
const PROPERTIES: Readonly<Record<string, Readonly<Record<string, readonly [type: string, ...IfcVersion[]]>>>> = {
  Pset_WallCommon: { FireRating: ['IFCLABEL', ...IFC_VERSIONS], Compartmentation: ['IFCBOOLEAN', ...IFC_VERSIONS] },
  Pset_SlabCommon: { FireRating: ['IFCLABEL', ...IFC_VERSIONS], Compartmentation: ['IFCBOOLEAN', ...IFC_VERSIONS] },
  Pset_RoofCommon: { FireRating: ['IFCLABEL', ...IFC_VERSIONS] },
  Pset_CurtainWallCommon: { FireRating: ['IFCLABEL', ...IFC_VERSIONS] },
  Pset_DamperTypeFireDamper: {
    FireResistanceRating: ['IFCLABEL', ...IFC_VERSIONS],
    ActuationType: ['IFCLABEL', ...IFC_VERSIONS],
  },
  Pset_DamperTypeFireSmokeDamper: {
    FireResistanceRating: ['IFCLABEL', 'IFC4', 'IFC4X3_ADD2'],
    ActuationType: ['IFCLABEL', 'IFC4', 'IFC4X3_ADD2'],
    ControlType: ['IFCLABEL', 'IFC2X3', 'IFC4'],
  },
  // In IFC2X3: from memory.
  Pset_DamperTypeCommon: { Orientation: ['IFCLABEL', ...IFC_VERSIONS] },
  Pset_DuctSegmentTypeCommon: {
    Shape: ['IFCLABEL', 'IFC2X3', 'IFC4'],
    CrossSectionShape: ['IFCLABEL', 'IFC4X3_ADD2'],
    NominalDiameterOrWidth: ['IFCPOSITIVELENGTHMEASURE', ...IFC_VERSIONS],
    NominalHeight: ['IFCPOSITIVELENGTHMEASURE', ...IFC_VERSIONS],
  },
};

const facetsOf = ({ applicability, requirements }: Specification): Facet[] => [...applicability, ...requirements];

describe('names are right in each schema', () => {
  const cases = INFORMATION_REQUIREMENTS.flatMap((s) => s.versions.map((version) => ({ version, ...s })));
  it.each(cases)('$version: $name', (specification) => {
    const { version } = specification;
    const classes = classesOf(version);
    for (const facet of facetsOf(specification)) {
      if (facet.is === 'entity' || facet.is === 'partOf') {
        for (const name of [facet.is === 'entity' ? facet.name : facet.entity].flat()) {
          const written = version === 'IFC2X3' ? (IFC2X3_BY_TYPE[name] ?? [name]) : [name];
          for (const entity of written) expect([...classes.keys()], `${entity} in ${version}`).toContain(entity);
        }
        if (facet.is === 'partOf' || facet.predefinedType === undefined) continue;
        const enumeration = classes.get('IFCDAMPERTYPEENUM') as object;
        for (const type of [facet.predefinedType].flat()) expect(Object.keys(enumeration)).toContain(type);
      }
      if (facet.is === 'property') {
        const [dataType, ...versions] = PROPERTIES[facet.set]?.[facet.name] ?? [];
        expect(versions, `${facet.set}.${facet.name}`).toContain(version);
        expect(facet.dataType).toBe(dataType);
      }
    }
  });

  it('IFC2X3 has none of the entities for ductwork, so the mapping is needed', () => {
    for (const name of Object.keys(IFC2X3_BY_TYPE)) expect(classesOf('IFC2X3').has(name)).toBe(false);
    for (const name of Object.keys(IFC2X3_BY_TYPE)) expect(classesOf('IFC4').has(name)).toBe(true);
  });

  it('each requirement names a schema once, and every schema is asked for ratings, sizes, systems and materials', () => {
    for (const version of IFC_VERSIONS) {
      const asked = INFORMATION_REQUIREMENTS.filter((s) => s.versions.includes(version));
      expect(new Set(asked.map((s) => s.name)).size).toBe(asked.length);
      const codes = new Set(asked.map((s) => s.identifier));
      for (const code of [
        'rating-unstated',
        'size-unstated',
        'system-missing',
        'layers-missing',
        'duct-material-unknown',
        'damper-purpose-unknown',
        'damper-rating-unknown',
      ])
        expect(codes).toContain(code);
    }
  });
});

describe('what a BIM manager reads', () => {
  it('every specification says in plain words how to meet it, and readiness reports its lack by the same code', () => {
    for (const { identifier, instructions, name } of INFORMATION_REQUIREMENTS) {
      expect(QUESTIONS.map((q) => q.code)).toContain(identifier);
      expect(instructions, name).toMatch(/^[A-Z].{30,}\.$/);
    }
  });

  it('a model without any of it lacks each by that code; one with all of it lacks none', async () => {
    const bare = new ModelBuilder({ fileName: 'bare.ifc' });
    bare.wall({ name: 'Wall', from: [0, 0], to: [5000, 0], thickness: 100, height: 3000 });
    const run = { from: [1000, -500, 1000], to: [1000, 500, 1000], width: 300, height: 200 } as const;
    bare.duct({ name: 'Duct', ...run });
    bare.damper({ name: 'Damper', ...run, purpose: 'FIREDAMPER' });
    bare.damper({ name: 'Other damper', ...run, purpose: 'NOTDEFINED' });
    const full = new ModelBuilder({ fileName: 'full.ifc' });
    full.wall({
      name: 'Wall',
      from: [0, 0],
      to: [5000, 0],
      thickness: 100,
      height: 3000,
      rating: 'EI 60',
      compartmentation: true,
      layers: [{ material: 'Concrete', thickness: 100 }],
    });
    const told = { system: 'Exhaust 1', material: 'Galvanised steel', nominal: { width: 300, height: 200 } } as const;
    const shuts = { actuation: 'SPRING', orientation: 'VERTICAL' } as const;
    full.duct({ name: 'Duct', ...run, ...told });
    full.damper({ name: 'Damper', ...run, ...told, purpose: 'FIREDAMPER', rating: 'EI 60', ...shuts });
    const lacksOf = async (b: ModelBuilder) => {
      const bytes = new TextEncoder().encode(b.toString());
      return buildReadiness(await readFederation([{ name: 'x.ifc', bytes }])).lacks.map((lack) => lack.code);
    };
    const required = new Set(INFORMATION_REQUIREMENTS.map((s) => s.identifier));
    // The builder puts everything into a storey, and gives every system a type.
    const always = ['barrier-storey-missing', 'duct-storey-missing', 'system-type-missing'];
    expect((await lacksOf(bare)).filter((code) => required.has(code)).sort()).toEqual(
      [...required].filter((code) => !always.includes(code)).sort(),
    );
    expect((await lacksOf(full)).filter((code) => required.has(code))).toEqual([]);
  });
});

describe('the XML', () => {
  it('holds every specification as it was given', () => {
    parsed(IDS, (find) => {
      const names = find('/ids:ids/ids:specifications/ids:specification').map((n) => [
        n.attr('name')?.value,
        n.attr('ifcVersion')?.value,
        n.attr('instructions')?.value,
      ]);
      expect(names).toEqual(INFORMATION_REQUIREMENTS.map((s) => [s.name, s.versions.join(' '), s.instructions]));
      const fire = find('//ids:specification[contains(@name,"Dampers say")]//ids:predefinedType//xs:enumeration');
      expect(fire.map((n) => n.attr('value')?.value)).toContain('FIRESMOKEDAMPER');
    });
  });

  it('is the same in every run', () => {
    expect(writeIds(INFORMATION_REQUIREMENTS, '1.2.3')).toBe(IDS);
  });
});
