import type { Vec3 } from '../model.js';

const WAYS = ['east', 'north-east', 'north', 'north-west', 'west', 'south-west', 'south', 'south-east'] as const;

/** Which way a level direction looks; +y is north on plan. */
export const compass = ([x, y]: Vec3): string => WAYS[(Math.round(Math.atan2(y, x) / (Math.PI / 4)) + 8) % 8]!;
