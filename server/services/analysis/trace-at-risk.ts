interface Watched {
  entry: number;
  exit: number;
  event: boolean;
  count: number;
}

const mostSteps = 400;

/** How many lives are under watch after each mileage, entry < x <= exit, in at most so many steps. */
export function traceAtRisk(lives: readonly Watched[]): { x: number; n: number }[] {
  const changes = new Map<number, number>();
  for (const { entry, exit, count } of lives) {
    changes.set(entry, (changes.get(entry) ?? 0) + count);
    changes.set(exit, (changes.get(exit) ?? 0) - count);
  }
  let n = 0;
  const all = [...changes]
    .toSorted(([a], [b]) => a - b)
    .map(([x, change]) => {
      n += change;
      return { x, n };
    })
    .filter((step, i, steps) => step.n !== (steps[i - 1]?.n ?? 0));
  return all.length <= mostSteps ? all : takeEvenSteps(all);
}

/** The same at even steps, exact there; the last is where nobody is left. */
function takeEvenSteps(all: readonly { x: number; n: number }[]): { x: number; n: number }[] {
  const from = all[0]?.x ?? 0;
  const to = all.at(-1)?.x ?? 0;
  const even: { x: number; n: number }[] = [];
  let at = 0;
  for (let i = 0; i < mostSteps; i++) {
    const x = i === mostSteps - 1 ? to : from + ((to - from) * i) / (mostSteps - 1);
    while (at + 1 < all.length && (all[at + 1]?.x ?? 0) <= x) at += 1;
    const n = all[at]?.n ?? 0;
    if (n !== even.at(-1)?.n) even.push({ x, n });
  }
  return even;
}

/** Where lives that ran on were last seen; of very many, every so many. */
export function markRunning(lives: readonly Watched[]): number[] {
  const exits = new Set(lives.filter(({ event }) => !event).map(({ exit }) => exit));
  const all = [...exits].toSorted((a, b) => a - b);
  const every = Math.ceil(all.length / mostSteps);
  return every <= 1 ? all : all.filter((_, i) => i % every === 0);
}
