import type { AtlasCell, AtlasVehicles } from '#db/queries/read-atlas.ts';
import type { AtlasPlane } from '#server/contract/atlas.ts';
import { weightedQuantiles } from '#server/engine/smooth/weighted-quantiles.ts';
import { listEdges } from './atlas-steps.ts';

const probabilities = [0.05, 0.25, 0.5, 0.75, 0.95];

export interface PlaneParts {
  cells: readonly AtlasCell[];
  vehicles: readonly AtlasVehicles[];
  slipEdges: readonly number[];
  xStep: number;
  /** numbers of the steps, the last not included; where they are the same, the axis goes as far as the cells */
  first: number;
  last: number;
  vehicle: AtlasPlane['vehicle'];
}

/** Counts and quantiles of one axis. What lies on its uppermost edge or beyond belongs to the outermost step. */
export function makePlane(parts: PlaneParts): AtlasPlane {
  const { cells, slipEdges, xStep } = parts;
  const used = cells.map(({ step }) => step);
  const { first } = parts;
  const last = parts.last > first ? parts.last : Math.max(first, ...used) + 1;
  // A mean may lie a rounding error outside the edges of all its readings.
  const inStep = (number: number) => Math.min(Math.max(number, first), last - 1) - first;
  const steps = Array.from({ length: last - first }, (): AtlasCell[] => []);
  for (const cell of cells) steps[inStep(cell.step)]?.push(cell);
  const vehicles = new Map<number, number>();
  for (const { step, vehicles: n } of parts.vehicles)
    if (step !== null) vehicles.set(inStep(step), Math.max(n, vehicles.get(inStep(step)) ?? 0));
  const top = slipEdges.at(-1) ?? 0;
  return {
    x_edges: listEdges(first, last, xStep),
    slip_edges: [...slipEdges],
    readings: steps.map((own) => countBySlip(own, slipEdges)),
    quantiles: steps.flatMap((own, i) => {
      const n = own.reduce((sum, cell) => sum + cell.n, 0);
      if (n === 0) return [];
      const [p05 = 0, p25 = 0, p50 = 0, p75 = 0, p95 = 0] = weightedQuantiles(
        own.map((cell) => cell.slipRpm),
        own.map((cell) => cell.n),
        probabilities,
      ).map(hundredth);
      const x = (first + i + 0.5) * xStep;
      return [{ x, n, vehicles: vehicles.get(i) ?? 0, p05, p25, p50, p75, p95 }];
    }),
    above: cells.reduce((sum, cell) => sum + (cell.slipRpm >= top ? cell.n : 0), 0),
    vehicle: parts.vehicle,
  };
}

/** Readings in each step of slip; slip below 0 counts to the lowest. */
function countBySlip(cells: readonly AtlasCell[], edges: readonly number[]): number[] {
  const counts = Array.from({ length: edges.length - 1 }, () => 0);
  const width = (edges[1] ?? 1) - (edges[0] ?? 0);
  for (const { slipRpm, n } of cells) {
    const at = Math.max(0, Math.floor(slipRpm / width));
    if (at < counts.length) counts[at] = (counts[at] ?? 0) + n;
  }
  return counts;
}

const hundredth = (value: number): number => Math.round(value * 100) / 100;
