import type { AnalysedLife, LivesReply, LivesRequest } from '#server/contract/lives.ts';
import { isDeclined } from '#server/engine/declined.ts';
import type { ObservedLife } from '#server/engine/life/life-model.ts';
import { testLogRank } from '#server/engine/life/test-log-rank.ts';
import { analyseExposures } from './analyse-exposures.ts';
import { analyseGroup } from './analyse-life-group.ts';

/** The group of lives that name none, where none does, and where others do. */
const ALL = 'all';
export const NO_GROUP_NAMED = 'no group named';

/** Every statistic of life data; what one of them cannot be had of is null, with its reason. */
export function analyseLives(
  { lives, confidence }: LivesRequest,
  exposureWords?: Readonly<Record<string, string>>,
): LivesReply {
  const groups = groupLives(lives);
  const described = [...groups].map(([name, own]) => analyseGroup(name, own, confidence));
  const exposures = analyseExposures(lives, confidence, exposureWords);
  const reply: LivesReply = {
    n: sumOf(described, 'n'),
    events: sumOf(described, 'events'),
    groups: described,
    logrank: null,
    cox: null,
    confidence,
    notes: [...sayModesOfRunning(lives), ...exposures.notes],
    declined: {},
  };
  if (isDeclined(exposures.cox)) reply.declined.cox = exposures.cox.declined;
  else reply.cox = exposures.cox;
  const test = testLogRank([...groups.values()]);
  if (isDeclined(test)) reply.declined.logrank = test.declined;
  else {
    const { chisq, df, p, observed, expected } = test;
    const names = [...groups.keys()];
    reply.logrank = {
      chisq,
      df,
      p,
      groups: names.map((name, i) => ({ name, observed: observed[i] ?? 0, expected: expected[i] ?? 0 })),
    };
  }
  return reply;
}

/** In the order in which groups are first named. */
function groupLives(lives: readonly AnalysedLife[]): Map<string, ObservedLife[]> {
  const groups = new Map<string, ObservedLife[]>();
  const unnamed = lives.some(({ group }) => group !== undefined) ? NO_GROUP_NAMED : ALL;
  for (const life of lives) {
    const name = life.group ?? unnamed;
    const own = groups.get(name) ?? [];
    if (own.length === 0) groups.set(name, own);
    own.push(observe(life));
  }
  return groups;
}

function observe({ entry, exit, event, count, mode }: AnalysedLife): ObservedLife {
  return event && mode !== undefined ? { entry, exit, event, count, mode } : { entry, exit, event, count };
}

function sayModesOfRunning(lives: readonly AnalysedLife[]): string[] {
  let running = 0;
  for (const { event, mode, count } of lives) if (!event && mode !== undefined) running += count;
  return running === 0
    ? []
    : [`${running} of the lives name a mode, though event is false: a life that ran on has none.`];
}

const sumOf = (groups: readonly { n: number; events: number }[], what: 'n' | 'events') =>
  groups.reduce((sum, group) => sum + group[what], 0);
