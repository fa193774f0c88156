/** `node write-sets.js FOLDER TAG...`: writes one set after the other as a review writes its outputs; what fails is its last line. */
import { UsageError, writeOutputs } from '../../src/cli/io.js';
import { setOf } from './sets.js';

const [folder, ...tags] = process.argv.slice(2);
try {
  for (const tag of tags.map(Number)) {
    const { files, outdated } = setOf(tag);
    await writeOutputs(folder!, files, { outdated });
  }
} catch (error) {
  if (!(error instanceof UsageError)) throw error;
  process.stderr.write(`${error.message}\n`);
  process.exitCode = 2;
}
