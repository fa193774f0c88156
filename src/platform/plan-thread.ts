/** A thread that plans cuts. */
import {
  type CutPart,
  type CuttingOptions,
  type CuttingPlan,
  planCuts,
  type Stock,
} from '../quantify/cutting/index.js';

export interface PlanTask {
  readonly parts: readonly CutPart[];
  readonly stocks: readonly Stock[];
  /** What can't be sent to a thread is left out. */
  readonly options: Omit<CuttingOptions, 'signal' | 'onProgress'>;
}

export default ({ parts, stocks, options }: PlanTask): Promise<CuttingPlan> => planCuts(parts, stocks, options);
