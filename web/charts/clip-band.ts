/** A band as upper and lower edge over x, cut to a window: a polygon that never leaves the plot. */
export interface Edge {
  x: number;
  low: number;
  high: number;
}

export function clipBand(
  edges: readonly Edge[],
  window: { left: number; right: number; low: number; high: number },
): Edge[] {
  const inside: Edge[] = [];
  for (let i = 0; i < edges.length; i++) {
    const here = edges[i];
    const before = edges[i - 1];
    if (here === undefined) continue;
    for (const border of [window.left, window.right])
      if (before !== undefined && before.x < border && here.x > border)
        inside.push(between(before, here, border));
    if (here.x >= window.left && here.x <= window.right) inside.push(here);
  }
  const cut = (value: number) => Math.min(Math.max(value, window.low), window.high);
  return inside.map(({ x, low, high }) => ({ x, low: cut(low), high: cut(high) }));
}

function between(before: Edge, here: Edge, x: number): Edge {
  const share = (x - before.x) / (here.x - before.x);
  return {
    x,
    low: before.low + share * (here.low - before.low),
    high: before.high + share * (here.high - before.high),
  };
}
