import type { LivesGroup } from '#server/contract/lives.ts';
import type { UseAxis } from '#web/charts/use-axis.ts';
import type { Units } from '#web/format/units.ts';

/** What stands below a picture that is saved. */
export interface PictureSource {
  selection?: string | undefined;
  dataTo?: string | undefined;
}

export interface LivesFigureProps {
  groups: readonly LivesGroup[];
  confidence: number;
  /** keep it the same function while nothing changed */
  axisOf: (units: Units) => UseAxis;
  source: PictureSource;
}
