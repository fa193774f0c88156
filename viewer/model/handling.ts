/** Mouse, touch and keys on the canvas: moves and turns the pose, tells where somebody clicked. */
import type { Vec2 } from '../../src/model.js';
import { moved, nearer, type Pose, turned } from './standpoint.js';

export interface Handled {
  readonly pose: () => Pose | undefined;
  /** CSS pixels of the canvas. */
  readonly size: () => Vec2;
  readonly stand: (pose: Pose) => void;
  readonly click: (at: Vec2) => void;
  readonly hover: (at: Vec2) => void;
}

/** Radians of a pixel that is dragged, and of an arrow key. */
const [DRAG, KEY] = [0.006, Math.PI / 24];
/** Share of the picture that shift with an arrow key moves; factor of + and −. */
const [STEP, ZOOM] = [0.1, 1.25];
/** Pixels that a click may slip. */
const SLIP = 5;

/** @returns how to stop listening */
export function handle(canvas: HTMLCanvasElement, on: Handled): () => void {
  const fingers = new Map<number, Vec2>();
  let [slipped, start]: [boolean, Vec2] = [false, [0, 0]];
  const ends = new AbortController();
  const { signal } = ends;

  const change = (by: (pose: Pose) => Pose): void => {
    const pose = on.pose();
    if (pose) on.stand(by(pose));
  };
  const pixel = (pose: Pose): number => (2 * pose.halfHeight) / on.size()[1];
  const drag = (dx: number, dy: number, moves: boolean): void =>
    change((pose) =>
      pose.perspective && !moves
        ? turned(pose, -dx * DRAG, dy * -DRAG)
        : moved(pose, -dx * pixel(pose), dy * pixel(pose)),
    );

  const down = (event: PointerEvent): void => {
    canvas.setPointerCapture(event.pointerId);
    fingers.set(event.pointerId, at(event));
    slipped = fingers.size > 1;
    start = at(event);
  };
  const move = (event: PointerEvent): void => {
    const before = fingers.get(event.pointerId);
    if (!before) {
      on.hover(at(event));
      return;
    }
    const now = at(event);
    if (fingers.size === 2) {
      const [, still] = [...fingers].find(([id]) => id !== event.pointerId)!;
      const span = (p: Vec2): number => Math.max(1, Math.hypot(p[0] - still[0], p[1] - still[1]));
      change((pose) => nearer(pose, span(now) / span(before)));
      drag((now[0] - before[0]) / 2, (now[1] - before[1]) / 2, true);
    } else {
      slipped ||= Math.hypot(now[0] - start[0], now[1] - start[1]) > SLIP;
      if (slipped) drag(now[0] - before[0], now[1] - before[1], event.shiftKey || event.buttons === 4);
    }
    fingers.set(event.pointerId, now);
  };
  const up = (event: PointerEvent): void => {
    const wasDown = fingers.delete(event.pointerId);
    if (wasDown && !slipped && event.type === 'pointerup') on.click(at(event));
  };
  const wheel = (event: WheelEvent): void => {
    event.preventDefault();
    change((pose) => nearer(pose, ZOOM ** (-Math.sign(event.deltaY) * Math.min(1, Math.abs(event.deltaY) / 100))));
  };
  const key = (event: KeyboardEvent): void => {
    const by = keyed(event, on);
    if (!by) return;
    // Arrow keys walk along the barrier elsewhere.
    event.preventDefault();
    event.stopPropagation();
    change(by);
  };
  canvas.addEventListener('pointerdown', down, { signal });
  canvas.addEventListener('pointermove', move, { signal });
  canvas.addEventListener('pointerup', up, { signal });
  canvas.addEventListener('pointercancel', up, { signal });
  canvas.addEventListener('wheel', wheel, { signal, passive: false });
  canvas.addEventListener('keydown', key, { signal });
  return () => ends.abort();
}

const at = (event: PointerEvent): Vec2 => [event.offsetX, event.offsetY];

/** Undefined: a key that means nothing here. */
function keyed(
  { key, shiftKey, ctrlKey, metaKey, altKey }: KeyboardEvent,
  on: Handled,
): ((pose: Pose) => Pose) | undefined {
  if (ctrlKey || metaKey || altKey) return undefined;
  if (key === '+' || key === '=') return (pose) => nearer(pose, ZOOM);
  if (key === '-' || key === '\u2212') return (pose) => nearer(pose, 1 / ZOOM);
  const way = ARROWS[key];
  if (!way) return undefined;
  const [x, y] = way;
  if (shiftKey) return (pose) => moved(pose, x * STEP * 2 * pose.halfHeight, y * STEP * 2 * pose.halfHeight);
  return on.pose()?.perspective ? (pose) => turned(pose, -x * KEY, y * -KEY) : undefined;
}

const ARROWS: { readonly [key: string]: Vec2 } = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};
