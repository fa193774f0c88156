/** `npm run fuzz -- --runs 10000 --seed 1`; `--runs 1 --seed N` does run N again and says all of it. */
import { parseArgs } from 'node:util';
import { fuzz } from './pool.js';

const { values } = parseArgs({
  options: {
    runs: { type: 'string', default: '10000' },
    seed: { type: 'string', default: '1' },
    threads: { type: 'string', default: '2' },
  },
});
const [runs, seed, threads] = [values.runs, values.seed, values.threads].map(Number) as [number, number, number];
if (![runs, seed, threads].every(Number.isSafeInteger) || runs < 1 || threads < 1) {
  process.stderr.write('--runs, --seed and --threads take whole numbers.\n');
  process.exit(2);
}

const EVERY = 250;
const { ends, seconds, faults, passes, reread, ...of } = await fuzz({
  ...{ runs, seed, threads, shares: { parts: 70, cases: 25, demo: 2 } },
  onEnd: (ended, done) => {
    const isFault = ['crash', 'hang', 'false pass'].includes(ended.end);
    if (isFault || runs === 1) process.stdout.write(`${ended.seed}: ${ended.end}: ${ended.what}: ${ended.detail}\n`);
    if (done % EVERY === 0) process.stderr.write(`${done} of ${runs} runs\n`);
  },
});
process.stdout.write(
  `${of.runs} inputs tried from seed ${seed} in ${seconds.toFixed(0)} s: ${ends.crash} crashes, ${ends.hang} hangs, ` +
    `${ends['false pass']} false passes. ${ends.reviewed} reviewed, ${ends.refused} refused in one line, ` +
    `${ends.stopped} stopped their reader. ${passes} results about fire passed or would pass, ${reread} of them reread.\n`,
);
process.exitCode = faults.length > 0 ? 1 : 0;
