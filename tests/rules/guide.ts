/** The example of the guide for people who write tested systems, as they would type it. */
import { readFileSync } from 'node:fs';

export const GUIDE_FILE = 'rules/writing-a-tested-system.md';

/** Its blocks one under the other, as the guide says. */
export const guideExample = (): { file: string; text: string } => ({
  file: 'my-blanket.yaml',
  text: [...readFileSync(GUIDE_FILE, 'utf8').matchAll(/^```yaml\n([\s\S]*?)^```$/gm)]
    .map(([, block]) => block)
    .join('\n'),
});
