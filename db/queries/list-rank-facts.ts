import { type Database, rawClient } from '#db/client.ts';

export interface RankedKey {
  key: number;
  platform: string | null;
  /** moment of the assessment, ms since 1970 */
  asOfMs: number;
  /** the word of a shop keeps the list calm about it */
  isCalm: boolean;
}

/** Every vehicle that has a place in the list, and when it was assessed. */
export const listRankedKeys = (db: Database): Promise<RankedKey[]> =>
  rawClient(db)<RankedKey[]>`
    select a.vehicle as key, v.platform, (extract(epoch from a.as_of) * 1000)::float8 as "asOfMs",
      a.calm_packet is not null as "isCalm"
    from assessments a join vehicles v on v.key = a.vehicle
    where not v.retired`;

export interface RankFactsRow {
  key: number;
  asOfMs: number;
  facts: unknown;
}

/** What orders vehicles within another horizon, as stored. */
export const readRankFacts = (db: Database, keys: readonly number[]): Promise<RankFactsRow[]> =>
  rawClient(db)<RankFactsRow[]>`
    select vehicle as key, (extract(epoch from as_of) * 1000)::float8 as "asOfMs",
      jsonb_build_object('chances', facts->'chances', 'codes', facts->'codes', 'levelRpm', facts->'levelRpm',
        'baselineRpm', facts->'baselineRpm') as facts
    from assessments where vehicle = any(${keys as number[]}::integer[])`;
