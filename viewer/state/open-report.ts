import type { Report } from '../../src/report/schema.js';
import { buildingOf } from './building.js';
import { rowsOf } from './rows.js';
import type { OpenReport } from './state.js';

export function openReport(report: Report): OpenReport {
  const building = buildingOf(report);
  return { report, building, rows: rowsOf(report, building) };
}
