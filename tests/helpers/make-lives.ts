import { seededRandom } from './seeded-random.ts';

export interface MadeLife {
  entry: number;
  exit: number;
  event: boolean;
  mode?: string;
  group: string;
  covariates: { fluid_c: number; load_pct: number; partial_share: number };
}

/**
 * Lives of one Weibull hazard, shape 2.5, of which fluid temperature takes 0.08 a degree and nothing else anything; some
 * two thirds entered late, at a mileage that nothing tells of. Three groups, two modes, mileages all different.
 */
export function makeLives(size: number, seed = size): MadeLife[] {
  const random = seededRandom(seed);
  const lives: MadeLife[] = [];
  while (lives.length < size) {
    const covariates = {
      fluid_c: 85 + 6 * random.normal(),
      load_pct: 50 + 10 * random.normal(),
      partial_share: random.uniform(),
    };
    const risk = Math.exp(0.08 * (covariates.fluid_c - 85));
    const end = 220_000 * (-Math.log(1 - random.uniform()) / risk) ** (1 / 2.5);
    const entry = random.uniform() < 0.35 ? 0 : 200_000 * random.uniform();
    const seen = entry + 40_000 + 120_000 * random.uniform();
    if (end <= entry) continue;
    const event = end < seen;
    lives.push({
      entry,
      exit: Math.min(end, seen),
      event,
      ...(event ? { mode: random.uniform() < 0.7 ? 'lining' : 'seal' } : {}),
      group: `depot ${Math.floor(3 * random.uniform())}`,
      covariates,
    });
  }
  return lives;
}
