import { type Cost, costs, type GrowthPoint } from './growth-point.ts';

const names = Object.keys(costs) as Cost[];

/** Three digits, as people read them. */
export const sayMs = (ms: number): string =>
  ms >= 100 ? String(Math.round(ms)) : String(Number(ms.toPrecision(3)));

/** The table for `docs/measurements.md`: milliseconds of processor time, and by the clock behind the stroke. */
export function writeTable(points: readonly GrowthPoint[]): string {
  const head = ['grows', 'vehicles', 'days', 'readings'];
  const rows = points.map((point) => [
    `${point.grows} ${point.times}×`,
    String(point.vehicles),
    String(point.days),
    Math.round(point.vehicles * point.days * READINGS_A_DAY).toLocaleString('en'),
    ...names.map((name) => `${sayMs(point.processorMs[name])} / ${sayMs(point.clockMs[name])}`),
  ]);
  const toLine = (cells: readonly string[]) => `| ${cells.join(' | ')} |`;
  const all = [...head, ...names.map((name) => costs[name])];
  return [all, all.map(() => '---'), ...rows].map(toLine).join('\n');
}

export const READINGS_A_DAY = 24;
