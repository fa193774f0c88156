import type { FireSide } from '../model.js';
import type { Dampers, Resists } from './types.js';

export const DAMPERS_WORDS: { readonly [D in Dampers]: string } = {
  allowed: 'fire dampers are allowed',
  never: 'it must never have a fire damper',
};

export const RESISTS_WORDS: { readonly [R in Resists]: string } = {
  always: 'all of it outside the compartment that it serves must resist fire',
  whereUndampered: 'it must resist fire where it passes a rated barrier without a fire damper',
};

export const FIRE_WORDS: { readonly [F in FireSide]: string } = {
  inside: 'the fire may be inside the duct',
  outside: 'the fire may be outside the duct',
  both: 'the fire may be inside the duct or outside it',
};
