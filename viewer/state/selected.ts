/** The selection as other programs understand it, and the way back. */
import type { ElementRef } from '../../src/model.js';
import type { SelectedPlace } from '../host-api.js';
import type { OpenReport, Selection } from './state.js';

export function selectedPlace(open: OpenReport | null, selection: Selection): SelectedPlace | null {
  if (!open) return null;
  const { lookup } = open.building;
  const p = selection.penetration === null ? undefined : lookup.penetrations.get(selection.penetration);
  const finding = open.report.findings.find(({ id }) => id === selection.finding);
  const refs = [...(finding?.subject.elements ?? p?.elements ?? []), ...(p ? [p.barrier] : [])];
  if (refs.length === 0 && selection.element === null) return null;
  return {
    penetration: p ? { tag: p.tag, key: p.key } : null,
    finding: finding ? { key: finding.key, check: finding.check, message: finding.message } : null,
    elements: distinct(selection.element && !p && !finding ? [selection.element] : refs).map(({ model, globalId }) => ({
      file: lookup.files.get(model) ?? '',
      globalId,
    })),
  };
}

const distinct = (refs: readonly ElementRef[]): ElementRef[] => [
  ...new Map(refs.map((ref) => [`${ref.model}/${ref.globalId}`, ref])).values(),
];

/** Id of the row that a tag, key or id names; undefined: the report has none. */
export function rowNamed({ rows, report, building }: OpenReport, name: string): string | undefined {
  const finding = report.findings.find(({ id, key }) => id === name || key === name);
  if (finding) return finding.id;
  const p = report.penetrations.find(({ id, key, tag }) => id === name || key === name || tag === name);
  return p && (building.lookup.findings.get(p.id)?.[0]?.id ?? rows.find(({ penetration }) => penetration === p)?.id);
}
