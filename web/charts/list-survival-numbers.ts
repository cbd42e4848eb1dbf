import type { LivesGroup } from '#server/contract/lives.ts';
import { formatWhole, noFigure } from '#web/format/format-number.ts';
import type { NumbersTable } from './numbers.ts';
import { stepAt } from './steps.ts';
import type { UseAxis } from './use-axis.ts';

const share = (value: number | null): string => (value === null ? noFigure : value.toFixed(4));
export const plainUse = (x: number, { one }: UseAxis): string => String(Math.round((x / one) * 1000) / 1000);

/** Survival with its bounds, one table a group, a row where lives failed. */
export const listSurvivalNumbers = (groups: readonly LivesGroup[], axis: UseAxis): NumbersTable[] =>
  groups.map((group) => ({
    caption: `Survival, ${group.name}`,
    columns: [
      { title: axis.unit, kind: 'figure' },
      { title: 'under watch', kind: 'figure' },
      { title: 'failed', kind: 'figure' },
      { title: 'last seen running until the next', kind: 'figure' },
      { title: 'still running', kind: 'figure' },
      { title: 'error', kind: 'figure' },
      { title: 'low', kind: 'figure' },
      { title: 'high', kind: 'figure' },
    ],
    rows: group.kaplan_meier.map((point) => [
      plainUse(point.x, axis),
      formatWhole(point.at_risk),
      formatWhole(point.events),
      formatWhole(point.censored),
      share(point.survival),
      share(point.se),
      share(point.low),
      share(point.high),
    ]),
  }));

/** Cumulative hazard, one table a group. */
export const listHazardNumbers = (groups: readonly LivesGroup[], axis: UseAxis): NumbersTable[] =>
  groups.map((group) => ({
    caption: `Cumulative hazard, ${group.name}`,
    columns: [
      { title: axis.unit, kind: 'figure' },
      { title: 'under watch', kind: 'figure' },
      { title: 'cumulative hazard', kind: 'figure' },
      { title: 'error', kind: 'figure' },
    ],
    rows: group.nelson_aalen.map((point) => [
      plainUse(point.x, axis),
      formatWhole(stepAt(group.kaplan_meier, point.x)?.at_risk ?? 0),
      share(point.cumulative_hazard),
      share(point.se),
    ]),
  }));
