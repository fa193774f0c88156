/** How a person, or the machine, tells a program to stop. */
export const STOP_SIGNALS = ['SIGINT', 'SIGTERM', 'SIGHUP'] as const;

/** Resolves with the first of them; the same once more ends the program at once. */
export const interrupted = (): Promise<void> =>
  new Promise((done) => {
    for (const signal of STOP_SIGNALS) process.once(signal, () => done());
  });
