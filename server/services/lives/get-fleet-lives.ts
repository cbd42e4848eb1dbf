import {
  type AnalysedLife,
  type FleetLivesQuery,
  type FleetLivesReply,
  type LivesReply,
  MOST_LIFE_GROUPS,
} from '#server/contract/lives.ts';
import { analyseLives } from '#server/services/analysis/analyse-lives.ts';
import type { Context } from '#server/services/context.ts';
import { analyseByMode } from './analyse-by-mode.ts';
import { chooseCovariates } from './choose-covariates.ts';
import { type ChosenLives, chooseLives } from './choose-lives.ts';
import { exposureWords, type GroupedLife, groupLives } from './group-lives.ts';
import { joinRareModes } from './join-rare-modes.ts';
import { listFits } from './list-fits.ts';
import { measureExposures } from './measure-exposures.ts';
import { noteLives } from './note-lives.ts';
import { sayWeeks } from './weeks-within.ts';

/** The statistics of life data on the fleet's own lives. */
export async function getFleetLives(ctx: Context, query: FleetLivesQuery): Promise<FleetLivesReply> {
  const chosen = await chooseLives(ctx, query);
  const used = await measureExposures(ctx, chosen.lives, chosen.records, chosen.period);
  const watched = joinRareModes(chosen.lives, MOST_LIFE_GROUPS);
  const grouped = groupLives(watched, used, query.group_by);
  const { covariates, notes } = chooseCovariates(grouped.lives);
  const lives = grouped.lives.map((one) => toAnalysed(one, covariates));
  const isUsed = covariates.length > 0 || grouped.thirds !== null;
  const weeks = isUsed ? sayWeeks(chosen.period) : null;
  const reply =
    lives.length === 0
      ? nothingWatched(query.confidence)
      : query.group_by === 'mode'
        ? analyseByMode(lives, query.confidence)
        : analyseLives({ lives, confidence: query.confidence }, exposureWords);
  return {
    ...reply,
    notes: [
      ...noteLives(chosen.lives, chosen.watched),
      ...reply.notes,
      ...notes,
      ...(weeks === null ? [] : [weeks]),
    ],
    as_of: ctx.now().toISOString(),
    grouped_by: query.group_by ?? null,
    thirds: grouped.thirds,
    left_out: [...chosen.leftOut, ...grouped.leftOut],
    fits: await listFits(ctx, query.platform),
    choices: listChoices(chosen),
  };
}

function toAnalysed(
  { life, used, group }: GroupedLife,
  covariates: readonly (keyof typeof used)[],
): AnalysedLife {
  const { entry, exit, event, count, mode } = life;
  return {
    entry,
    exit,
    event,
    count,
    mode,
    group,
    covariates:
      covariates.length === 0 ? undefined : Object.fromEntries(covariates.map((name) => [name, used[name]])),
  };
}

function nothingWatched(confidence: number): LivesReply {
  const declined = { reason: 'no lives', needed: 'lives that were watched', got: '0' };
  return {
    n: 0,
    events: 0,
    groups: [],
    logrank: null,
    cox: null,
    confidence,
    notes: [],
    declined: { logrank: declined, cox: declined },
  };
}

function listChoices({
  records,
  platforms,
  depots,
  firstReadingAt,
  lastReadingAt,
}: ChosenLives): FleetLivesReply['choices'] {
  const lives = records.flatMap((record) => record.lives);
  const words = (all: (string | null)[]) =>
    [...new Set(all.filter((one) => one !== null))].sort((a, b) => a.localeCompare(b, 'en'));
  return {
    platforms: platforms.map(({ id, name }) => ({ id, name })),
    depots,
    suppliers: words(lives.map(({ supplier }) => supplier)),
    modes: words(
      lives.map(({ mode, ended }) => (ended === 'failed' || ended === 'preventive' ? mode : null)),
    ),
    first_day: toDay(firstReadingAt),
    last_day: toDay(lastReadingAt),
  };
}

const toDay = (at: Date | null): string | null => at?.toISOString().slice(0, 10) ?? null;
