/** Models with one fault each, made from one small building: a wall with an opening, and two ducts through it. */
import { strToU8, zipSync } from 'fflate';
import { ModelBuilder } from '../../fixtures/model-builder.js';

export interface BadModel {
  readonly kind: string;
  readonly name?: string;
  readonly bytes: () => Uint8Array;
  /** Left out: as in a review. */
  readonly elementSeconds?: number;
  /** Of the one line, where the review can't be made; of a problem in its report, where it can. */
  readonly refused?: RegExp;
  readonly problem?: RegExp;
}

export const whole: string = (() => {
  const b = new ModelBuilder({ fileName: 'bad.ifc' });
  const wall = b.wall({
    name: 'Wall A',
    from: [0, 0],
    to: [5000, 0],
    thickness: 128,
    height: 3000,
    rating: '-/120/120',
  });
  b.opening(wall, { centre: [2990, 0, 1980], width: 700, height: 500 });
  const size = { width: 600, height: 400 };
  b.duct({ name: 'Duct A', from: [3000, -2500, 2000], to: [3000, 2500, 2000], ...size });
  b.duct({ name: 'Duct B', from: [1000, -2500, 2000], to: [1000, 2500, 2000], ...size, body: 'mesh' });
  return b.toString();
})();

/** Ids of instances, by what stands in their lines. */
const idOf = (pattern: RegExp): string => {
  const line = whole.split('\n').find((one) => pattern.test(one));
  if (line === undefined) throw new Error(`no line is like ${pattern}`);
  return line.slice(0, line.indexOf('='));
};
const DUCT = idOf(/'Duct A'/);
const DUCT_PLACE = idOf(new RegExp(`^${idOf(/=IFCLOCALPLACEMENT\(#25,#54\)/)}=`));
const MESH = idOf(/=IFCTRIANGULATEDFACESET\(/);
const POINTS = idOf(/=IFCCARTESIANPOINTLIST3D\(/);
const SOLID = idOf(/=IFCEXTRUDEDAREASOLID\(.*,5000\.\);/);
const ITEMS = `(${SOLID})`;

/** @param line without its id @param also further instances */
const instead = (id: string, line: string, also: readonly string[] = []): string =>
  whole
    .replace(new RegExp(`^${id}=.*$`, 'm'), `${id}=${line}`)
    .replace('ENDSEC;\nEND-ISO', `${also.join('\n')}\nENDSEC;\nEND-ISO`);
const itemInstead = (item: string, also: readonly string[]): string =>
  whole.replace(ITEMS, `(${item})`).replace('ENDSEC;\nEND-ISO', `${also.join('\n')}\nENDSEC;\nEND-ISO`);

const numbers = (count: number): number[] => Array.from({ length: count }, (_, i) => i);
const ring = (count: number, radius: number): string[] =>
  numbers(count).map((i) => {
    const t = (2 * Math.PI * i) / count;
    return `(${(radius * Math.cos(t)).toFixed(4)},${(radius * Math.sin(t)).toFixed(4)}`;
  });

/** A file in a zip that says to be smaller or larger than it is. */
function lyingZip(says: number): Uint8Array {
  const archive = zipSync({ 'bad.ifc': strToU8(whole) });
  const view = new DataView(archive.buffer, archive.byteOffset);
  for (let i = 0; i + 4 < archive.length; i++) {
    if (view.getUint32(i, true) === 0x04034b50) view.setUint32(i + 22, says, true);
    if (view.getUint32(i, true) === 0x02014b50) view.setUint32(i + 24, says, true);
  }
  return archive;
}

const noise = (): Uint8Array => Uint8Array.from({ length: 20_000 }, (_, i) => (i * 7919 + (i % 13) * 31) % 256);
const text = (made: () => string) => () => strToU8(made());
const chain = (count: number, first: number, line: (own: number, next: number) => string): string[] =>
  numbers(count).map((i) => `#${first + i}=${line(first + i, first + i + 1)};`);

export const BAD_MODELS: readonly BadModel[] = [
  { kind: 'truncated', bytes: text(() => whole.slice(0, whole.length / 2)), refused: /is cut off/ },
  {
    kind: 'truncated, with an end put to it',
    bytes: text(() => `${whole.slice(0, whole.indexOf(`${DUCT}=`) + 40)}\nENDSEC;\nEND-ISO-10303-21;\n`),
    refused: /can not be opened|has no|is cut off/,
  },
  { kind: 'garbage', bytes: noise, refused: /does not begin with ISO-10303-21/ },
  {
    kind: 'garbage in its data',
    bytes: () => {
      const bytes = strToU8(whole);
      bytes.set(noise().subarray(0, 3000), whole.indexOf('DATA;') + 6);
      return bytes;
    },
    refused: /can not be opened|has no IfcProject|stopped its reader/,
  },
  { kind: 'empty', bytes: () => new Uint8Array(), refused: /is empty/ },
  {
    kind: 'without data',
    bytes: text(() => whole.replace(/DATA;[\s\S]*ENDSEC;/, 'DATA;\nENDSEC;')),
    refused: /has no IfcProject/,
  },
  {
    kind: 'wrong schema',
    bytes: text(() => whole.replace("'IFC4'", "'CONFIG_CONTROL_DESIGN'")),
    refused: /which is not read/,
  },
  {
    kind: 'wrong extension: a zip',
    bytes: () => zipSync({ 'bad.ifc': strToU8(whole) }),
    refused: /zip archive under another name/,
  },
  { kind: 'wrong extension: no zip', name: 'bad.ifczip', bytes: text(() => whole), refused: /is no zip archive/ },
  {
    kind: 'several files in a zip',
    name: 'bad.ifczip',
    bytes: () => zipSync({ 'a.ifc': strToU8(whole), 'b.ifc': strToU8(whole) }),
    refused: /holds 2 \.ifc files/,
  },
  {
    kind: 'zip bomb',
    name: 'bad.ifczip',
    bytes: () => zipSync({ 'bad.ifc': new Uint8Array(80 * 2 ** 20) }),
    refused: /unpacks to more than 100 times its size/,
  },
  { kind: 'zip that says to be small', name: 'bad.ifczip', bytes: () => lyingZip(500), refused: /damaged|cut off/ },
  {
    kind: 'zip that says to be huge',
    name: 'bad.ifczip',
    bytes: () => lyingZip(0xfffffff0),
    refused: /larger than 2 GiB/,
  },
  {
    kind: 'a line of 20 MB',
    bytes: text(() => whole.replace("'Duct A'", `'${'A'.repeat(20_000_000)}'`)),
  },
  {
    kind: 'placements in a circle',
    bytes: text(() => instead(DUCT_PLACE, `IFCLOCALPLACEMENT(${DUCT_PLACE},#54);`)),
    problem: /placement #\d+ refers to itself/,
  },
  {
    kind: 'placements 50,000 deep',
    bytes: text(() =>
      instead(DUCT_PLACE, 'IFCLOCALPLACEMENT(#100000,#54);', [
        ...chain(50_000, 100_000, (_, next) => `IFCLOCALPLACEMENT(#${next},#10)`),
        '#150000=IFCLOCALPLACEMENT(#25,#10);',
      ]),
    ),
  },
  {
    kind: 'mappings in a circle',
    bytes: text(() =>
      itemInstead('#900', [
        '#900=IFCMAPPEDITEM(#901,#903);',
        '#901=IFCREPRESENTATIONMAP(#10,#902);',
        "#902=IFCSHAPEREPRESENTATION(#13,'Body','MappedRepresentation',(#900));",
        '#903=IFCCARTESIANTRANSFORMATIONOPERATOR3D($,$,#7,1.,$);',
      ]),
    ),
    problem: /refers to itself/,
  },
  {
    kind: 'mappings 2,000 deep',
    bytes: text(() =>
      itemInstead('#10000', [
        ...numbers(2000).flatMap((i) => [
          `#${10_000 + 3 * i}=IFCMAPPEDITEM(#${10_001 + 3 * i},#903);`,
          `#${10_001 + 3 * i}=IFCREPRESENTATIONMAP(#10,#${10_002 + 3 * i});`,
          `#${10_002 + 3 * i}=IFCSHAPEREPRESENTATION(#13,'Body','MappedRepresentation',(#${10_003 + 3 * i}));`,
        ]),
        '#16000=IFCBLOCK(#10,1.,1.,1.);',
        '#903=IFCCARTESIANTRANSFORMATIONOPERATOR3D($,$,#7,1.,$);',
      ]),
    ),
    problem: /nested too deep/,
  },
  {
    kind: 'mappings that double 40 times',
    bytes: text(() =>
      itemInstead('#10000', [
        ...numbers(40).flatMap((i) => [
          `#${10_000 + 3 * i}=IFCMAPPEDITEM(#${10_001 + 3 * i},#903);`,
          `#${10_001 + 3 * i}=IFCREPRESENTATIONMAP(#10,#${10_002 + 3 * i});`,
          `#${10_002 + 3 * i}=IFCSHAPEREPRESENTATION(#13,'Body','MappedRepresentation',(#${10_003 + 3 * i},#${10_003 + 3 * i}));`,
        ]),
        '#10120=IFCBLOCK(#10,1.,1.,1.);',
        '#903=IFCCARTESIANTRANSFORMATIONOPERATOR3D($,$,#7,1.,$);',
      ]),
    ),
    problem: /more than 20000 items/,
  },
  {
    kind: 'booleans in a circle',
    bytes: text(() =>
      itemInstead('#900', [
        '#900=IFCBOOLEANRESULT(.DIFFERENCE.,#901,#52);',
        '#901=IFCBOOLEANRESULT(.UNION.,#900,#52);',
      ]),
    ),
    problem: /refers to itself/,
  },
  {
    kind: 'missing references',
    bytes: text(() => whole.replace(ITEMS, '(#99999)')),
    problem: /is missing or can not be read/,
  },
  {
    kind: 'a placement that names a direction that is missing',
    bytes: text(() => whole.replace('#54=IFCAXIS2PLACEMENT3D(#53,#40,#9)', '#54=IFCAXIS2PLACEMENT3D(#53,#99999,#9)')),
    problem: /its placement names #99999, which is missing/,
  },
  {
    kind: 'wrong attribute types',
    bytes: text(() =>
      instead(DUCT, `IFCDUCTSEGMENT(12.5,'x',(#1),#10,.T.,'#55',((1)),#57,#58);`).replace(
        /IFCSHAPEREPRESENTATION\(#13,'Body','Tessellation',\(#60\)\)/,
        `IFCSHAPEREPRESENTATION('a',12,$,'b')`,
      ),
    ),
    problem: /./,
  },
  {
    kind: 'wrong types in geometry',
    bytes: text(() => instead(SOLID, `IFCEXTRUDEDAREASOLID(#58,'x',(1.,2.),.T.);`)),
    problem: /Duct/,
  },
  {
    kind: 'duplicate ids',
    bytes: text(() =>
      instead('#900', '', [`${SOLID}=IFCBLOCK(#10,1.,1.,1.);`, `${DUCT}=IFCWALL('x',$,$,$,$,$,$,$,$);`]),
    ),
    refused: /has two instances #\d+; export it again/,
  },
  ...['NaN', 'Infinity', '1.E999', '-1.#IND', '1.E-999'].map(
    (number): BadModel => ({
      kind: `${number} for a size`,
      bytes: text(() => whole.replace(',600.,400.);', `,${number},400.);`)),
      problem: /./,
    }),
  ),
  {
    kind: '1.E999 for a coordinate of a mesh',
    bytes: text(() => instead(POINTS, `IFCCARTESIANPOINTLIST3D(((1.E999,0.,0.),(300.,-200.,0.),(300.,200.,0.)));`)),
    problem: /Duct B/,
  },
  {
    kind: 'a face of a million vertices',
    elementSeconds: 5,
    bytes: text(() =>
      instead(POINTS, `IFCCARTESIANPOINTLIST3D((${ring(1_000_000, 500).join(',0.),')},0.)));`).replace(
        new RegExp(`^${MESH}=.*$`, 'm'),
        `${MESH}=IFCPOLYGONALFACESET(#59,.T.,(#901),$);\n#901=IFCINDEXEDPOLYGONALFACE((${numbers(1_000_000)
          .map((i) => i + 1)
          .join()}));`,
      ),
    ),
    problem: /Duct B/,
  },
  {
    kind: 'an outline of 200,000 corners',
    bytes: text(() =>
      whole
        .replace('IFCRECTANGLEPROFILEDEF(.AREA.,$,#44,600.,400.)', 'IFCARBITRARYCLOSEDPROFILEDEF(.AREA.,$,#900)')
        .replace(
          'ENDSEC;\nEND-ISO',
          `#900=IFCINDEXEDPOLYCURVE(#901,$,.F.);\n#901=IFCCARTESIANPOINTLIST2D((${ring(200_000, 400).join('),')})));\nENDSEC;\nEND-ISO`,
        ),
    ),
    problem: /has \d+ corners, more than/,
  },
  {
    kind: 'an opening in its own wall that voids itself',
    bytes: text(() => whole.replace(/(IFCRELVOIDSELEMENT\(.*),#35,#49\)/, '$1,#35,#35)')),
  },
];
