import type { AtlasPlane } from '#server/contract/atlas.ts';

/** What a few vehicles show by themselves is no quantile of a platform: there are only the cells. Own choice. */
const leastVehicles = 5;
const leastShare = 1 / 3;
const leastReadings = 20;

/** So many vehicles have to stand behind a step before its lines are drawn: a third of those of the fullest step. */
function countNeeded({ quantiles }: Pick<AtlasPlane, 'quantiles'>): { needed: number; of: number } {
  const of = Math.max(1, ...quantiles.map(({ vehicles }) => vehicles));
  return { needed: Math.max(Math.min(leastVehicles, of), Math.ceil(of * leastShare)), of };
}

/** Steps whose quantiles are of the platform. */
export function soundQuantiles(plane: Pick<AtlasPlane, 'quantiles'>): AtlasPlane['quantiles'] {
  const { needed } = countNeeded(plane);
  return plane.quantiles.filter(({ vehicles, n }) => vehicles >= needed && n >= leastReadings);
}

/** 'Lines: where at least 23 of 69 vehicles have readings.' */
export function sayLines(plane: Pick<AtlasPlane, 'quantiles'>): string {
  if (soundQuantiles(plane).length === 0)
    return 'No lines: nowhere are there 20 readings of enough vehicles.';
  const { needed, of } = countNeeded(plane);
  if (of === 1) return 'Lines: of one vehicle alone.';
  return `Lines: where at least ${needed} of ${of} vehicles have readings.`;
}
