/** Which compartments enclose ducts in place of their protection. */
import type { Compartment } from '../model.js';
import type { Shelter } from './lapses.js';

/** A shaft takes over only where all its faces and both its ends are rated. */
export function shelterOf(_compartment: Compartment | undefined): Shelter {
  return 'no';
}
