/** A band as upper and lower edge over x, cut to a window: a polygon that never leaves the plot. */
export interface Edge {
  x: number;
  low: number;
  high: number;
}

interface Window {
  left: number;
  right: number;
  low: number;
  high: number;
}

export function clipBand(edges: readonly Edge[], window: Window): Edge[] {
  const cut = (value: number) => Math.min(Math.max(value, window.low), window.high);
  return edges
    .flatMap((here, i) => {
      const before = edges[i - 1];
      return before === undefined ? [here] : [...borderEdges(before, here, window), here];
    })
    .filter((edge) => edge.x >= window.left && edge.x <= window.right)
    .map(({ x, low, high }) => ({ x, low: cut(low), high: cut(high) }));
}

/** Where the band enters or leaves the window between two edges, in the order of x. */
function borderEdges(before: Edge, here: Edge, window: Window): Edge[] {
  const shares = [
    crossing(before.x, here.x, window.left),
    crossing(before.x, here.x, window.right),
    crossing(before.low, here.low, window.low),
    crossing(before.low, here.low, window.high),
    crossing(before.high, here.high, window.low),
    crossing(before.high, here.high, window.high),
  ].filter((share) => share !== null);
  return shares.toSorted((a, b) => a - b).map((share) => between(before, here, share));
}

function crossing(from: number, to: number, border: number): number | null {
  return (from < border && to > border) || (from > border && to < border)
    ? (border - from) / (to - from)
    : null;
}

const between = (before: Edge, here: Edge, share: number): Edge => ({
  x: before.x + share * (here.x - before.x),
  low: before.low + share * (here.low - before.low),
  high: before.high + share * (here.high - before.high),
});
