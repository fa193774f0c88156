import { describe, expect, it } from 'vitest';
import { tried } from '../../src/cli/portfolio/job-pool.js';
import type { JobAnswer, JobResult, PortfolioJob } from '../../src/portfolio/job.js';

const JOB: PortfolioJob = {
  ...{ name: 'a', project: 'a', revision: null, models: [], projectBrief: null, rules: null, previous: null },
  ...{ write: 'json', folder: '/out/a' },
};
const RESULT: JobResult = {
  ...{ name: 'a', fingerprint: 'f', penetrations: 1, createdAt: '2026-01-02T03:04:05Z', demonstration: false },
  outcomes: { passed: 0, failed: 0, cantTell: 1, inapplicable: 0, untested: 0 },
  ...{ seconds: 1, peak: 1 },
};
const DONE: JobAnswer = { result: RESULT, wasDone: false };
const LOST: JobAnswer = { fault: 'its thread ended', isFinal: false };
const WRONG: JobAnswer = { fault: 'a.ifc does not exist', isFinal: true };
const RETRIES = { attempts: 3, backoff: 20 };

/** Answers in their order, and when each was asked for. */
function answering(...answers: readonly JobAnswer[]) {
  const asked: number[] = [];
  return {
    asked,
    once: async (): Promise<JobAnswer> => {
      asked.push(performance.now());
      return answers[asked.length - 1]!;
    },
  };
}

describe('a job', () => {
  it('is tried again after waits that double', async () => {
    const { asked, once } = answering(LOST, LOST, DONE);
    expect(await tried(JOB, once, RETRIES)).toMatchObject({ attempts: 3, result: RESULT });
    const [first, second] = [asked[1]! - asked[0]!, asked[2]! - asked[1]!];
    expect(first).toBeGreaterThanOrEqual(19);
    expect(second).toBeGreaterThanOrEqual(39);
  });

  it('is dead after its last try, with the last fault', async () => {
    const { asked, once } = answering(LOST, LOST, LOST, DONE);
    expect(await tried(JOB, once, RETRIES)).toMatchObject({ attempts: 3, fault: 'its thread ended' });
    expect(asked).toHaveLength(3);
  });

  it('is not tried again where its input is to blame, or all was given up', async () => {
    expect(await tried(JOB, answering(WRONG, DONE).once, RETRIES)).toMatchObject({ attempts: 1, fault: WRONG.fault });
    expect(await tried(JOB, answering(LOST, DONE).once, RETRIES, () => true)).toMatchObject({ attempts: 1 });
  });
});
