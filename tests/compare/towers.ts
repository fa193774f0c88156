/**
 * Buildings made to mislead: storeys alike, in each a row of ducts alike, 300 mm from axis to axis, through walls that
 * all have one name, as ducts and walls have that are named by their type. Nothing but the place tells them apart.
 */
import { ModelBuilder } from '../../fixtures/model-builder.js';
import { deleted, type Edit, moved, together } from '../reexport.js';
import type { File } from './revisions.js';

const [STOREYS, ROW, PITCH, HEIGHT] = [5, 14, 300, 3500];

interface Options {
  /** Two walls, 2.4 m apart, that every duct passes. */
  readonly walls: 1 | 2;
  /** By type, so that names tell nothing; or each its own. */
  readonly named: boolean;
  /** Of the rows, along the walls. */
  readonly shift?: number;
}

function tower({ walls, named, shift = 0 }: Options): File[] {
  const architecture = new ModelBuilder({ fileName: 'architecture.ifc' });
  const services = new ModelBuilder({ fileName: 'services.ifc' });
  for (let s = 0; s < STOREYS; s++) {
    const base = s * HEIGHT;
    for (const file of [architecture, services]) file.storey(`Storey ${s + 1}`, base);
    for (let w = 0; w < walls; w++) {
      const y = w * 2400;
      const name = named ? `Wall ${s + 1}-${w + 1}` : 'Basic wall 128';
      const wall = architecture.wall({
        ...{ name, from: [0, y], to: [ROW * PITCH + 600, y], thickness: 128, height: 3000, rating: '-/60/60' },
      });
      for (let d = 0; d < ROW; d++)
        architecture.opening(wall, { centre: [600 + shift + d * PITCH, y, base + 2500], width: 240, height: 190 });
    }
    for (let d = 0; d < ROW; d++) {
      const x = 600 + shift + d * PITCH;
      const name = named ? `Duct ${s + 1}-${d + 1}` : 'Rectangular duct 200 x 150';
      const ends = { from: [x, -1000, base + 2500], to: [x, 3400, base + 2500] } as const;
      services.duct({ name, ...ends, width: 200, height: 150, system: 'SA' });
    }
  }
  return [
    { name: 'architecture.ifc', text: architecture.toString() },
    { name: 'services.ifc', text: services.toString() },
  ];
}

type Case = readonly [what: string, files: readonly File[], edits: { readonly [file: string]: Edit }];

/** The edit finds the first product of a name: in the tower without names, one of the lowest storey. */
export function towers(): Case[] {
  const bare = tower({ walls: 2, named: false });
  const named = tower({ walls: 2, named: true });
  const single = tower({ walls: 1, named: false });
  const duct = 'Rectangular duct 200 x 150';
  const services = (edit: Edit) => ({ 'services.ifc': edit });
  const architecture = (edit: Edit) => ({ 'architecture.ifc': edit });
  const wallMoved = (name: string, by: number) => architecture(moved(name, [0, by, 0]));
  return [
    ['140 crossings alike', bare, {}],
    ['alike, one duct deleted', bare, services(deleted(duct))],
    ['alike, three ducts deleted', bare, services(deleted(duct, duct, duct))],
    ['alike, one of two walls moved by 300', bare, wallMoved('Basic wall 128', 300)],
    ['alike, one wall moved by 900', single, wallMoved('Basic wall 128', -900)],
    ['alike, a duct moved to where nobody else is', bare, services(moved(duct, [-150, 0, 40]))],
    [
      'named, a wall moved, ducts deleted, one moved',
      named,
      {
        ...wallMoved('Wall 2-1', 250),
        ...services(together(deleted('Duct 1-3', 'Duct 4-14'), moved('Duct 3-1', [0, 0, -60]))),
      },
    ],
  ];
}

/** GlobalIds go by names and order, so a tower built elsewhere has those of the one it replaces. */
export function traps(): Case[] {
  const become = (files: readonly File[]) => Object.fromEntries(files.map(({ name, text }) => [name, () => text]));
  const rows = (named: boolean, shift: number): Case => [
    `rows ${named ? 'named' : 'alike'}, shifted by ${shift}`,
    tower({ walls: 1, named }),
    become(tower({ walls: 1, named, shift })),
  ];
  return [rows(false, PITCH / 2), rows(false, 200), rows(false, 250), rows(true, 250), rows(true, PITCH)];
}
