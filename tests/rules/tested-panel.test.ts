/** A panel that is taken for a tested one lets fire out of the duct: each limit, at it and just beyond it. */
import { expect, it } from 'vitest';
import { isTestedPanel } from '../../src/rules/tested-panel.js';
import type { TestedSystem } from '../../src/rules/tested-system.js';
import { GOOD } from './proof-read.js';

type Panels = NonNullable<TestedSystem['accessPanels']>;
const LIMITS: Panels = {
  ...{ allowed: true, widthAtMost: 400, heightAtMost: 300, sides: ['top', 'left'], clearOfPenetration: 500 },
};
const PANEL = { width: 400, height: 300, side: 'top', toBarrier: 500 };
const isTested = (panel: object, accessPanels: Panels | undefined = LIMITS) =>
  isTestedPanel({ ...GOOD, accessPanels }, panel as typeof PANEL);

it('is one within all limits, and at each of them', () => {
  expect(isTested(PANEL)).toBe(true);
  expect(isTested({ ...PANEL, width: 399, height: 299, toBarrier: 501, side: 'left' })).toBe(true);
});

it.each([{ width: 400.1 }, { height: 300.1 }, { toBarrier: 499.9 }, { side: 'bottom' }])(
  'is none with %o, whatever else is not known',
  (beyond) => {
    expect(isTested({ ...PANEL, ...beyond })).toBe(false);
    expect(isTested(beyond)).toBe(false);
  },
);

it.each(['width', 'height', 'side', 'toBarrier'])('cannot be told without its %s', (name) => {
  expect(isTested({ ...PANEL, [name]: undefined })).toBeUndefined();
  // Where the document does not limit it nobody asks for it.
  const key = { width: 'widthAtMost', height: 'heightAtMost', side: 'sides', toBarrier: 'clearOfPenetration' }[name]!;
  expect(isTested({ ...PANEL, [name]: undefined }, { ...LIMITS, [key]: undefined })).toBe(true);
});

it('cannot be told where the document says nothing of panels, and is none where it says that there were none', () => {
  expect(isTestedPanel({ ...GOOD, accessPanels: undefined }, PANEL)).toBeUndefined();
  expect(isTested(PANEL, { allowed: false })).toBe(false);
  expect(isTested({}, { allowed: true })).toBe(true);
});
