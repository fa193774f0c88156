/** Which intrusions are one crossing, and how far it goes; on a wall 100 mm thick, its faces 50 mm from its middle. */
import { describe, expect, it } from 'vitest';
import { GrossBody } from '../../src/find/gross-body.js';
import { type Group, groupIntrusions, withoutRepeats } from '../../src/find/groups.js';
import type { Intrusion } from '../../src/find/intrusions.js';
import { readPieces } from '../../src/find/pieces.js';
import { type Plate, plate } from '../../src/find/plates.js';
import { PortLinks } from '../../src/find/port-links.js';
import { rectangle } from '../../src/geometry/polygon.js';
import type { AirElement, Vec2, Vec3 } from '../../src/model.js';
import { FACE_INSET } from '../../src/tolerances.js';
import { aBarrier, aDuct, along, between, taper, upright } from './elements.js';

const WALL = new GrossBody(aBarrier({ bodies: [upright(between([-3000, -50], [3000, 50]), 0, 3000)] }));
const thick = (thickness: number, middle = 0): Plate =>
  plate([0, 1, 0], [[middle - thickness / 2, middle + thickness / 2]], 'wall');
const PLATE = thick(100);

interface Part {
  readonly size?: Vec2;
  /** Of its middle, along the wall and upwards. */
  readonly off?: Vec2;
  readonly from?: number;
  readonly to?: number;
  readonly plate?: Plate;
  readonly contained?: boolean;
  readonly more?: Partial<AirElement>;
}
/** A duct from south to north; what of it lies in the wall is what the wall's faces leave of it. */
function part({
  size = [400, 300],
  off = [0, 0],
  from = -1000,
  to = 1000,
  plate = PLATE,
  contained = true,
  more,
}: Part) {
  const outline = rectangle(size[1], size[0]);
  const element = aDuct({ bodies: [along(outline, from, to, [off[0], 1500 + off[1]])], ...more });
  const [piece] = readPieces([element]);
  const [half, middle] = [plate.thickness / 2, plate.frame.origin[1]];
  const [low, high] = [Math.max(from - middle, -half), Math.min(to - middle, half)];
  return { piece: piece!, plate, low, high, contained } satisfies Intrusion;
}
const grouped = (parts: readonly Part[]) => {
  const intrusions = parts.map(part);
  return groupIntrusions(WALL, intrusions, new PortLinks(intrusions.map(({ piece }) => piece.element)));
};
const count = (...parts: readonly Part[]) => [grouped(parts).length, grouped(parts.toReversed()).length];

describe('two ducts that each pass the whole wall', () => {
  it.each<[string, Part, Part, 1 | 2]>([
    ['one in the middle of the other', {}, { size: [200, 150] }, 1],
    ['one less than a quarter of its size off', {}, { size: [100, 100], off: [20, 14.9] }, 1],
    ['one a quarter of its size off', {}, { size: [100, 100], off: [20, 15] }, 2],
    ['the least side counts: of the first, along', { size: [100, 400] }, { size: [500, 400], off: [0, 24] }, 1],
    ['… too far', { size: [100, 400] }, { size: [500, 400], off: [0, 26] }, 2],
    ['… of both, none that is larger', { size: [400, 120] }, { size: [400, 500], off: [26, 0] }, 1],
    ['side by side, clashing', {}, { off: [200, 0] }, 2],
    ['but for contact at both faces', {}, { off: [200, 0], from: -49, to: 49 }, 2],
    ['but for more: what clashes with it is one with it', {}, { off: [200, 0], from: -48.9, to: 49 }, 1],
  ])('are two crossings, unless one sleeves the other: %s', (_, a, b, expected) => {
    expect(count(a, b)).toEqual([expected, expected]);
  });
});

describe('ducts that end in the wall', () => {
  const west: Part = { to: 0 };
  it.each<[string, Part, Part, 1 | 2]>([
    ['that meet', west, { from: 0 }, 1],
    ['a joint apart', west, { from: 10 }, 1],
    ['further apart', west, { from: 10.1 }, 2],
    ['that overlap', west, { from: -20 }, 1],
    ['side by side, in contact', west, { from: 0, off: [401, 0] }, 1],
    ['side by side, apart', west, { from: 0, off: [401.1, 0] }, 2],
    ['one over the other, in contact', west, { from: 8, off: [0, 301] }, 1],
    ['one over the other, apart', west, { from: 8, off: [0, 301.1] }, 2],
    ['one beside a duct that passes', {}, { from: -100, to: 0, off: [500, 0] }, 2],
  ])('%s', (_, a, b, expected) => {
    expect(count(a, b)).toEqual([expected, expected]);
  });

  it('are one wherever they are if the files say that they are joined', () => {
    const port = (globalId: string, connectedTo: string) => [{ globalId, at: [0, 0, 1500] as Vec3, connectedTo }];
    const a: Part = { to: -30, more: { globalId: 'A', ports: port('p', 'q') } };
    const b: Part = { from: 30, off: [900, 0], more: { globalId: 'B', ports: port('q', 'p') } };
    expect(count(a, b)).toEqual([1, 1]);
    expect(count(a, { ...b, plate: thick(100, 500) })).toEqual([2, 2]);
  });

  it('that run obliquely meet by the sections at their ends', () => {
    // As far along the wall as into it, 100 mm wide: 495 mm off, at the faces, they lie beside each other.
    const leaning = (from: number, to: number, x: number): Part => {
      const { frame, ...rest } = along(rectangle(100, 100), from, to, [x, 1500]);
      const body = { ...rest, frame, sweep: [to - from, to - from, 0] as Vec3 };
      return { from, to, plate: thick(1000), more: { bodies: [body] } };
    };
    expect(count(leaning(-500, -5, -495), leaning(5, 500, 0))).toEqual([1, 1]);
  });

  it('meet where one leg of what has two does', () => {
    const legs = (from: number, to: number, off: number): Part => {
      const bodies = [0, off].map((x) => along(rectangle(300, 400), from, to, [x, 1500]));
      return { from, to, more: { bodies } };
    };
    expect(count(legs(-1000, 0, 900), { from: 0 })).toEqual([1, 1]);
    expect(count(legs(-1000, 0, 900), legs(0, 1000, -900))).toEqual([1, 1]);
  });

  it('one after the other make one crossing, wherever the wall stands', () => {
    const chain = (y: number): Part[] => {
      const plate = thick(100, y);
      return [
        { plate, to: y - 20 },
        { plate, from: y - 15, to: y + 15 },
        { plate, from: y + 20, to: y + 1000 },
      ];
    };
    expect([count(...chain(0)), count(...chain(5000))]).toEqual([
      [1, 1],
      [1, 1],
    ]);
  });

  it('a third that meets two makes one of all', () => {
    const third: Part = { from: -5, to: 5 };
    expect(grouped([{ to: -10 }, { from: 10 }, third]).map(({ intrusions }) => intrusions.length)).toEqual([3]);
    expect(grouped([{ to: -10 }, { from: 10 }]).map(({ intrusions }) => intrusions.length)).toEqual([1, 1]);
  });
});

it.each<[string, Plate, 1 | 2]>([
  ['as thick but for contact', thick(101.9), 1],
  ['thicker', thick(102), 2],
  ['thinner', thick(98), 2],
  ['in one place but for contact', thick(100, 0.9), 1],
  ['beside it', thick(100, 1), 2],
  ['before it', thick(100, -1), 2],
  ['askew by less than noise', { ...PLATE, frame: { ...PLATE.frame, z: [0.008, 1, 0] } }, 1],
  ['askew', { ...PLATE, frame: { ...PLATE.frame, z: [0.01, 1, 0] } }, 2],
])('a plate is the same as another: %s', (_, other, expected) => {
  expect(count({ to: 5 }, { from: -5, plate: other })).toEqual([expected, expected]);
});

describe('how far a crossing goes', () => {
  /** Small, so that short pieces are longest along the way that air goes. */
  const crossing = (...parts: readonly Part[]) =>
    grouped(parts.map((one) => ({ size: [80, 60], ...one }))).map((group) => group.crossing);
  it.each<[string, readonly Part[], Group['crossing']]>([
    ['from face to face', [{ from: -50, to: 50 }], 'through'],
    ['but for contact', [{ from: -49, to: 49 }], 'through'],
    ['not to the first face', [{ from: -48.9, to: 50 }], 'endsInside'],
    ['not to the last face', [{ from: -50, to: 48.9 }], 'endsInside'],
    ['a piece out at each side, a joint between', [{ to: -5 }, { from: 5 }], 'through'],
    ['out at one side only', [{ to: -5 }, { from: 5, to: 40 }], 'endsInside'],
    ['what leaves by another face', [{ contained: false }], 'partial'],
    ['of which one leaves by another face', [{ to: 0 }, { from: 0, contained: false }], 'partial'],
  ])('%s', (_, parts, expected) => {
    expect([crossing(...parts), crossing(...parts.toReversed())]).toEqual([[expected], [expected]]);
  });

  it.each([
    [10, 'through'],
    [10.1, 'endsInside'],
  ])('pieces that are joined by ports alone, %s mm apart', (gap, expected) => {
    const ported = (globalId: string, own: string, other: string) => {
      return { globalId, ports: [{ globalId: own, at: [0, 0, 1500] as Vec3, connectedTo: other }] };
    };
    const [a, b] = [
      { to: -20, more: ported('A', 'p', 'q') },
      { from: -20 + gap, more: ported('B', 'q', 'p') },
    ];
    expect([crossing(a, b), crossing(b, a)]).toEqual([[expected], [expected]]);
  });

  /** At 45 degrees on plan, 400 mm wide, cut square where so much of its section has come out at the northern face. */
  const oblique = (share: number) => {
    const way: Vec3 = [Math.SQRT1_2, Math.SQRT1_2, 0];
    const end = (50 - FACE_INSET) / Math.SQRT1_2 - 200 + 400 * share;
    const frame = {
      origin: [-1000 * way[0], -1000 * way[1], 1500],
      x: [0, 0, 1],
      y: [way[1], -way[0], 0],
      z: way,
    } as const;
    const sweep: Vec3 = [(1000 + end) * way[0], (1000 + end) * way[1], 0];
    const more = { bodies: [{ kind: 'prism', frame, outline: rectangle(300, 400), voids: [], sweep } as const] };
    return part({ more });
  };
  it.each([
    [1.5, 'through'],
    [0.985, 'through'],
    [0.975, 'endsInside'],
    [0.5, 'endsInside'],
  ])('an oblique duct comes out where its section does: %s of it', (share, expected) => {
    const [group] = groupIntrusions(WALL, [oblique(share)], new PortLinks([]));
    expect(group!.crossing).toBe(expected);
  });
});

it('of what is not straight the section is not known, so it comes out where any of it does', () => {
  const bodies = [taper(-1000, 1000, [600, 450], [200, 150])];
  expect(grouped([{ more: { bodies } }]).map((group) => group.crossing)).toEqual(['through']);
});

describe('one crossing seen against several faces', () => {
  const turned = (degrees: number, at = 0, thickness = 100): Plate => {
    const [s, c] = [Math.sin((degrees * Math.PI) / 180), Math.cos((degrees * Math.PI) / 180)];
    const { frame } = plate([s, c, 0], [[-50, 50]], 'wall');
    return { frame: { ...frame, origin: [0, at, 1500] }, thickness };
  };
  const through = part({ from: -3000, to: 3000 });
  const view = (plate: Plate, crossing: Group['crossing'] = 'through', intrusion: Intrusion = through): Group => {
    return { gross: WALL, plate, crossing, intrusions: [{ ...intrusion, plate, low: -50, high: 50 }] };
  };
  const within = (plate: Plate, low: number, high: number): Group => {
    const { intrusions, ...rest } = view(plate);
    return { ...rest, intrusions: intrusions.map((one) => ({ ...one, low, high })) };
  };
  const other = part({ from: -3000, to: 3000, off: [900, 0] });
  const withAnother = (group: Group): Group => {
    return { ...group, intrusions: [...group.intrusions, { ...other, plate: group.plate }] };
  };
  const kept = (...groups: readonly Group[]) => {
    const [one, other] = [withoutRepeats(groups), withoutRepeats(groups.toReversed())];
    expect(new Set(one)).toEqual(new Set(other));
    return one.map((group) => groups.indexOf(group)).sort();
  };

  it.each<[string, Group, Group, readonly number[]]>([
    ['the squarer counts', view(turned(0)), view(turned(30)), [0]],
    ['what goes through before what is squarer', view(turned(0), 'partial'), view(turned(30)), [1]],
    ['partial before ending inside', view(turned(30), 'partial'), view(turned(0), 'endsInside'), [0]],
    ['of two as square the thinner', view(turned(30)), view(turned(-30, 0, 99)), [1]],
    ['near each other', view(turned(0)), view(turned(30, 399)), [0]],
    ['further apart than four thicknesses', view(turned(0)), view(turned(30, 401)), [0, 1]],
    ['two layers of one wall', view(turned(0)), view(turned(0.4, 200)), [0, 1]],
    ['along the duct, however far off', view(turned(0)), view(turned(86, 1500)), [0]],
    ['not so far along it', view(turned(0)), view(turned(84, 1500)), [0, 1]],
    ['by the middle of what lies in it', view(turned(0)), within(turned(30, 370), 30, 50), [0]],
    ['… far from it', view(turned(0)), within(turned(30, 395), 30, 50), [0, 1]],
    ['of two pieces, one of which is seen again', withAnother(view(turned(0))), view(turned(30)), [0]],
    ['of which two are seen again', view(turned(0)), withAnother(view(turned(30))), [0]],
    ['of two ducts', view(turned(0)), view(turned(30), 'through', part({})), [0, 1]],
  ])('%s', (_, a, b, expected) => {
    expect(kept(a, b)).toEqual(expected);
  });
});
