/** What a report says of one element, in a few sentences. */
import { nameOf } from '../../src/element-refs.js';
import type { ElementRef } from '../../src/model.js';
import type { ReportFinding, ReportPenetration } from '../../src/report/schema.js';
import { ratingWords, sectionWords } from '../../src/report/words.js';
import type { ProtectionExtras } from '../../src/scene/geometry-extras.js';
import { brief, capital, listed, oneLine } from '../../src/words/text.js';
import { STATUS_WORDS, valueWords } from '../../src/words/values.js';
import { number, quantity } from '../format.js';
import { seriousness } from '../state/building.js';
import type { OpenReport } from '../state/state.js';
import { WORDS } from '../words.js';
import { elementWords } from './caption.js';
import { boxOfElement, type Elements } from './elements.js';
import type { DrawnNode } from './geometry.js';
import { ownElements } from './look.js';

export interface Facts {
  readonly sentences: readonly string[];
  readonly penetrations: readonly ReportPenetration[];
  /** Most serious first; only those that name the element. */
  readonly findings: readonly ReportFinding[];
}

const F = WORDS.model.facts;

/** @param locale for numbers; left out: the reader's */
export function factsOf(
  id: number,
  elements: Elements,
  open: OpenReport,
  protection: readonly DrawnNode<ProtectionExtras>[],
  locale?: string,
): Facts {
  const { extras } = elements.nodes[id]!;
  const { report } = open;
  const own = nameOf(extras);
  const names = (refs: readonly ElementRef[]): boolean => refs.some((ref) => nameOf(ref) === own);
  const penetrations = report.penetrations.filter((p) =>
    extras.kind === 'barrier' ? nameOf(p.barrier) === own : ownElements(p).has(own),
  );
  const findings = report.findings
    .filter(({ subject }) => names(subject.elements))
    .sort((a, b) => seriousness(a.outcome) - seriousness(b.outcome));
  const barrier = report.barriers.find((one) => nameOf(one) === own);
  const duct = penetrations.find((p) => nameOf(p.duct) === own)?.duct;
  const run = report.runs.find(({ elements: parts }) => names(parts));
  const storey = open.building.storeys.find(({ key }) => key !== '' && key === open.building.storeyOf(extras.storey));
  const host = extras.host && elements.find(extras.host);
  return {
    penetrations,
    findings,
    sentences: [
      opening(elementWords(extras, report), extras.kind),
      ...(duct && sectionWords(duct) !== 'section unknown' ? [F.size(sectionWords(duct))] : []),
      ...(barrier ? [F.rated(ratingWords(barrier.rating))] : []),
      ...(barrier?.thickness ? [F.thickness(quantity(barrier.thickness, 'mm', 1, locale))] : []),
      ...(barrier ? [F.construction(valueWords(barrier.construction))] : []),
      ...(duct || barrier ? [] : [F.overall(overall(id, elements, locale))]),
      ...(host === null || host === undefined ? [] : [F.inBarrier(elementWords(elements.nodes[host]!.extras, report))]),
      ...(extras.system ? [F.system(oneLine(extras.system))] : []),
      ...(run ? [F.run(run.id)] : []),
      ...(storey ? [F.storey(oneLine(storey.name))] : []),
      ...protectionSentences(own, protection),
    ],
  };
}

const opening = (words: string, kind: string): string => {
  const known = Object.hasOwn(WORDS.model.kinds, kind) && kind !== 'context';
  return known ? `${capital(words)}.` : F.is(capital(words), WORDS.model.contextKind);
};

function overall(id: number, elements: Elements, locale?: string): string {
  const { min, max } = boxOfElement(elements, id);
  return `${[0, 1, 2].map((axis) => number(max[axis]! - min[axis]!, 0, locale)).join(' × ')}\u2009mm`;
}

/** A sentence for each tested system, its parts by name. */
function protectionSentences(own: string, protection: readonly DrawnNode<ProtectionExtras>[]): string[] {
  const layers = new Map<string, Map<string, number>>();
  const status = new Map<string, string>();
  for (const { extras } of protection) {
    if (!extras.element || nameOf(extras.element) !== own) continue;
    const parts = layers.get(extras.testedSystem) ?? new Map<string, number>();
    parts.set(extras.part, Math.max(parts.get(extras.part) ?? 1, extras.layer));
    layers.set(extras.testedSystem, parts);
    status.set(extras.testedSystem, STATUS_WORDS[extras.status]);
  }
  return [...layers].map(([system, parts]) => {
    const told = [...parts].map(([part, count]) => (count > 1 ? F.layers(valueWords(part), count) : valueWords(part)));
    return F.protection(listed(told), brief(system, 60), status.get(system)!);
  });
}
