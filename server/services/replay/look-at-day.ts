import type { AssessedVehicle } from '#db/queries/read-assessed-vehicles.ts';
import { assessVehicle } from '#server/engine/assessment/assess-vehicle.ts';
import type { VehicleAssessment } from '#server/engine/assessment/assessment-model.ts';
import { unknownPlatform } from '#server/engine/platform/platform-context.ts';
import { expectAvoidedCost } from '#server/engine/ranking/expect-avoided-cost.ts';
import { toAssessmentInput } from '#server/services/assessment/assessment-input.ts';
import { DEFAULT_HORIZON_KM } from '#server/services/assessment/horizon.ts';
import type { CodeBook } from '#server/services/codes/code-book.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import type { DayColumn } from './day-columns.ts';
import type { Learned } from './learn-as-then.ts';
import { DAY_MS, type PlatformGroup } from './replay-plan.ts';
import type { InBatch } from './start-batch.ts';
import { wasCalm } from './was-calm.ts';

/** What is kept of an assessment until the next; the rest of it is large. */
export interface Assessed {
  columns: Partial<Record<DayColumn, number | null>>;
  levelRpm: number | null;
  codes: readonly string[];
  by: Learned | null;
  with: string;
}

/** What the assessments of a platform have in common on a day. */
export interface DayOfGroup {
  day: number;
  dayEndMs: number;
  platform: PlatformGroup['platform'];
  learned: Learned | null;
  book: CodeBook;
  /** of the replay, km */
  horizonKm: number;
}

/** Assesses a vehicle where something is new, and writes its day down. */
export function lookAtDay(one: InBatch, group: DayOfGroup): void {
  const { day, dayEndMs, platform, learned } = group;
  const facts = one.followed.facts(dayEndMs);
  if (facts === null || facts.lastReadingAt === null) return;
  // Where nobody wrote down when a vehicle was retired, it leaves the list with its last reading.
  if (one.facts.retired && dayEndMs > (one.facts.retiredMs ?? one.facts.lastReadingMs + DAY_MS)) return;
  const knownWith = JSON.stringify([facts.lives, facts.repair]);
  if (one.isNew || one.assessed === null || one.assessed.by !== learned || one.assessed.with !== knownWith) {
    one.assessed = { ...assess(one, facts, group), by: learned, with: knownWith };
    one.isNew = false;
  }
  const { columns, levelRpm, codes } = one.assessed;
  const { limitRpm } = toEngineSettings(platform);
  const nowKm = (facts.odometerKm ?? 0) + facts.offsetKm;
  const life = one.followed.lifeAt(nowKm);
  const all: Partial<Record<DayColumn, number | null>> = {
    ...columns,
    quietDays: Math.floor((dayEndMs - facts.lastReadingAt.getTime()) / DAY_MS),
    isCalm: Number(wasCalm(one.facts, { ...facts, levelRpm, codes, limitRpm }, dayEndMs)),
    km: nowKm,
    life,
    ...one.scores.look(dayEndMs, limitRpm, life),
  };
  for (const [column, value] of Object.entries(all)) one.days[column as DayColumn][day] = value ?? Number.NaN;
}

function assess(
  one: InBatch,
  facts: AssessedVehicle,
  { dayEndMs, platform, learned, book, horizonKm }: DayOfGroup,
): Omit<Assessed, 'by' | 'with'> {
  const settings = toEngineSettings(platform, learned?.life ?? null);
  const input = toAssessmentInput(facts, one.followed.stretches(), book, dayEndMs, platform !== null);
  const context = learned?.context ?? unknownPlatform;
  const found = assessVehicle(input, settings, context, DEFAULT_HORIZON_KM, [horizonKm]);
  const codes = found.codes.map(({ code }) => code);
  return {
    levelRpm: found.levelRpm,
    codes,
    columns: {
      p: found.p,
      moving: found.drifting + found.stepping,
      soonChance: Math.max(found.chancePastLimit, found.chanceSoon),
      chance: found.chanceWithinHorizon,
      suddenChance: found.suddenChance,
      levelRpm: found.levelRpm,
      baselineRpm: found.baseline?.estimate ?? null,
      codes: codes.length,
      isThin: Number(isThin(found)),
      statedChance: expectAvoidedCost(found.chances[0]?.[1] ?? 0, codes.length, settings).chance,
    },
  };
}

const isThin = ({ missing }: VehicleAssessment): boolean =>
  missing.some(({ kind }) => kind === 'few_stretches' || kind === 'no_usable');
