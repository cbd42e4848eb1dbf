import type { Distance } from '#server/contract/ranking.ts';
import { formatKm, formatKmRange } from '#web/format/format-km.ts';
import type { Units } from '#web/format/units.ts';
import type { RailShape } from './rail-geometry.ts';

/** The rail in words: what a screen reader says, and what stands beside the rail where there is room. */
export function describeRail(shape: RailShape, distance: Distance, units: Units, reason: string | null) {
  switch (shape.kind) {
    case 'unknown':
      return reason ?? 'too little to say';
    case 'empty':
      return 'no drift';
    case 'passed':
      return 'limit passed';
    case 'beyond':
    case 'interval': {
      const range = formatKmRange(distance.p10 ?? distance.p50, distance.p90, units);
      return distance.p50 === null
        ? `limit in ${range}`
        : `limit in ${range}, median ${formatKm(distance.p50, units)}`;
    }
  }
}
