/** Whether an access panel is one that a tested system was tested with. */
import type { FactObject } from './fact-schema.js';
import type { TestedSystem } from './tested-system.js';

/** Undefined where the document says nothing of panels, or where what its limits go by is not known. */
export function isTestedPanel({ accessPanels }: TestedSystem, panel: FactObject): boolean | undefined {
  if (!accessPanels) return undefined;
  const { allowed, widthAtMost, heightAtMost, sides, clearOfPenetration } = accessPanels;
  if (!allowed) return false;
  const { side } = panel;
  const within = (name: string, is: (value: number) => boolean): boolean | undefined => {
    const value = panel[name];
    return typeof value === 'number' ? is(value) : undefined;
  };
  const met = [
    widthAtMost === undefined || within('width', (width) => width <= widthAtMost),
    heightAtMost === undefined || within('height', (height) => height <= heightAtMost),
    sides === undefined || (side === undefined ? undefined : sides.some((one) => one === side)),
    clearOfPenetration === undefined || within('toBarrier', (distance) => distance >= clearOfPenetration),
  ];
  return met.includes(false) ? false : met.includes(undefined) ? undefined : true;
}
