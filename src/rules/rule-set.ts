import type { ConstructionWords, RuleInfo, RuleStatus } from '../model.js';
import type { ServiceRow } from '../strategy/index.js';
import type { CheckDefinition, Example, ReasonDefinition } from './check-set.js';
import type { ConstructionExample } from './construction-table.js';
import type { Expression } from './expression.js';
import type { Each } from './fact-schema.js';
import type { FlangeExample, FlangeTable } from './flange-table.js';
import type { BarrierRows, PublishedValue } from './published-values.js';
import type { ServiceExample } from './service-table.js';
import type { SizeTable } from './size-value.js';
import type { TestedDamper } from './tested-damper.js';
import type { TestedSystem } from './tested-system.js';

/** From what proves to what proves nothing. */
export const RULE_STATUSES = ['tested', 'demonstration', 'unverified'] as const satisfies readonly RuleStatus[];

/** A limit's side: known when the document is loaded, worked out from the facts, by the size of the duct or by the barrier. */
export type LimitValue<T> =
  | { readonly literal: T }
  | { readonly expression: Expression }
  | { readonly table: SizeTable }
  | { readonly rows: BarrierRows };

export interface CompiledLimit {
  readonly atLeast?: LimitValue<number>;
  readonly atMost?: LimitValue<number>;
  readonly equals?: LimitValue<number | string | boolean>;
  readonly among?: readonly (number | string)[];
}

export interface CompiledReason {
  readonly definition: ReasonDefinition;
  readonly when: Expression;
}

export interface CompiledExample {
  readonly definition: Example;
  readonly line: number;
}

/** A check whose expressions and templates are known to fit the facts. */
export interface CompiledCheck {
  readonly definition: CheckDefinition;
  readonly file: string;
  readonly each: Each;
  readonly where: Expression | null;
  readonly reasons: readonly CompiledReason[];
  readonly measure: Expression | null;
  readonly limit: CompiledLimit;
  /** What a met limit proves: the check's own basis, never better than its document, or the chosen system's. */
  readonly proof: 'model' | 'system' | RuleStatus;
  readonly examples: readonly CompiledExample[];
}

/** Names of layers and barriers to classes of construction; reading goes by its rows. */
export interface LoadedTable {
  readonly id: string;
  readonly file: string;
  readonly rows: readonly ConstructionWords[];
  readonly examples: readonly { readonly definition: ConstructionExample; readonly line: number }[];
}

/** Names of systems to services and what holds for them. */
export interface LoadedServices {
  readonly id: string;
  readonly file: string;
  readonly rows: readonly ServiceRow[];
  readonly examples: readonly { readonly definition: ServiceExample; readonly line: number }[];
}

/** How far flanges usually stand out, where the brief says nothing. */
export interface LoadedFlangeTable extends Pick<FlangeTable, 'id' | 'shapes' | 'flangeHeight'> {
  readonly file: string;
  readonly examples: readonly { readonly definition: FlangeExample; readonly line: number }[];
}

export interface RuleSet {
  readonly documents: readonly RuleInfo[];
  readonly checks: readonly CompiledCheck[];
  readonly systems: readonly TestedSystem[];
  readonly dampers: readonly TestedDamper[];
  readonly tables: readonly LoadedTable[];
  readonly services: readonly LoadedServices[];
  readonly published: readonly PublishedValue[];
  readonly flanges: readonly LoadedFlangeTable[];
}
