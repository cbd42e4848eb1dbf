import {
  type AnalysedLife,
  analysedLife,
  type LivesRequest,
  livesEnvelope,
  MOST_COVARIATES,
  MOST_LIFE_GROUPS,
} from '#server/contract/lives.ts';
import type { FieldError } from '#server/contract/problems.ts';
import { listNames } from './analyse-exposures.ts';
import { parseAnalysisBody } from './parse-analysis-body.ts';
import { listFaults, MOST_NAMED, refuseFaults } from './refuse-faults.ts';
import { takePlainLife } from './take-plain-life.ts';

/** Reads the body of a request on lives; what is wrong with it as a whole is an error. */
export function readLivesRequest(body: string): LivesRequest {
  const parsed = livesEnvelope.safeParse(
    parseAnalysisBody(body, {
      example: '{"lives": [{"exit": 120000, "event": true}, ...]}',
      leaveOut: 'leave out a field that is not known',
    }),
  );
  if (!parsed.success) {
    const faults = listFaults(parsed.error);
    throw refuseFaults('lives', faults, faults.length);
  }
  const lives = readLives(parsed.data.lives);
  refuseMany(lives);
  return { lives, confidence: parsed.data.confidence };
}

function readLives(given: readonly unknown[]): AnalysedLife[] {
  const lives: AnalysedLife[] = [];
  const faults: FieldError[] = [];
  let all = 0;
  for (const [i, raw] of given.entries()) {
    const plain = takePlainLife(raw);
    if (plain !== null) {
      lives.push(plain);
      continue;
    }
    const parsed = analysedLife.safeParse(raw);
    if (parsed.success) {
      lives.push(parsed.data);
      continue;
    }
    const own = listFaults(parsed.error, ['lives', String(i)]);
    all += own.length;
    if (faults.length < MOST_NAMED) faults.push(...own);
  }
  if (all > 0) throw refuseFaults('lives', faults, all);
  return lives;
}

function refuseMany(lives: readonly AnalysedLife[]): void {
  const groups = new Set(lives.map(({ group }) => group));
  const modes = new Set(lives.flatMap(({ event, mode }) => (event ? [mode] : [])));
  const counts = [
    { what: 'groups', has: groups.size, most: MOST_LIFE_GROUPS },
    { what: 'modes', has: modes.size, most: MOST_LIFE_GROUPS },
    { what: 'covariates', has: listNames(lives).length, most: MOST_COVARIATES },
  ];
  const faults = counts
    .filter(({ has, most }) => has > most)
    .map(({ what, has, most }) => ({
      field: 'lives',
      message: `name ${has} different ${what}; at most ${most} can be taken: join those that are alike, or send them apart`,
    }));
  if (faults.length > 0) throw refuseFaults('lives', faults, faults.length);
}
