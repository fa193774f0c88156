/** Tests of the commands run the compiled program: compile it first where a source is newer. */
import { execFileSync } from 'node:child_process';

export default function setup(): void {
  execFileSync(process.execPath, ['.ci/setup.mjs'], { stdio: 'inherit' });
}
