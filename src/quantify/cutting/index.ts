export { keptOffcuts, planCuts } from './plan-cuts.js';
export * from './types.js';
