/** Does what takes long, away from the page. */
import * as z from 'zod';
import { ReportError, readReport } from '../../src/report/read-report.js';
import { FactsError, readFacts } from '../../src/review/facts-file.js';
import { FactsAgain } from '../../src/review/judge-again.js';
import { AssumptionError, RuleDocumentError } from '../../src/rules/index.js';
import type { Message, Question, Requests } from './protocol.js';

// Pages forbid code from text, which zod would try.
z.config({ jitless: true });

let facts: FactsAgain | undefined;

type Answerer = (question: Question) => Promise<unknown>;

const answer: Answerer = async (question) => {
  switch (question.name) {
    case 'open':
      return open(question.asks);
    case 'try':
      return { report: await opened().under(question.asks.assumptions) };
    default:
      throw new Error(`nobody answers "${question.name}"`);
  }
};

function open({ reportText, factsText }: Requests['open']['asks']): Requests['open']['answers'] {
  const report = readReport(reportText);
  facts = factsText === null ? undefined : new FactsAgain(readFacts(factsText, report));
  return { report, canTry: facts !== undefined };
}

function opened(): FactsAgain {
  if (!facts) throw new Error('no facts are open');
  return facts;
}

const send = (message: Message): void => self.postMessage(message);

self.onmessage = async ({ data }: MessageEvent<Question>) => {
  try {
    send({ id: data.id, answers: await answer(data) });
  } catch (error) {
    send({ id: data.id, fault: faultOf(error) });
  }
};

function faultOf(error: unknown): string {
  if (error instanceof ReportError) return `report.json ${error.message}`;
  if (error instanceof FactsError) return `facts.json ${error.message}`;
  if (error instanceof RuleDocumentError) return `${error.file}:${error.line}:${error.column} ${error.message}`;
  if (error instanceof AssumptionError) return error.message;
  return `Stopped by an error of the program (${error instanceof Error ? error.message : String(error)}).`;
}
