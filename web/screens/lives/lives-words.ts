import type { FleetLivesQuery, LifeFit, LifeGrouping } from '#server/contract/lives.ts';
import type { LifeSource } from '#server/contract/words.ts';

export const groupingWords: Record<LifeGrouping, string> = {
  platform: 'platform',
  depot: 'depot',
  source: 'source of the unit',
  supplier: 'supplier',
  mode: 'what failed',
  fluid_c: 'fluid temperature',
  hot_pct: 'time with hot fluid',
  load_pct: 'load',
  partial_lockup_pct: 'time in partial lockup',
  heat_mj_per_1000km: 'clutch heat',
};

export const sourceWords: Record<LifeSource, string> = {
  original: 'original',
  new: 'new',
  rebuilt: 'rebuilt',
  used: 'used',
};

export const recordsWords: Record<FleetLivesQuery['records'], { label: string; words: string }> = {
  first_reading: {
    label: 'since the first reading',
    words:
      'A life enters where its vehicle was first seen. Take this unless you know that every replacement is on record.',
  },
  fitting: {
    label: 'since fitting',
    words:
      'Lives count from their first kilometre, those that ended before the first reading too. Only sound where every replacement since the vehicles were new is on record.',
  },
};

/** `said` goes on after 'lives count since fitting; '. */
export const countWords: Record<FleetLivesQuery['count'], { label: string; said: string; words: string }> = {
  failed: {
    label: 'failed',
    said: 'only failed ones as failed',
    words: 'A unit taken out before counts as running on.',
  },
  failed_and_preventive: {
    label: 'also taken out with a fault found',
    said: 'those taken out with a fault found as failed too',
    words: 'A unit taken out before it failed, with a fault found in it, counts as a failure there.',
  },
};

export const basisWords: Record<LifeFit['basis'], string> = {
  own: 'its own failures',
  shared_shape: 'its few own failures, with the shape of the fleet',
  fleet: 'the fleet: none of its own has failed',
  expected: 'the expected life of the settings',
};
