import type { CoolerRecord as Reported } from '#server/contract/repair.ts';
import type { CoolerRecord } from '#server/engine/diagnosis/judge-cooler-record.ts';

/** The reported cooler record as the engine judges it. */
export const toCoolerRecord = (reported: Reported): CoolerRecord => ({
  done: reported.done,
  minutes: reported.minutes,
  method: reported.method,
  bothDirections: reported.both_directions,
  filterClean: reported.filter_clean,
  flowAfterLMin: reported.flow_after_l_min,
});
