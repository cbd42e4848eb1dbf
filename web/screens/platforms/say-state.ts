import type { PlatformSummary } from '#server/contract/movement.ts';
import { formatUtcDate } from '#web/format/format-date.ts';
import { formatWhole } from '#web/format/format-number.ts';

/** The last steps of a platform, newest first, or why there are none. */
export function sayState({ state, events }: Pick<PlatformSummary, 'state' | 'events'>): string[] {
  switch (state) {
    case 'not_yet':
      return ['nothing assessed yet'];
    case 'too_few_vehicles':
      return ['too few vehicles to tell'];
    case 'too_few_weeks':
      return ['too few weeks to tell'];
    case 'learned':
      return events.length === 0
        ? ['no step found']
        : events.map(
            ({ at, size_rpm, vehicles }) =>
              `${formatUtcDate(at)}: ${size_rpm > 0 ? '+' : ''}${formatWhole(size_rpm)} rpm on ${vehicles} vehicles`,
          );
  }
}
