/** Materials and items made by hand. */
import type { Material, TakeoffItem } from '../../src/quantify/takeoff.js';

export const aMaterial = (given: Partial<Material> & Pick<Material, 'id' | 'kind' | 'measure'>): Material => ({
  name: given.id,
  testedSystem: null,
  status: null,
  ...given,
});

export const BLANKET = aMaterial({
  id: 'blanket-38',
  kind: 'blanket',
  measure: 'm2',
  name: 'Illustrative blanket A, layer of 38 mm, 128 kg/m³',
  testedSystem: 'demonstration-blanket',
  status: 'demonstration',
});
export const PIN = aMaterial({ id: 'pin-75', kind: 'pin', measure: 'pieces', name: 'Pin 75 mm' });
export const SEALANT = aMaterial({ id: 'sealant', kind: 'sealant', measure: 'l', name: 'Sealant' });
export const ANGLE = aMaterial({ id: 'angle-40x40', kind: 'angle', measure: 'm', name: 'Angle 40 x 40 x 1.5' });
export const TAPE = aMaterial({ id: 'tape', kind: 'tape', measure: 'm', name: 'Tape' });

/** At penetration P-0001 where no place is given. Nothing of it is known but what is given. */
export const anItem = (given: Partial<TakeoffItem> & Pick<TakeoffItem, 'id' | 'material'>): TakeoffItem => ({
  penetration: given.run === undefined ? 'P-0001' : null,
  run: null,
  storey: 'storey-1',
  system: 'KX',
  element: null,
  what: 'a piece',
  length: null,
  width: null,
  formula: 'row',
  source: 'common practice, no source',
  pieces: 1,
  lengthM: null,
  areaM2: null,
  volumeL: null,
  massKg: null,
  cost: null,
  hours: null,
  labourCost: null,
  ...given,
});
