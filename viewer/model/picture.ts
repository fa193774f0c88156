/** The canvas of the model region while it stands on the page: loads what draws, follows state, size and theme. */
import type { Vec2, Vec3 } from '../../src/model.js';
import type { ReportFinding } from '../../src/report/schema.js';
import { shownIn, type ViewerState } from '../state/state.js';
import { readColours } from './colours.js';
import { type Elements, elementsOf } from './elements.js';
import type { Geometry } from './geometry.js';
import { handle } from './handling.js';
import { changedElements, changeShown, elementStates, penetrationsShown, storeyShown } from './look.js';
import { snapAt } from './measure.js';
import type { ModelView } from './model-view.js';
import type { Hit } from './pick.js';
import { rimLines } from './rims.js';
import { rayThrough } from './standpoint.js';
import { type Viewpoint, viewpointOf } from './viewpoint.js';

export type Problem = 'noWebGL' | 'lost';

export interface PictureHost {
  readonly state: () => ViewerState;
  /** Something to say has changed. */
  readonly changed: () => void;
  /** The graphics card is back: a new canvas is wanted. */
  readonly restored: () => void;
  /** The picture was drawn. */
  readonly afterFrame: () => void;
  readonly clicked: (at: Vec2) => void;
  readonly hovered: (at: Vec2) => void;
}

/** What decides where one stands; anything else leaves the camera where it is. */
const standsBy = (s: ViewerState): readonly unknown[] => [
  ...[s.selection.barrier, s.selection.side, s.selection.penetration, s.view, shownIn(s)],
];

export class Picture {
  problem: Problem | null = null;
  /** ms that making the meshes took; null: not yet made. */
  builtIn: number | null = null;
  viewpoint: Viewpoint | undefined;
  elements: Elements | undefined;
  view: ModelView | undefined;
  private geometry: Geometry | undefined;
  private states: Uint8Array = new Uint8Array(0);
  private stoodBy: readonly unknown[] = [];
  /** Whether somebody has moved away from where the view would stand. */
  private isMoved = false;
  private readonly ends: (() => void)[] = [];
  private isOver = false;

  constructor(
    private readonly canvas: HTMLCanvasElement,
    private readonly host: PictureHost,
  ) {}

  /** Loads what draws only now: the first picture of the page does not wait for it. */
  async start(): Promise<void> {
    const { canvas } = this;
    // Not the canvas: its own colour changes gradually, see below.
    const probe = canvas.parentElement!;
    const { ModelView } = await import('./model-view.js');
    // Beginning to draw can keep a page without a graphics card busy for a second: all else is shown first.
    await painted();
    if (this.isOver) return;
    try {
      this.view = new ModelView(canvas, readColours(probe), () => this.host.afterFrame());
    } catch {
      // No WebGL here, or it is switched off: the library says so by failing.
      this.problem = 'noWebGL';
      this.host.changed();
      return;
    }
    const sizes = new ResizeObserver(() => this.resize());
    sizes.observe(canvas);
    const listening = new AbortController();
    const { signal } = listening;
    const lost = (event: Event): void => {
      event.preventDefault(); // else it never comes back
      this.problem = 'lost';
      if (this.view) this.view.isLost = true;
      this.host.changed();
    };
    const restored = (): void => this.host.restored();
    canvas.addEventListener('webglcontextlost', lost, { signal });
    canvas.addEventListener('webglcontextrestored', restored, { signal });
    // The canvas has the page's colour: it changes with the theme, and this tells.
    const themed = ({ propertyName }: TransitionEvent): void => {
      if (propertyName === 'color') this.view?.setColours(readColours(probe));
    };
    canvas.addEventListener('transitionend', themed, { signal });
    const handling = handle(canvas, {
      pose: () => this.view?.pose,
      size: () => this.view?.pixels ?? [1, 1],
      stand: (pose) => {
        this.isMoved = true;
        this.view?.stand(pose, false);
      },
      click: (at) => this.host.clicked(at),
      hover: (at) => this.host.hovered(at),
    });
    this.ends.push(
      () => sizes.disconnect(),
      () => listening.abort(),
      handling,
    );
    this.update();
  }

  stop(): void {
    this.isOver = true;
    for (const end of this.ends) end();
    this.view?.dispose();
    this.view = undefined;
  }

  /** After every change of the state. */
  update(): void {
    const { view } = this;
    const state = this.host.state();
    if (!view || !state.geometry) return;
    if (state.geometry !== this.geometry) {
      this.geometry = state.geometry;
      this.elements = elementsOf(state.geometry);
      this.stoodBy = [];
      this.builtIn = null;
      const { geometry } = this;
      void view.load(geometry, this.elements).then((ms) => {
        if (geometry !== this.geometry) return;
        this.builtIn = ms;
        this.host.changed();
      });
    }
    const stands = standsBy(state);
    const isElsewhere = stands.some((one, i) => one !== this.stoodBy[i]);
    if (isElsewhere) this.stand(state, this.stoodBy.length > 0);
    this.stoodBy = stands;
    this.show(state);
  }

  get change(): ReportFinding | undefined {
    const state = this.host.state();
    const change = changeShown(state);
    return change && state.geometry?.proposed.some(({ extras }) => extras.finding === change.id) ? change : undefined;
  }

  pickAt(at: Vec2): Hit | undefined {
    return this.view?.pickAt(at);
  }

  /** Where a click at this pixel means to measure. */
  measureAt(at: Vec2): Vec3 | undefined {
    const { view, elements, viewpoint, geometry } = this;
    if (!view?.pose || !elements || !viewpoint || !geometry) return undefined;
    const isSeen = view.pose.perspective ? [] : viewpoint.near;
    const near = new Set(isSeen);
    const snapped = snapAt(
      {
        ...{ elements, cut: viewpoint.cut, pixel: view.pixel, project: (p: Vec3) => view.project(p) },
        isShown: (id) => this.states[2 * id] !== 0 && (near.size === 0 || near.has(id)),
        rims: viewpoint.penetration ? rimLines(viewpoint.penetration, geometry.origin, viewpoint.side) : [],
      },
      at,
      rayThrough(view.pose, view.pixels, at),
    );
    return snapped?.at ?? this.pickAt(at)?.at;
  }

  private stand(state: ViewerState, gently: boolean): void {
    const { view, elements, geometry } = this;
    if (!view || !elements || !geometry) return;
    const [width, height] = view.pixels;
    this.viewpoint = viewpointOf(state, elements, geometry.origin, width / height);
    this.isMoved = false;
    const isCalm = matchMedia('(prefers-reduced-motion: reduce)').matches;
    view.stand(this.viewpoint.pose, gently && !isCalm);
    this.host.changed();
  }

  private show(state: ViewerState): void {
    const { view, elements, viewpoint } = this;
    const open = shownIn(state);
    if (!view || !elements || !viewpoint) return;
    const proposal = state.proposed ? this.change : undefined;
    this.states = elementStates(elements, state, changedElements(state.geometry, proposal));
    const storey = state.onlyStorey ? storeyShown(state) : null;
    view.show({
      ...{ penetration: viewpoint.penetration, side: viewpoint.side, cut: viewpoint.cut, near: viewpoint.near },
      ...{ states: this.states, protection: state.protection, proposal },
      isHere: (globalId) => storey === null || globalId === null || open?.building.storeyOf(globalId) === storey,
      penetrations: open ? penetrationsShown(open, storey) : [],
    });
  }

  private resize(): void {
    const { clientWidth, clientHeight } = this.canvas;
    if (clientWidth === 0 || clientHeight === 0) return;
    this.view?.resize(clientWidth, clientHeight);
    if (this.stoodBy.length > 0 && !this.isMoved) {
      this.stand(this.host.state(), false);
      this.show(this.host.state());
    }
  }
}

/** When the page has been painted as it stands. */
const painted = (): Promise<void> =>
  new Promise((done) => {
    requestAnimationFrame(() => setTimeout(done));
  });
