import type { UpkeepRun } from '#db/queries/upkeep/upkeep-runs.ts';

const DAY_MS = 86_400_000;
const HOUR_MS = 3_600_000;

/** When upkeep is due again after a run: a day later, an hour later where not all of it was done. */
export const nextUpkeepAt = ({ startedAt, state }: Pick<UpkeepRun, 'startedAt' | 'state'>): Date =>
  new Date(startedAt.getTime() + (state === 'done' ? DAY_MS : HOUR_MS));
