/** Our whole check against the least that a viewer does, on the same files; and whether what was aimed at is held. */
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import { join } from 'node:path';
import { tableText } from '../table.js';
import { type BenchFile, benchFiles, largeFile } from './files.js';
import { helpTime } from './help-time.js';
import { hotFunctions } from './hot-functions.js';
import { type Measured, Measurer } from './measure.js';
import { ratio, ratioText, type Verdict, verdicts } from './targets.js';
import { watchTime } from './watch-time.js';

export interface SpeedOptions {
  /** Names of files, whole or how they begin; left out: all but the large one. */
  readonly only?: readonly string[] | undefined;
  /** The file of 500 MB, too: minutes. */
  readonly large?: boolean | undefined;
  readonly runs?: number | undefined;
  /** s that a run may take before it is stopped. */
  readonly limit?: number | undefined;
  /** Where the figures are written as JSON. */
  readonly json?: string | undefined;
  /** Where a processor profile of each check is written, and the most costly functions printed from. */
  readonly profile?: string | undefined;
}

const HOT = 15;
const LIMIT = 3600;

export async function speed(options: SpeedOptions, print: (text: string) => void): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'ratedrun-bench-'));
  try {
    const all = [...benchFiles(folder, (line) => print(`${line}\n`)), ...(options.large ? [largeFile] : [])];
    const files = all.filter(({ name }) => options.only?.some((begin) => name.startsWith(begin)) ?? true);
    const measurer = new Measurer({ folder, runs: options.runs ?? 3, limit: options.limit ?? LIMIT });
    const load = loadavg()[0]!;
    const measured: Measured[] = [];
    for (const file of files) {
      print(`Timing ${file.name} ...`);
      const one = await measurer.measure(file);
      measured.push(one);
      print(` ${'error' in one.check ? one.check.error : `${seconds(one.check.processor)} s of processor time`}\n`);
    }
    const held = [...verdicts(measured), await helpTime(folder), await watchTime(folder)];
    const machine = { processor: cpus()[0]?.model ?? '', cores: cpus().length, node: process.version, load };
    print(`\n${machineLine(machine)}\n\n${overview(measured)}\n${stageTable(measured)}\n${targetLines(held)}`);
    if (options.json !== undefined)
      writeFileSync(options.json, `${JSON.stringify({ machine, measured, targets: held }, null, 2)}\n`);
    if (options.profile !== undefined) for (const file of files) await profile(measurer, file, options.profile, print);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const machineLine = ({
  processor,
  cores,
  node,
  load,
}: Record<'processor' | 'node', string> & Record<'cores' | 'load', number>) =>
  `${processor}, ${cores} cores, node ${node}; load when begun ${load.toFixed(1)}. Times are net of those on an empty model.`;

const seconds = (ms: number): string => (ms / 1000).toFixed(2);

function overview(all: readonly Measured[]): string {
  const head = [
    'file',
    'MB',
    'penetrations',
    'runs',
    'web-ifc s',
    'wall',
    'check s',
    'wall',
    'ratio',
    'wall',
    'peak MB',
  ];
  const lines = all.map((one) => {
    const { file, alone, check } = one;
    const of = [file, one.megabytes.toFixed(1)];
    const web = [seconds(alone.processor), seconds(alone.wall)];
    if ('error' in check) return [...of, '', String(one.runs), ...web, 'did not end', '', '', '', ''];
    const both = (['processor', 'wall'] as const).map((by) => ratioText(ratio({ ...one, check }, by)));
    const own = [seconds(check.processor), seconds(check.wall), ...both, check.peak.toFixed(0)];
    return [...of, String(check.penetrations), String(one.runs), ...web, ...own];
  });
  return tableText([head, ...lines]);
}

/** Processor time. */
function stageTable(all: readonly Measured[]): string {
  const ended = all.flatMap(({ file, check }) => ('stages' in check ? [{ file, stages: check.stages }] : []));
  const longest = [...ended].sort((a, b) => b.stages.length - a.stages.length)[0]?.stages ?? [];
  const names = [...new Set([longest, ...ended.map(({ stages }) => stages)].flat().map(({ name }) => name))];
  const lines = ended.map(({ file, stages }) => [
    file,
    ...names.map((name) => {
      const stage = stages.find((one) => one.name === name);
      return stage ? seconds(stage.processor) : '';
    }),
  ]);
  return tableText([['check, s of processor time', ...names], ...lines]);
}

const WORDS = { true: 'held', false: 'MISSED', null: 'not measured' } as const;

const targetLines = (all: readonly Verdict[]): string =>
  tableText([['target', ''], ...all.map(({ target, held }) => [target, WORDS[`${held}`]])])
    .split('\n')
    .map((line, i) => (i === 0 || line === '' ? line : `${line}  ${all[i - 1]!.found}`))
    .join('\n');

async function profile(
  measurer: Measurer,
  file: BenchFile,
  into: string,
  print: (text: string) => void,
): Promise<void> {
  mkdirSync(into, { recursive: true });
  const folder = mkdtempSync(join(into, `${file.name}-`));
  await measurer.profile(file, folder);
  const lines = hotFunctions(folder, HOT).map(({ name, milliseconds }) => [name, `${milliseconds.toFixed(0)} ms`]);
  print(`\n${tableText([[`check of ${file.name}: most costly by own time`, ''], ...lines])}Profiles: ${folder}\n`);
}
