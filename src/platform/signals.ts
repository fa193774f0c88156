/** How a person, or the machine, tells a program to stop. */
export const STOP_SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** Resolves with the first of them; the same once more ends the program at once. */
export const interrupted = (): Promise<void> =>
  new Promise((done) => {
    for (const signal of STOP_SIGNALS) process.once(signal, () => done());
  });

/**
 * Signals to stop wait until the work is done; where nobody else listens for them, they end the program then.
 *
 * @param work synchronous: nothing else gets in between
 */
export async function uninterrupted<T>(work: () => T): Promise<T> {
  const heard: NodeJS.Signals[] = [];
  const hear = (signal: NodeJS.Signals): void => void heard.push(signal);
  for (const signal of STOP_SIGNALS) process.on(signal, hear);
  try {
    return work();
  } finally {
    // What came meanwhile is told when the event loop next looks for news, which lies between two immediates.
    for (let i = 0; i < 2; i++) await new Promise((go) => setImmediate(go));
    for (const signal of STOP_SIGNALS) process.off(signal, hear);
    const [first] = heard;
    if (first !== undefined && process.listenerCount(first) === 0) process.kill(process.pid, first);
  }
}
