import { decode } from 'fast-png';
import { beforeAll, describe, expect, it } from 'vitest';
import { CASES } from '../../fixtures/cases.js';
import { OUTCOME_COLOURS, PAGE, type Rgb } from '../../src/draw/palette.js';
import { type Place, placeOf, placeOn } from '../../src/draw/place.js';
import { drawPlace, drawSnapshot, PICTURE } from '../../src/draw/snapshot.js';
import { type Standpoint, standpointFor } from '../../src/draw/standpoint.js';
import { add, cross, dot, scale, sub } from '../../src/geometry/vector.js';
import { OUTCOMES, type Vec3 } from '../../src/model.js';
import { type Scene, sceneOf } from '../../src/scene/scene.js';
import { type Reviewed, review, reviewOneWall } from '../one-wall.js';

const LABEL = { tag: 'K7F2-9', outcome: 'failed', stamp: null } as const;

interface Picture {
  at(x: number, y: number): Rgb;
  count(is: (colour: Rgb) => boolean): number;
}

function pictureOf(png: Uint8Array): Picture {
  const { width, height, data, channels } = decode(png);
  expect([width, height, channels]).toEqual([PICTURE.width, PICTURE.height, 3]);
  const at = (x: number, y: number): Rgb => {
    const i = 3 * (Math.round(y) * width + Math.round(x));
    return [data[i]!, data[i + 1]!, data[i + 2]!];
  };
  const count = (is: (colour: Rgb) => boolean) => {
    let sum = 0;
    for (let y = 0; y < height; y++) for (let x = 0; x < width; x++) if (is(at(x, y))) sum++;
    return sum;
  };
  return { at, count };
}

const near = (a: Rgb, b: Rgb, by = 12) => a.every((v, i) => Math.abs(v - b[i]!) <= by);
const isRim = (colour: Rgb) => near(colour, OUTCOME_COLOURS.failed);

/** The pinhole camera in closed form: 60° across, 4 : 3. */
function project({ camera }: Standpoint, p: Vec3): readonly [number, number] {
  const d = sub(p, camera.eye);
  const depth = dot(d, camera.direction);
  const k = PICTURE.width / 2 / Math.tan(Math.PI / 6) / depth;
  return [
    PICTURE.width / 2 + k * dot(d, cross(camera.direction, camera.up)),
    PICTURE.height / 2 - k * dot(d, camera.up),
  ];
}

let reviewed: Reviewed;
let scene: Scene;
let place: Place;
beforeAll(async () => {
  reviewed = await reviewOneWall();
  scene = sceneOf(reviewed.federation);
  place = placeOf(reviewed.report.penetrations[0]!, scene);
});
const world = (p: Vec3): Vec3 => sub(p, scene.origin);

describe('the picture of one penetration', () => {
  it('shows duct, opening and wall where a pinhole camera has them', () => {
    const standpoint = standpointFor(place, scene, null);
    const picture = pictureOf(drawSnapshot(place, standpoint, scene, LABEL));
    const face = standpoint.facing * 64;
    // The opening of fixtures/cases/base.ts: 700 × 500 about 2990, 1980, in a wall of 128 mm.
    const corners = [-350, 350].flatMap((x) => [-250, 250].map((z): Vec3 => world([2990 + x, face, 1980 + z])));
    for (const corner of corners) {
      const [x, y] = project(standpoint, corner);
      const around = [-3, -2, -1, 0, 1, 2, 3].flatMap((dx) =>
        [-3, -2, -1, 0, 1, 2, 3].map((dy) => picture.at(x + dx, y + dy)),
      );
      expect(around.some(isRim), `rim at ${x}, ${y}`).toBe(true);
    }
    // The duct's cut end, 600 × 400 about 3000, 2000: one dark face, whose box is a sensible part of the picture.
    const cut = standpoint.planes[0]!.at[1] + scene.origin[1];
    const end = (x: number, z: number) => project(standpoint, world([3000 + x * 300, cut, 2000 + z * 200]));
    const middle = picture.at(...end(0, 0));
    for (const x of [-0.8, 0, 0.8])
      for (const z of [-0.8, 0.8])
        expect(isRim(picture.at(...end(x, z))) || near(picture.at(...end(x, z)), middle, 2)).toBe(true);
    const [left, right, top, bottom] = [end(-1, 0)[0], end(1, 0)[0], end(0, 1)[1], end(0, -1)[1]];
    const share = Math.abs((right - left) * (bottom - top)) / (PICTURE.width * PICTURE.height);
    expect(share).toBeGreaterThan(0.03);
    expect(share).toBeLessThan(0.4);
    // Wall beside, page above it.
    const wall = picture.at(...project(standpoint, world([2000, face, 1500])));
    expect(near(wall, middle, 20)).toBe(false);
    expect(near(wall, PAGE, 8)).toBe(false);
    expect(
      wall.every((v) => v > 190),
      'the wall is light',
    ).toBe(true);
    // Through the gap below the duct, 70 mm high, the wall is open: the face of the opening shows.
    const reveal = picture.at(...project(standpoint, world([2800, 0, 1735])));
    expect(near(reveal, wall, 8)).toBe(false);
  });

  it('is the same bytes again, and other bytes for another tag, outcome or stamp', () => {
    const standpoint = standpointFor(place, scene, null);
    const draw = (change: object) => drawSnapshot(place, standpoint, scene, { ...LABEL, ...change });
    expect(draw({})).toEqual(draw({}));
    for (const change of [{ tag: 'K7F2-8' }, { outcome: 'cantTell' }, { stamp: 'DEMONSTRATION DATA' }])
      expect(draw(change)).not.toEqual(draw({}));
  });

  it('tells the outcomes apart without colour', () => {
    const standpoint = standpointFor(place, scene, null);
    const shapes = OUTCOMES.map((outcome) => {
      const picture = pictureOf(drawSnapshot(place, standpoint, scene, { ...LABEL, outcome }));
      let shape = '';
      for (let y = 0; y < PICTURE.height; y += 2)
        for (let x = 0; x < PICTURE.width; x += 2)
          shape += near(picture.at(x, y), OUTCOME_COLOURS[outcome]) ? '#' : ' ';
      return shape;
    });
    expect(new Set(shapes).size).toBe(OUTCOMES.length);
  });
});

describe('where one stands', () => {
  const aside = (standpoint: Standpoint) => dot(sub(standpoint.camera.eye, place.frame.origin), place.frame.x);
  const above = (standpoint: Standpoint) => dot(sub(standpoint.camera.eye, place.frame.origin), place.frame.y);

  it('is where the side that failed is not behind the duct', () => {
    expect(aside(standpointFor(place, scene, 'left'))).toBeLessThan(-200);
    expect(aside(standpointFor(place, scene, 'right'))).toBeGreaterThan(200);
    expect(above(standpointFor(place, scene, 'top'))).toBeGreaterThan(200);
    expect(above(standpointFor(place, scene, 'bottom'))).toBeLessThan(-200);
  });

  it.each([1, -1])('is the free side of the wall (%d is built up)', async (built) => {
    const { federation, report } = await reviewOneWall({}, (b) => {
      b.duct({
        name: 'In the way',
        from: [0, built * 1200, 2000],
        to: [5000, built * 1200, 2000],
        width: 600,
        height: 1500,
      });
    });
    const busy = sceneOf(federation);
    const through = report.penetrations.find((p) => p.duct.name === 'Duct A')!;
    const there = placeOf(through, busy);
    const { facing } = standpointFor(there, busy, null);
    expect(Math.sign(facing * there.frame.z[1])).toBe(-built);
  });

  it('a spot on a wall without a penetration is looked at squarely from in front', () => {
    const wall = reviewed.federation.barriers[0]!;
    const spot = placeOn([wall], [1000, 0, 1000], scene)!;
    expect(Math.abs(spot.frame.z[1])).toBeCloseTo(1, 9);
    expect(spot.frame.y).toEqual([0, 0, 1]);
    expect(dot(cross(spot.frame.x, spot.frame.y), spot.frame.z)).toBeCloseTo(
      dot(cross(place.frame.x, place.frame.y), place.frame.z),
      9,
    );
    const standpoint = standpointFor(spot, scene, null);
    const target = add(spot.frame.origin, scale(spot.frame.z, standpoint.facing * 100));
    const [x, y] = project(standpoint, target);
    expect(Math.hypot(x - PICTURE.width / 2, y - PICTURE.height / 2)).toBeLessThan(1);
    expect(pictureOf(drawSnapshot(spot, standpoint, scene, LABEL)).count((c) => !near(c, PAGE, 4))).toBeGreaterThan(
      50_000,
    );
    expect(placeOn([], [0, 0, 0], scene)).toBeUndefined();
  });
});

describe('every case', () => {
  it.each(CASES)('$name is seen', async ({ files }) => {
    const { federation, report } = await review(
      files.map((file) => ({ name: file.name, bytes: new TextEncoder().encode(file.text) })),
    );
    const [penetration] = report.penetrations;
    if (!penetration) return; // cases of what is no penetration: nothing to draw
    const cases = sceneOf(federation);
    const there = placeOf(penetration, cases);
    const standpoint = standpointFor(there, cases, null);
    expect([...standpoint.camera.eye, ...standpoint.camera.direction].every(Number.isFinite)).toBe(true);
    const counted = (seen: Place) => {
      const { colour } = drawPlace(seen, standpoint, cases, LABEL);
      let [rim, drawn] = [0, 0];
      for (let i = 0; i < colour.length; i += 3) {
        if (colour[i] === OUTCOME_COLOURS.failed[0] && colour[i + 1] === OUTCOME_COLOURS.failed[1]) rim++;
        if (colour[i] !== PAGE[0]) drawn++;
      }
      return { rim, drawn };
    };
    const [whole, plate] = [counted(there), counted({ ...there, rim: [] })];
    // More than the plate with its mark and words, which is there without a rim too.
    expect(whole.rim - plate.rim).toBeGreaterThan(300);
    expect(whole.drawn).toBeGreaterThan(200_000);
  });
});
