/** A page that draws a building of so many elements and says how long that takes; `tests/bench/viewer.ts` opens it. */

import { elementsNear, elementsOf } from '../../../viewer/model/elements.js';
import { ModelView } from '../../../viewer/model/model-view.js';
import { overview, type Standpoint, standpointFor } from '../../../viewer/model/standpoint.js';
import type { FrameTimes } from '../../bench/frame-times.js';
import { benchBuilding } from '../bench-building.js';

/** The region at 1280 × 720. */
const WIDTH = 664;
const HEIGHT = 205;
const GREY = [0.5, 0.5, 0.5] as const;
const COLOURS = {
  ...{ page: [1, 1, 1] as const, sheet: GREY, ink: [0, 0, 0] as const, secondary: GREY, rule: GREY, accent: GREY },
  outcomes: { failed: GREY, cantTell: GREY, passed: GREY, inapplicable: GREY, untested: GREY },
};
/** A penetration of the generated building. */
const PLACE: Parameters<typeof standpointFor>[0] = {
  frame: { origin: [500, 100, 2600], x: [1, 0, 0], y: [0, 0, 1], z: [0, 1, 0] },
  thickness: 200,
  duct: [
    [
      [-300, -200],
      [300, -200],
      [300, 200],
      [-300, 200],
    ],
  ],
  opening: [],
  slope: [0, 0],
  rim: { min: [-330, -230], max: [330, 230] },
};
const NEAR = 4600;
const FRAMES = 15;

async function run(count: number): Promise<FrameTimes> {
  const canvas = document.createElement('canvas');
  canvas.style.width = `${WIDTH}px`;
  canvas.style.height = `${HEIGHT}px`;
  document.body.append(canvas);
  const view = new ModelView(canvas, COLOURS, () => {});
  view.resize(WIDTH, HEIGHT);
  const geometry = benchBuilding(count);
  const elements = elementsOf(geometry);
  const built = await view.load(geometry, elements);
  // Shown, each third with another outcome's mark near it.
  const states = new Uint8Array(2 * elements.nodes.length).map((_, i) => (i % 2 ? 1 + ((i >> 1) % 3) : 1));
  const gl = canvas.getContext('webgl2')!;
  const pixel = new Uint8Array(4);
  // Nothing is drawn before a pixel is read.
  const finish = (): void => gl.readPixels(0, 0, 1, 1, gl.RGBA, gl.UNSIGNED_BYTE, pixel);
  const frames = async ({ pose, cut }: Standpoint): Promise<number> => {
    const near = cut ? elementsNear(elements, PLACE.frame.origin, NEAR) : [];
    view.show({
      ...{ penetration: undefined, side: 'A', cut, states, near, protection: true, proposal: undefined },
      ...{ isHere: () => true, penetrations: [] },
    });
    const times: number[] = [];
    for (let i = 0; i < FRAMES; i++) {
      view.stand({ ...pose, halfHeight: pose.halfHeight * (1 + i * 1e-4) }, false);
      await new Promise((drawn) => requestAnimationFrame(drawn));
      finish();
      const start = performance.now();
      view.frame();
      finish();
      times.push(performance.now() - start);
    }
    return times.sort((a, b) => a - b)[times.length >> 1]!;
  };
  const aspect = WIDTH / HEIGHT;
  const whole = await frames(overview(elements.all, 'front', aspect));
  const free = await frames(standpointFor(PLACE, 'free', 'A', aspect));
  const front = await frames(standpointFor(PLACE, 'front', 'A', aspect));
  return { elements: elements.nodes.length, built, front, free, whole, drawCalls: view.drawCalls };
}

declare global {
  interface Window {
    frameTimes: typeof run;
  }
}
window.frameTimes = run;
