/** A building of many small files, one for each text, which has the text wherever a model may say something. */
import { ModelBuilder } from '../../fixtures/model-builder.js';
import type { Vec3 } from '../../fixtures/vectors.js';
import type { ModelInput } from '../../src/read/file-reader.js';
import type { HostileText } from './strings.js';

/** Where models have texts of their own; the rest of {@link PLACES} is in documents and on the command line. */
export const MODEL_PLACES = [
  ...['file', 'header', 'project', 'application', 'storey', 'grid', 'room', 'roomName', 'zone'],
  ...['wall', 'layer', 'category', 'rating', 'opening', 'door', 'doorRating', 'globalId'],
  ...['duct', 'ductType', 'ductMaterial', 'system', 'systemName', 'property'],
  ...['damper', 'damperRating', 'actuation', 'pipe', 'beam', 'panel'],
] as const;

const PITCH = 9000;
const PER_ROW = 10;

/** Three rated walls one behind the other, and a duct through all of them: wrong gaps, a rating nobody can read, a damper. */
export function modelOf(text: HostileText): ModelInput {
  const say = (place: (typeof MODEL_PLACES)[number]): string => text.at(place);
  const i = Number(text.number);
  const [x, y] = [(i % PER_ROW) * PITCH, Math.floor(i / PER_ROW) * PITCH];
  const at = (dx: number, dy: number, z: number): Vec3 => [x + dx, y + dy, z];
  const b = new ModelBuilder({
    fileName: say('header'),
    description: say('header'),
    projectName: say('project'),
  });
  b.storey(say('storey'), 0);
  const wall = (name: string, dy: number, rating: string, globalId?: string) =>
    b.wall({
      ...{ name, from: [x, y + dy], to: [x + 4000, y + dy], thickness: 150, height: 3000, rating },
      ...(globalId !== undefined && { globalId }),
      layers: [
        { material: say('layer'), thickness: 100, category: say('category') },
        { material: 'plasterboard', thickness: 50 },
      ],
    });
  const first = wall(say('wall'), 2000, '-/120/120');
  const second = wall(`${say('wall')} 2`, 4000, say('rating'));
  wall(`${say('wall')} 3`, 6000, '-/60/60', say('globalId'));
  b.opening(first, { name: say('opening'), centre: at(2000, 2000, 2000), width: 900, height: 420 });
  b.door(b.opening(first, { name: 'Door way', centre: at(3500, 2000, 1050), width: 900, height: 2100 }), {
    ...{ name: say('door'), rating: say('doorRating') },
  });
  b.opening(second, { centre: at(2000, 4000, 2000), width: 650, height: 450 });
  const common = { width: 600, height: 400, system: say('system'), material: say('ductMaterial') };
  b.system(say('system'), {
    longName: say('systemName'),
    properties: { set: 'Hostile', name: 'Strategy', value: say('property') },
  });
  const duct = b.duct({
    ...{ ...common, name: say('duct'), typeName: say('ductType'), ports: true },
    ...{ from: at(2000, 0, 2000), to: at(2000, 5800, 2000) },
  });
  const damper = b.damper({
    ...{ ...common, name: say('damper'), rating: say('damperRating'), actuation: say('actuation'), ports: true },
    ...{ from: at(2000, 5800, 2000), to: at(2000, 6200, 2000) },
  });
  const rest = b.duct({
    ...common,
    name: say('duct'),
    ports: true,
    from: at(2000, 6200, 2000),
    to: at(2000, 8000, 2000),
  });
  b.connect(duct, damper, rest);
  b.pipe({ name: say('pipe'), diameter: 50, from: at(2380, 1000, 2000), to: at(2380, 3000, 2000) });
  b.solid({ name: say('beam'), entity: 'IfcBeam', min: at(1700, 1000, 2250), max: at(2300, 1500, 2400) });
  b.accessPanel({ name: say('panel'), width: 300, height: 300, from: at(2300, 1200, 2000), to: at(2330, 1200, 2000) });
  b.grid({
    name: say('grid'),
    u: [{ tag: say('grid'), from: [x, y], to: [x + 4000, y] }],
    v: [{ tag: say('grid'), from: [x, y], to: [x, y + 8000] }],
  });
  const rooms = [0, 2100, 4100, 6100].map((dy) =>
    b.space({
      ...{ name: say('room'), longName: say('roomName'), height: 2900 },
      outline: [
        [x, y + dy],
        [x + 4000, y + dy],
        [x + 4000, y + dy + 1800],
        [x, y + dy + 1800],
      ],
    }),
  );
  b.zone({ name: say('zone'), spaces: rooms.slice(0, 1), as: 'IfcSpatialZone' });
  // The builder says of every file that it wrote it; this one says something else.
  const written = b.toString().replaceAll("'Ratedrun fixture generator'", () => stepText(say('application')));
  return { name: fileNameOf(text), bytes: new TextEncoder().encode(written) };
}

/** As far as a file may be named so: readers take names from lists that hold no folders. */
export const fileNameOf = (text: HostileText): string => `${text.at('file')}.ifc`;

const stepText = (text: string): string => {
  const encoded = Array.from({ length: text.length }, (_, i) => text.charCodeAt(i).toString(16).padStart(4, '0'));
  return `'\\X2\\${encoded.join('').toUpperCase()}\\X0\\'`;
};
