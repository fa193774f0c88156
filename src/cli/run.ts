/** Arguments in, exit code out. Never ends the process and never prints a stack trace. */
import { Command, CommanderError, Option } from 'commander';
import { packageVersion } from '../platform/package-root.js';
import type { CheckOptions } from './check.js';
import type { CompareOptions } from './compare.js';
import { CANNOT_REVIEW, faultLine } from './fault-line.js';
import { UsageError } from './io.js';
import type { PortfolioOptions } from './portfolio/portfolio.js';
import type { WorkerOptions } from './portfolio/worker.js';
import type { ReadinessOptions } from './readiness.js';
import type { RulesOptions } from './rules.js';
import { type ProcessStreams, streamsOf } from './streams.js';
import type { ViewOptions } from './view.js';

/** Exit code as the contract has it: 0, 1, 2 or 3. */
export async function run(argv: readonly string[], streams: ProcessStreams): Promise<number> {
  const io = streamsOf(streams);
  let code = 0;
  const usage: string[] = [];
  const program = new Command('ratedrun')
    .description('Checks fire-protected ductwork where it passes fire-rated walls and floors, from IFC models.')
    .version(packageVersion)
    .exitOverride()
    // Commander would print its own lines; a mistake of usage is one line like every other.
    .configureOutput({
      writeOut: io.out.write,
      writeErr: (text) => usage.push(text),
      outputError: () => {},
    });

  program
    .command('check')
    .description('find, measure and check every penetration of one federation of IFC files')
    .argument('<model...>', 'IFC files (.ifc, .ifczip) that belong together')
    .option('--project-brief <file>', "the project's own facts and choices; without it the default brief holds")
    .option('--rules <file-or-folder...>', 'rule documents instead of the shipped ones')
    .option(
      '--assume <name=value>',
      'say also what would be under another choice of the brief, e.g. room.working=100; may be repeated',
      (text: string, before: readonly string[] = []) => [...before, text],
    )
    .option('--out <folder>', 'where the outputs go', 'ratedrun-report')
    .option(
      '--write <list>',
      'outputs to write: json,xlsx,bcf,html,ifc,glb,facts,csv,cards,itp,pdf,junit (json always; those after facts only when named)',
    )
    .addOption(new Option('--bcf <version>', 'version of findings.bcf: 3.0 when not said').choices(['3.0', '2.1']))
    .addOption(
      new Option('--bcf-topics <what>', 'a topic for each failed finding, or for each penetration').choices([
        'finding',
        'penetration',
      ]),
    )
    .option('--previous-bcf <file>', 'findings.bcf as others sent it back: status, comments and their topics are kept')
    .option(
      '--previous <folder>',
      'an earlier report: its keys and tags are carried over, also where GlobalIds changed',
    )
    .option('--revision <text>', 'of the models; stands with the tags on everything printed')
    .addOption(
      new Option('--ifc-schema <schema>', 'of opening-requests.ifc').choices(['IFC4', 'IFC4X3']).default('IFC4'),
    )
    .addOption(
      new Option('--nonzero-for <what>', 'which outcomes end with a code other than 0').choices([
        'failed',
        'cantTell',
        'nothing',
      ]),
    )
    .option('--watch', 'check again whenever a model, a rule document or the brief changes, until it is told to stop')
    .option('--no-cache', 'read all models again, and keep nothing of them in the folder for the next time')
    .option('--all-findings', 'list findings that passed, are inapplicable or would pass too')
    .option('--json', 'print the report as JSON, alone, on stdout')
    .option('--quiet', 'no progress')
    .action(async (models: string[], options: CheckOptions) => {
      // Commands load what they need, so that --help is quick.
      if (options.watch) code = await (await import('./watch/watch.js')).watch(models, options, io);
      else code = await (await import('./check.js')).check(models, options, io);
    });

  program
    .command('concession')
    .description('print entries for the project brief with the numbers of findings, ready to fill in')
    .argument('<folder>', 'folder of a report')
    .argument('<finding...>', 'keys of findings as the report shows them, or their ids')
    .action(async (folder: string, findings: string[]) => {
      const { concession } = await import('./concession.js');
      code = await concession(folder, findings, io);
    });

  program
    .command('readiness')
    .description('say what the models hold and what they lack for this job; no rules applied')
    .argument('<model...>', 'IFC files (.ifc, .ifczip) that belong together')
    .option('--ids <file>', 'write what the models need as information requirements (IDS 1.0) too')
    .option('--json', 'print it as JSON, alone, on stdout')
    .option('--quiet', 'no progress')
    .action(async (models: string[], options: ReadinessOptions) => {
      const { readiness } = await import('./readiness.js');
      code = await readiness(models, options, io);
    });

  program
    .command('compare')
    .description('say what is new, absent, moved and changed between two reports')
    .argument('<old-folder>', 'folder of the earlier report')
    .argument('<new-folder>', 'folder of the later report')
    .option('--json', 'as JSON')
    .option('--out <file>', 'write it there instead of printing it')
    .action(async (before: string, after: string, options: CompareOptions) => {
      const { compare } = await import('./compare.js');
      code = await compare(before, after, options, io);
    });

  program
    .command('rules')
    .description('validate rule documents and project briefs, and run the examples they carry')
    .argument('[file-or-folder...]', 'rule documents and briefs (.yaml), or folders of them')
    .option('--schema', 'print the JSON Schemas of rule documents and briefs')
    .option('--new-brief', 'print a commented project brief to start from')
    .addOption(new Option('--sheet <form>', 'print the documents as sheets for proof-reading').choices(['md', 'html']))
    .option('--out <file>', 'with --sheet: write it there instead of printing it')
    .addOption(
      new Option('--nonzero-for <what>', 'what ends with a code other than 0: wrong examples when not said').choices([
        'examples',
        'notes',
      ]),
    )
    .option('--json', 'print the results as JSON, alone, on stdout')
    .action(async (paths: string[], options: RulesOptions) => {
      const { rules } = await import('./rules.js');
      code = await rules(paths, options, io);
    });

  program
    .command('portfolio')
    .description('review all federations and revisions of a list, on this machine or by workers at a queue')
    .argument('<list>', 'a YAML file of kind: portfolio')
    .option('--out <folder>', 'where the outputs of all jobs go', 'ratedrun-portfolio')
    .option('--redis <url>', 'send the jobs to this server (Redis or Valkey), for ratedrun worker to do')
    .option('--threads <number>', 'jobs at the same time on this machine; left out: one for each core', wholeNumber)
    .addOption(
      new Option('--nonzero-for <what>', 'which outcomes end with a code other than 0').choices([
        'failed',
        'cantTell',
        'nothing',
      ]),
    )
    .option('--json', 'print the summary as JSON, alone, on stdout')
    .option('--quiet', 'no progress')
    .action(async (list: string, options: PortfolioOptions) => {
      const { portfolio } = await import('./portfolio/portfolio.js');
      code = await portfolio(list, options, io);
    });

  program
    .command('worker')
    .description('do jobs of portfolios from a queue until it is told to stop')
    .requiredOption('--redis <url>', 'the server (Redis or Valkey) that portfolio sends jobs to')
    .option('--threads <number>', 'jobs at the same time; left out: one for each core', wholeNumber)
    .option('--silence <seconds>', 'a worker that is silent for so long loses its job to another: 30', wholeNumber)
    .option('--quiet', 'say nothing of jobs')
    .action(async (options: WorkerOptions) => {
      const { worker } = await import('./portfolio/worker.js');
      code = await worker(options, io);
    });

  program
    .command('view')
    .description('serve the viewer on this machine: for a report, for models after checking them, or empty')
    .argument('[folder-or-model...]', 'a folder of a report, or IFC files to check first; left out: drop models there')
    .option('--project-brief <file>', 'with models: the brief that they are checked under')
    .option('--rules <file-or-folder...>', 'with models: rule documents instead of the shipped ones')
    .option('--out <folder>', 'with models: where the outputs go', 'ratedrun-report')
    .option('--port <number>', 'of the server; left out: any that is free', portOf)
    .option('--quiet', 'no progress')
    .action(async (named: string[], options: ViewOptions) => {
      const { view } = await import('./view.js');
      code = await view(named, options, io);
    });

  for (const command of program.commands) command.exitOverride().copyInheritedSettings(program);
  try {
    await program.parseAsync([...argv], { from: 'user' });
    return code;
  } catch (error) {
    if (error instanceof CommanderError && error.exitCode === 0) return 0;
    io.err.write(faultLine(error));
    return CANNOT_REVIEW;
  }
}

/** @throws UsageError */
function wholeNumber(text: string): number {
  if (/^[1-9]\d{0,4}$/.test(text)) return Number(text);
  throw new UsageError(`"${text}" is no number of them; give a whole number from 1 on.`);
}

/** @throws UsageError */
function portOf(text: string): number {
  const port = Number(text);
  if (Number.isInteger(port) && port > 0 && port < 65_536) return port;
  throw new UsageError(`--port ${text} is no port; give a whole number from 1 to 65535.`);
}
