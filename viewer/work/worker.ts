/** Does what takes long, away from the page. */
import * as z from 'zod';
import { InputError } from '../../src/read/container.js';
import { BcfError } from '../../src/report/bcf/topic.js';
import { ReportError, readReport } from '../../src/report/read-report.js';
import { FactsError, readFacts } from '../../src/review/facts-file.js';
import { AssumptionError, RuleDocumentError } from '../../src/rules/index.js';
import type { Progress } from '../state/state.js';
import { checkModels } from './check-models.js';
import { OpenReview, WorkError } from './open-review.js';
import type { Answers, Asks, Message, Question } from './protocol.js';

// Pages forbid code from text, which zod would try.
z.config({ jitless: true });

let review: OpenReview | undefined;

const decode = (bytes: Uint8Array): string => new TextDecoder().decode(bytes);
const send = (message: Message, transfer: Transferable[] = []): void => self.postMessage(message, { transfer });

self.onmessage = async ({ data }: MessageEvent<Question>) => {
  const { id } = data;
  try {
    const { answers, transfer } = await answerTo(data, (progress) => send({ id, progress }));
    send({ id, answers }, transfer);
    if (data.name === 'choosable') review?.prepare();
  } catch (error) {
    send({ id, fault: faultOf(error, data) });
  }
};

interface Answered {
  readonly answers: unknown;
  readonly transfer?: Transferable[];
}

async function answerTo(question: Question, onProgress: (progress: Progress) => void): Promise<Answered> {
  switch (question.name) {
    case 'check':
      return check(question.asks, onProgress);
    case 'open':
      return { answers: open(question.asks) };
    case 'choosable':
      return { answers: { choosable: opened().choosable } };
    case 'try':
      return { answers: await opened().try(question.asks) };
    case 'brief':
      return { answers: opened().brief(question.asks) };
    case 'bcf':
      return { answers: opened().bcf(question.asks) };
    case 'bcfIn':
      return { answers: opened().bcfIn(question.asks) };
  }
}

async function check(asks: Asks<'check'>, onProgress: (progress: Progress) => void): Promise<Answered> {
  const { report, facts, answers } = await checkModels(asks, onProgress);
  review = new OpenReview(report, () => facts);
  return { answers, transfer: [answers.geometry] };
}

function open({ report: reportBytes, facts }: Asks<'open'>): Answers<'open'> {
  const report = readReport(decode(reportBytes));
  review = new OpenReview(report, () => (facts === null ? undefined : readFacts(decode(facts), report)));
  return { report };
}

function opened(): OpenReview {
  if (!review) throw new Error('no review is open');
  return review;
}

/** Errors whose words follow a file's name get it here. */
function faultOf(error: unknown, question: Question): string {
  if (error instanceof ReportError)
    return `${question.name === 'check' ? (question.asks.previous?.name ?? 'report.json') : 'report.json'} ${error.message}`;
  if (error instanceof FactsError) return `facts.json ${error.message}`;
  if (error instanceof BcfError)
    return `${question.name === 'bcfIn' ? question.asks.file.name : 'The BCF file'} ${error.message}`;
  if (error instanceof RuleDocumentError) return `${error.file}:${error.line}:${error.column} ${error.message}`;
  if (error instanceof AssumptionError || error instanceof InputError || error instanceof WorkError)
    return error.message;
  return `Stopped by an error of the program (${error instanceof Error ? error.message : String(error)}).`;
}
