/** A report with one penetration of which every kind of part is counted, and one that failed; names as they are given. */
import { putTogether } from '../../src/quantify/put-together.js';
import type { MaterialKind, Measure, TakeoffItem } from '../../src/quantify/takeoff.js';
import type { Report } from '../../src/report/schema.js';
import { aMaterial, anItem } from '../quantify/made-items.js';
import { aBarrier, aDuct, aFinding, aPenetration, aReport, level1, onPenetration, stated } from './factories.js';

const PARTS: readonly (readonly [MaterialKind, Measure, Partial<TakeoffItem>])[] = [
  ['packing', 'l', { volumeL: 8.941 }],
  ['angle', 'm', { pieces: 4, length: 680, lengthM: 2.72 }],
  ['screw', 'pieces', { pieces: 32 }],
  ['boardCollar', 'm2', { pieces: 4, length: 800, width: 100, lengthM: 3.2, areaM2: 0.32 }],
  ['blanket', 'm2', { pieces: 2, length: 3012, width: 200.5, lengthM: 6.024, areaM2: 1.2048 }],
  ['pin', 'pieces', { pieces: 20 }],
  ['strap', 'm', { pieces: 1, length: 2008, lengthM: 2.008 }],
  ['sealant', 'l', { pieces: 2, lengthM: 5.824, volumeL: 0.419 }],
  ['sealant', 'l', { pieces: 2, lengthM: 5.6, volumeL: null }],
];

export function builtReport({ name, long = 1 }: { readonly name?: string; readonly long?: number } = {}): Report {
  const named = (usual: string): string => name ?? usual;
  const parts = Array.from({ length: long }, () => PARTS).flat();
  const at = (n: number) =>
    aPenetration(n, {
      barrier: aBarrier({ name: named('W-12'), rating: stated }),
      duct: aDuct({ globalId: `duct-${n}`, name: named(`Duct ${n}`), system: named('KX') }),
      storey: { ...level1, name: named('Level 1') },
      place: { grid: named('A / 1'), rooms: [null, { model: 'm2', globalId: 'room-1', name: named('Corridor') }] },
    });
  const takeoff = putTogether(
    {
      materials: PARTS.slice(0, -1).map(([kind, measure]) =>
        aMaterial({ id: kind, kind, measure, name: named(`${kind} as delivered`) }),
      ),
      storeys: [{ globalId: level1.globalId, name: named('Level 1'), elevation: 0 }],
      items: parts.map(([kind, , quantities], i) => ({
        ...anItem({ id: `Q-${String(i + 1).padStart(5, '0')}`, material: kind }),
        ...{ what: named(`${kind}, on both faces`) },
        ...quantities,
      })),
      uncounted: [
        {
          ...{ penetration: 'P-0001', run: null, storey: level1.globalId, system: named('KX') },
          ...{ material: 'tape', what: named('tape'), because: named('nobody says how wide it is') },
        },
      ],
      ...{ cutting: [], allowances: [], packLitres: 0.6 },
    },
    undefined,
  );
  return aReport({
    penetrations: [at(2), at(1)],
    findings: [
      aFinding('gap', {
        subject: onPenetration(2),
        message: named('The gap is too wide.'),
        remedy: named('Close it.'),
      }),
      aFinding('rating', { subject: onPenetration(2), outcome: 'cantTell', message: named('Who knows.') }),
    ],
    takeoff,
  });
}
