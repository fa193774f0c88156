import type { TestedDamperDocument } from './tested-damper.js';
import { requireProof, requireTables } from './tested-system-sense.js';
import type { YamlSource } from './yaml-source.js';

/** Refuses what each field allows by itself but what makes no sense together. */
export function requireDamperSense(source: YamlSource, damper: TestedDamperDocument): void {
  requireProof(source, damper);
  requireTables(source, [], damper);
  const { sizes, barriers } = damper.scope;
  if (!sizes.rectangular && !sizes.circular) {
    throw source.errorAt(['scope', 'sizes'], 'no size was given for any shape; add rectangular or circular');
  }
  for (const [i, row] of barriers.entries()) {
    for (const [j, earlier] of barriers.slice(0, i).entries()) {
      const isSame =
        earlier.construction === row.construction &&
        earlier.thicknessAtLeast === row.thicknessAtLeast &&
        earlier.kinds.some((kind) => row.kinds.includes(kind));
      if (!isSame) continue;
      throw source.errorAt(
        ['scope', 'barriers', i],
        `row ${i + 1} and row ${j + 1} are about the same barrier: ${row.construction} of ${row.thicknessAtLeast} mm; keep one`,
      );
    }
  }
  for (const [i, { gives, unknown, misses }] of damper.examples.entries()) {
    if (gives || unknown || misses) continue;
    throw source.errorAt(['examples', i], 'an example expects something: gives, unknown or misses');
  }
}
