/**
 * Histogram bin of a value: the number of edges at or below it.
 *
 * @param value a value in the unit of the edges
 * @param edges rising inner edges; there is one bin more than edges
 * @returns bin number from 0
 * Source: own definition. Edges: a value on an edge lies above it; no edges give one bin. Errors: none.
 * @example binOf(75, [60, 70, 80]) // 2
 */
export function binOf(value: number, edges: readonly number[]): number {
  let bin = 0;
  for (const edge of edges) if (value >= edge) bin++;
  return bin;
}
