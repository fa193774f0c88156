import { loadRules, RuleDocumentError } from '../../src/rules/index.js';

/** The error that documents are refused with; they are called doc-1.yaml and so on. */
export const refusal = (text: string, ...more: string[]): RuleDocumentError => {
  try {
    loadRules([text, ...more].map((one, i) => ({ file: `doc-${i + 1}.yaml`, text: one })));
  } catch (cause) {
    if (cause instanceof RuleDocumentError) return cause;
    throw cause;
  }
  throw new Error('the document was not refused');
};

/** One check, without a fault; tests spoil it. */
export const GOOD = `kind: check-set
id: test-set
version: "1"
status: unverified
source: a test
checks:
  - id: skew
    title: Skew
    about: fire
    each: penetration
    where: barrier.rated
    measure: penetration.skew
    atMost: 10
    unit: deg
    message: { failed: "Skew {measured}.", cantTell: "{missing} is not known." }
    basis: { source: a test, status: unverified }
    examples:
      - { facts: { penetration: { skew: 2 } }, outcome: cantTell }
`;
