interface Runs {
  running: Promise<unknown>;
  /** begins when `running` has ended */
  next: Promise<unknown> | null;
}

/**
 * Equal work that is asked for at the same time is done once for all who ask: one run at a time for a key, and one that
 * waits for it. Whoever asks is given a run that began after they asked, so that nothing is older than its question;
 * nothing is kept when nobody asks any more.
 */
export function createShare() {
  const runsOf = new Map<string, Runs>();

  return <T>(key: string, run: () => Promise<T>): Promise<T> => {
    const runs = runsOf.get(key);
    if (runs === undefined) return begin(key, run);
    runs.next ??= runs.running.then(
      () => begin(key, run),
      () => begin(key, run),
    );
    return runs.next as Promise<T>;
  };

  function begin<T>(key: string, run: () => Promise<T>): Promise<T> {
    const running = run();
    const runs: Runs = { running, next: null };
    runsOf.set(key, runs);
    const end = () => {
      if (runs.next === null) runsOf.delete(key);
    };
    running.then(end, end);
    return running;
  }
}
