import type { LivesGroup } from '#server/contract/lives.ts';
import { lastSeen } from '#web/charts/survival-steps.ts';
import type { UseAxis } from '#web/charts/use-axis.ts';
import { formatWhole } from '#web/format/format-number.ts';

/** A curve that ends at 0 early, because few were under watch there, says nothing of those that came later. */
export function sayEarlyEnd(group: LivesGroup, axis: UseAxis): string | null {
  const end = group.kaplan_meier.find(({ survival }) => survival <= 0);
  if (end === undefined || end.x >= lastSeen(group)) return null;
  return `${group.name}: at ${axis.sayExact(end.x)} all that were under watch, ${formatWhole(end.at_risk)}, had failed, so the curve ends at 0, though others were seen to run beyond.`;
}
