/** Bodies of barriers as they should not be: each is measured all the same, or left out with the reason. */
import { describe, expect, it } from 'vitest';
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { findPenetrations } from '../../src/find/find-penetrations.js';
import { readFederation } from '../../src/read/read-federation.js';

const WALL = { name: 'W', from: [0, 0], to: [5000, 0], thickness: 128, height: 3000, body: 'mesh' } as const;

async function review(change: (text: string) => string, wall: Parameters<ModelBuilder['wall']>[0] = WALL) {
  const b = new ModelBuilder({ fileName: 'wrong.ifc' });
  b.wall(wall);
  b.duct({ name: 'D', from: [3000, -1000, 1500], to: [3000, 1000, 1500], width: 400, height: 300 });
  const text = b.toString();
  const changed = change(text);
  const federation = await readFederation([{ name: 'wrong.ifc', bytes: new TextEncoder().encode(changed) }]);
  const { penetrations } = findPenetrations(federation);
  const { problems, counts } = federation.models[0]!;
  return { isChanged: changed !== text, penetrations, codes: problems.map((p) => p.code), counts };
}

const FACES = /(IFCTRIANGULATEDFACESET\(#\d+,\$,[^,]+,)\((\(\d+,\d+,\d+\)(?:,\(\d+,\d+,\d+\))*)\)/;
const withFaces = (change: (faces: string[]) => string[]) => (text: string) =>
  text.replace(FACES, (_, head: string, list: string) => `${head}(${change(list.match(/\([^)]*\)/g)!).join()})`);

const READ = { crossing: 'through', barrier: { thickness: 128 } };

describe('measured all the same', () => {
  it.each([
    ['inside out', withFaces((faces) => faces.map((f) => f.replace(/\((\d+),(\d+),(\d+)\)/, '($1,$3,$2)'))), []],
    ['wound at random', withFaces((f) => f.map((t, i) => (i % 3 ? t : t.replace(/\((\d+),(\d+),/, '($2,$1,')))), []],
    ['with a face missing at the edge', withFaces((faces) => faces.slice(2)), ['open-body']],
    ['with faces without area', withFaces((faces) => [...faces, '(1,1,2)', '(3,3,3)']), []],
  ] as const)('%s', async (_, change, codes) => {
    const found = await review(change);
    expect(found.isChanged).toBe(true);
    expect(found.penetrations).toMatchObject([READ]);
    expect(found.codes).toEqual(codes);
  });

  it('but for a wall without one of its faces, of which it is said', async () => {
    const found = await review(withFaces((faces) => faces.slice(0, -2)));
    expect(found).toMatchObject({ isChanged: true, penetrations: [{ crossing: 'partial' }], codes: ['open-body'] });
  });

  it('drawn twice in one place', async () => {
    const found = await review((text) =>
      text.replace(/('Body','Tessellation',)\((#\d+)\)/, (_, head: string, item: string) => `${head}(${item},${item})`),
    );
    expect(found).toMatchObject({ isChanged: true, penetrations: [READ], codes: [] });
  });
});

describe('left out with the reason', () => {
  it.each([
    [
      'a coordinate that is no number',
      (t: string) => t.replace(/(POINTLIST3D\(\(\()[\d.]+,/, '$11.E999,'),
      'unreadable-geometry',
    ],
    [
      'no representation',
      (t: string) => t.replace(/(IFCWALL\([^)]*?#\d+,)#\d+(,\$,\.NOTDEFINED\.)/, '$1$$$2'),
      'no-body',
    ],
    ['one sheet alone', withFaces((faces) => faces.slice(0, 1)), 'no-thickness'],
    ['two sheets at an angle', withFaces((faces) => [faces[0]!, faces[2]!]), 'no-thickness'],
  ] as const)('%s', async (_, change, code) => {
    const found = await review(change);
    expect(found).toMatchObject({ isChanged: true, penetrations: [], codes: [code] });
    expect(found.counts).toMatchObject({ barriers: 0, skipped: 1 });
  });

  it('no thickness', async () => {
    const found = await review((text) => text, { ...WALL, thickness: 0 });
    expect(found).toMatchObject({ penetrations: [], counts: { barriers: 0, skipped: 1 } });
    expect(found.codes.length).toBe(1);
  });

  it('a profile with a point that is no number', async () => {
    const found = await review((text) => text.replace(/(IFCRECTANGLEPROFILEDEF\(.AREA.,\$,#\d+,)[\d.]+/, '$11.E999'), {
      ...WALL,
      body: 'extrusion',
    });
    expect(found).toMatchObject({ isChanged: true, penetrations: [], counts: { barriers: 0, skipped: 1 } });
  });
});

it('a file whose own origin is no number is refused in one line', async () => {
  await expect(review((text) => text.replace(/(IFCCARTESIANPOINT\(\()[\d.]+,/, '$11.E999,'))).rejects.toThrow(
    /^wrong\.ifc can not be placed: point #\d+ has coordinates that are no numbers; /,
  );
});
