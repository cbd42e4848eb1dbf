/** Seconds by the clock. */
export async function timed(work: () => unknown): Promise<number> {
  const startedMs = performance.now();
  await work();
  return (performance.now() - startedMs) / 1000;
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? Number.NaN) + upper) / 2;
}

export function quantile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN;
}

/** Does both so often, in turn and in alternating order, so that whatever else the machine does meets both. */
export async function inTurn(
  rounds: number,
  first: (round: number) => Promise<number>,
  second: (round: number) => Promise<number>,
): Promise<{ first: number; second: number; ratio: number }> {
  const seen: [number, number][] = [];
  for (let round = 0; round < rounds; round++) {
    if (round % 2 === 0) {
      const one = await first(round);
      seen.push([one, await second(round)]);
    } else {
      const other = await second(round);
      seen.push([await first(round), other]);
    }
  }
  return {
    first: median(seen.map(([one]) => one)),
    second: median(seen.map(([, other]) => other)),
    ratio: median(seen.map(([one, other]) => one / other)),
  };
}
