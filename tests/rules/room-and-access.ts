/** What stands beside the ducts of runs, and how they are reached for cleaning: near and far, for tests of all checks. */
import type { Clearance, RunAccess } from '../../src/model.js';
import { clearance } from './factories.js';

/** A soffit too near, a beam that burns, a pipe of which nothing tells whether it does. */
export const BESIDE: readonly Clearance[] = [
  clearance({ distance: 5 }),
  clearance({
    distance: 300,
    side: 'left',
    obstacle: { globalId: 'B1', what: 'obstacle', kind: 'beam', combustible: true },
  }),
  clearance({
    distance: 60,
    side: 'bottom',
    obstacle: { globalId: 'B2', what: 'service', kind: 'pipe', combustible: null },
  }),
];

/** Studs too near, where no three-sided detail was tested. */
export const BESIDE_STUDS: readonly Clearance[] = [
  clearance({ distance: 40, side: 'right', obstacle: { globalId: 'W9', kind: 'wall', construction: 'steelStud' } }),
];

const at = [0, 0, 0] as const;
const ref = { model: 'm1', globalId: 'A1', name: 'Access panel 1', at };
const stop = { ...ref, kind: 'panel' } as const;

/** Panels right at the barrier, clear of the build-up, and where the duct passes none; ways and bends near and far. */
export const REACHED: RunAccess = {
  ...{ run: 'R-001', systemType: null, systemNames: ['Kitchen exhaust'], complete: true },
  panels: [{ penetration: 'P-0001', distance: 100 }, { penetration: 'P-0001', distance: 900 }, null].map((barrier) => ({
    ...{ ...ref, evidence: 'name', duct: { model: 'm1', globalId: 'D1' }, side: 'top', width: 305, height: 305 },
    ...{ toEdge: 50, chainage: 0, barrier },
  })),
  gaps: [2000, 9000].map((length) => ({
    ...{ from: stop, to: stop, length, level: length },
    path: [0, length].map((chainage) => ({ at, chainage, free: true })),
  })),
  bends: [500, 9000].map((toAccess) => ({ ...ref, angle: 90, toAccess, nearest: stop })),
};

/** What a project may ask for itself. */
export const ASKED = [{ spacing: 3000, fromBend: 1000, source: 'a specification' }];
