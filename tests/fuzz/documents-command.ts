/** `npm run fuzz-documents [RUNS [SEED]]`: prints what became of so many changed documents; exit code 1 on any fault. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { packageRoot } from '../../src/platform/package-root.js';
import { fuzzDocuments } from './documents.js';

const text = (...path: string[]) => ({ file: path.join('/'), text: readFileSync(join(packageRoot, ...path), 'utf8') });
const shipped = readdirSync(join(packageRoot, 'rules')).filter((name) => name.endsWith('.yaml'));
const [runs = 1000, seed = 1] = process.argv.slice(2).map(Number);

const fuzzed = await fuzzDocuments({
  shipped: shipped.sort().map((name) => text('rules', name)),
  brief: text('fixtures', 'demo', 'brief.yaml'),
  ...{ runs, seed },
});
const { refused, judged, firePasses, crashes, hangs, falsePasses, slowest } = fuzzed;
process.stdout.write(
  [
    `${runs} changed documents from seed ${seed}: ${refused} refused in one line, ${judged} judged by`,
    `${crashes.length} crashes, ${hangs.length} hangs; the slowest took ${slowest.toFixed(0)} ms of processor time`,
    `${firePasses} findings about fire passed, ${falsePasses.length} documents let one pass that nothing written proves`,
    ...[...crashes, ...hangs, ...falsePasses].map(
      ({ seed: one, document, what }) => `seed ${one}, ${document.file}: ${what}`,
    ),
    '',
  ].join('\n'),
);
process.exitCode = crashes.length + hangs.length + falsePasses.length > 0 ? 1 : 0;
