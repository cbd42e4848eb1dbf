import type { AnalysedLife, LivesReply } from '#server/contract/lives.ts';
import { MODE_NOT_RECORDED } from '#server/engine/life/estimate-incidence.ts';
import { analyseLives } from '#server/services/analysis/analyse-lives.ts';
import { exposureWords } from './group-lives.ts';

/**
 * A group for each mode, most failures first: in each all lives, those that failed otherwise taken as running on where
 * they failed. The same lives are in every group, so groups are not compared by a test; the regression is of all failures.
 */
export function analyseByMode(lives: readonly AnalysedLife[], confidence: number): LivesReply {
  const whole = analyseLives({ lives: [...lives], confidence }, exposureWords);
  const counts = new Map<string, number>();
  for (const { event, mode = MODE_NOT_RECORDED, count } of lives)
    if (event) counts.set(mode, (counts.get(mode) ?? 0) + count);
  const modes = [...counts]
    .sort((a, b) => b[1] - a[1] || a[0].localeCompare(b[0], 'en'))
    .map(([mode]) => mode);
  if (modes.length === 0) return whole;
  const groups = modes.flatMap((mode) => {
    const own = lives.map((life): AnalysedLife => {
      const failed = life.event && (life.mode ?? MODE_NOT_RECORDED) === mode;
      return { ...life, event: failed, group: mode, covariates: undefined };
    });
    return analyseLives({ lives: own, confidence }).groups;
  });
  return {
    ...whole,
    groups,
    logrank: null,
    declined: {
      ...whole.declined,
      logrank: {
        reason: 'each mode is looked at in the same lives',
        needed: 'groups of different lives',
        got: `${modes.length} ${modes.length === 1 ? 'mode' : 'modes'} of the same ${whole.n} lives`,
      },
    },
    notes: [
      ...whole.notes,
      'Each group holds all lives; those that failed in another mode are taken as running on where they failed, as if no mode had to do with another.',
    ],
  };
}
