import {
  type AnalysedLife,
  analysedLife,
  type LivesRequest,
  livesEnvelope,
  MOST_COVARIATES,
  MOST_LIFE_GROUPS,
} from '#server/contract/lives.ts';
import type { FieldError } from '#server/contract/problems.ts';
import { SlipdriftError } from '#server/errors.ts';
import { listNames } from './analyse-exposures.ts';
import { parseAnalysisBody } from './parse-analysis-body.ts';
import { listFaults, MOST_NAMED, refuseFaults } from './refuse-faults.ts';
import { takePlainLife } from './take-plain-life.ts';

/** Reads the body of a request on lives; what is wrong with it as a whole is an error. */
export function readLivesRequest(body: string): LivesRequest {
  refuseUnfolding(body);
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

/** 100,000 lives with covariates are 200,001 objects and lists, and 1.8 million values. */
const MOST_OBJECTS = 250_000;
const MOST_VALUES = 2_500_000;
const [LIST, OBJECT, COMMA] = [0x5b, 0x7b, 0x2c];

/** Millions of empty lists are a small body, and yet more than memory holds: read, they would end the program. */
function refuseUnfolding(body: string): void {
  let objects = 0;
  let values = 0;
  // Bytes, since the places of a long string are several times slower to look at.
  const bytes = new TextEncoder().encode(body);
  for (let i = 0; i < bytes.length; i++) {
    const code = bytes[i];
    if (code === COMMA) values++;
    else if (code === OBJECT || code === LIST) objects++;
  }
  if (objects <= MOST_OBJECTS && values <= MOST_VALUES) return;
  const [has, what] =
    objects > MOST_OBJECTS ? [objects, 'objects and lists'] : [values, 'values with commas between'];
  throw new SlipdriftError(
    'body_too_large',
    `The body has ${has} ${what}, more than 100000 lives need. Nothing was computed; send at most 100000 lives at once.`,
  );
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
    if (hasLostName(raw)) {
      all++;
      if (faults.length < MOST_NAMED) faults.push(sayLostName(i));
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

/** The schema would drop a covariate of this name without a word. */
function hasLostName(raw: unknown): boolean {
  const covariates = (raw as { covariates?: unknown } | null)?.covariates;
  return typeof covariates === 'object' && covariates !== null && Object.hasOwn(covariates, '__proto__');
}

const sayLostName = (i: number): FieldError => ({
  field: `lives.${i}.covariates.__proto__`,
  message: 'is a name that cannot be taken: give the covariate another',
});

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
