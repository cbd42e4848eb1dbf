import type { Counts } from './counts.ts';

/**
 * What became of a delivery that took several tries under one key, as if it had taken one: what an earlier try stored
 * counts as stored, not as a duplicate. Until the latest try has come as far as the earlier one, its lines are all
 * known. Another body under the same key is counted by itself.
 */
export function joinTries(earlier: Counts | null, latest: Counts, finished: boolean): Counts {
  if (earlier === null) return latest;
  const stored = earlier.stored + latest.stored;
  if (!finished && latest.received < earlier.received)
    return { ...earlier, received: earlier.received + latest.stored, stored };
  if (latest.duplicate < earlier.stored) return latest;
  return { ...latest, stored, duplicate: latest.duplicate - earlier.stored };
}
