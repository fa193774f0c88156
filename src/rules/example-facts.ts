import * as z from 'zod';
import { units } from './document-parts.js';
import {
  FACTS,
  type Fact,
  type FactGroup,
  type FactObject,
  type FactValue,
  isGroup,
  type Variable,
} from './fact-schema.js';

/** The form of facts in worked examples. Every fact may be left out: that says that it is not known. */
export function factsSchema(variables?: readonly Variable[]): z.ZodType<FactObject> {
  const fields = variables ? Object.fromEntries(variables.map((variable) => [variable, FACTS[variable]])) : FACTS;
  return groupSchema({ says: 'the facts of the example', fields });
}

export const systemFactsSchema = (): z.ZodType<FactObject> => groupSchema(FACTS.system);

function groupSchema(entry: FactGroup): z.ZodType<FactObject> {
  const fields = Object.entries(entry.fields).map(([name, inner]) => [
    name,
    (isGroup(inner) ? groupSchema(inner) : factSchema(inner)).optional(),
  ]);
  // The keys come from the table of facts, so zod's own types know nothing of them.
  return z.strictObject(Object.fromEntries(fields)).describe(entry.says) as unknown as z.ZodType<FactObject>;
}

function factSchema(fact: Fact): z.ZodType<FactValue> {
  const says = fact.unit ? `${fact.says} (${fact.unit})` : fact.says;
  if (fact.type === 'number') {
    const number = z.number().describe(says);
    return fact.unit ? number.register(units, { unit: fact.unit }) : number;
  }
  if (fact.type === 'yesNo') return z.boolean().describe(says);
  if (fact.type === 'texts') return z.array(z.string()).describe(says);
  return (fact.values ? z.enum(fact.values as [string, ...string[]]) : z.string()).describe(says);
}
