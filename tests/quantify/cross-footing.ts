/** That a take-off adds up: pieces to penetrations and runs, to storeys, to systems, to the project. */
import { expect } from 'vitest';
import { DECIMALS, QUANTITIES, type Quantity, type Takeoff } from '../../src/quantify/takeoff.js';

/** Exactly, and apart from the program: in decimals of BigInt. */
export function exact(values: readonly (number | null)[], name: Quantity): string {
  const known = values.filter((value) => value !== null);
  const units = known.reduce((sum, value) => sum + BigInt(value.toFixed(DECIMALS[name]).replace('.', '')), 0n);
  return known.length === 0 ? 'none' : String(units);
}

/** Each row makes the whole project, whichever way it is added up. */
const WAYS = [['penetration', 'run'], ['storey'], ['system'], ['project']];

export function expectCrossFooting({
  items,
  materials,
  totals,
}: Pick<Takeoff, 'items' | 'materials' | 'totals'>): void {
  for (const { id: material } of materials) {
    const own = items.filter((one) => one.material === material);
    for (const name of QUANTITIES) {
      const values = own.map((one) => one[name]);
      const expected = exact(values, name);
      const unknown = values.filter((value) => value === null).length;
      for (const way of WAYS) {
        const sums = totals.filter((one) => way.includes(one.by) && one.material === material);
        const sum = exact(
          sums.map((one) => one[name]),
          name,
        );
        expect(sum, `${material}, ${name} by ${way.join(' and ')}`).toBe(expected);
        // What is not known is counted once in each way of adding up, too; what does not apply, never.
        const missing = sums.flatMap((one) => one.unknownIn).filter((one) => one.quantity === name);
        const says = missing.reduce((before, one) => before + one.items, 0);
        expect(expected === 'none' ? [unknown, 0] : [unknown]).toContain(says);
      }
    }
  }
}
