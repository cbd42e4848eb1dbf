import { formatKm } from '#web/format/format-km.ts';
import type { Units } from '#web/format/units.ts';
import { sparkSpanKm } from '#web/ui/spark-geometry.ts';

/** The stretch of road that a spark shows, in the reader's unit. */
export const sparkSpan = (units: Units): string => formatKm(sparkSpanKm, units);
