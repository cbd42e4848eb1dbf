import type { LifeInput } from '#server/contract/fleet.ts';
import { DAY_MS, dayOf } from './calendar.ts';
import type { SetUp } from './set-up.ts';
import type { Truth, TruthVehicle } from './truth.ts';

/** A visit to the shop before the readings end. */
export interface PastJob {
  kind: 'converter' | 'wiring' | 'no_fault_found' | 'declined';
  unit: string;
  platform: string;
  /** the day on which the work was done, counted like all days here */
  day: number;
  /** the converter that was fitted then, as the shop reports it; null where none was */
  converter: {
    odometerKm: number;
    source: LifeInput['source'];
    supplier: string | null;
    mode: string;
  } | null;
}

const EARLIEST_DAYS_BEFORE_END = 330;
/** By then the new converter has run far enough to tell whether the repair held. */
const LATEST_DAYS_BEFORE_END = 30;
const WIRING_DAYS_BEFORE_END = 110;
const NO_FAULT_DAYS_BEFORE_END = 26;
const DECLINED_DAYS_BEFORE_END = 19;
/** Vehicles so far from the limit are not near the top of any list. */
const FAR_KM = 10_000;

/** Which of the visits of the past the shop reports by itself, in the order of their days. */
export function choosePastJobs({ setUp, truth }: { setUp: SetUp; truth: Truth }): PastJob[] {
  const endDay = dayOf(Date.parse(truth.end));
  const plain = truth.vehicles.filter(({ registered, odometerStep }) => registered && odometerStep === null);
  const changed = plain
    .flatMap((vehicle) => toConverterJob(vehicle, setUp.lives))
    .filter(({ day }) => day > endDay - EARLIEST_DAYS_BEFORE_END && day < endDay - LATEST_DAYS_BEFORE_END)
    .sort((one, other) => other.day - one.day);
  const onePerPlatform = changed.filter(
    (job, i) => changed.findIndex(({ platform }) => platform === job.platform) === i,
  );
  const sound = plain.filter(({ lives, notes, gateway }) => {
    const [life] = lives;
    return lives.length === 1 && life?.faultKind === 'none' && notes.length === 0 && gateway === 'full';
  });
  const far = plain
    .filter(
      ({ kmToLimit, kmNow, onsetKm, faultKind, notes }) =>
        (kmToLimit ?? 0) > FAR_KM &&
        kmNow > (onsetKm ?? Number.POSITIVE_INFINITY) &&
        ['linear', 'accelerating'].includes(faultKind) &&
        notes.length === 0,
    )
    .sort((one, other) => (one.kmToLimit ?? 0) - (other.kmToLimit ?? 0));
  const visit = (kind: PastJob['kind'], vehicle: TruthVehicle | undefined, before: number): PastJob[] =>
    vehicle === undefined
      ? []
      : [{ kind, unit: vehicle.unit, platform: vehicle.platform, day: endDay - before, converter: null }];
  return [
    ...onePerPlatform,
    ...visit('wiring', sound[Math.floor(sound.length / 3)], WIRING_DAYS_BEFORE_END),
    // The slower slip rises, the longer the word of the shop stands.
    ...visit('no_fault_found', far.at(-1), NO_FAULT_DAYS_BEFORE_END),
    ...visit('declined', far[Math.min(1, far.length - 2)], DECLINED_DAYS_BEFORE_END),
  ].sort((one, other) => one.day - other.day);
}

/** What was done suddenly left nothing to flag before. */
const slowModes = ['lining worn', 'lining burnt', 'lining broken up', 'apply seal leaking'];

function toConverterJob({ unit, platform }: TruthVehicle, lives: readonly LifeInput[]): PastJob[] {
  const own = lives.filter(({ vehicle }) => vehicle === unit);
  const [next, old] = [own.at(-1), own.at(-2)];
  if (next?.fitted_at == null || old?.mode == null || old.removed_at == null) return [];
  if (old.ended !== 'failed' || !slowModes.includes(old.mode)) return [];
  const day = dayOf(Date.parse(next.fitted_at));
  const { fitted_km: odometerKm, source, supplier = null } = next;
  return [
    { kind: 'converter', unit, platform, day, converter: { odometerKm, source, supplier, mode: old.mode } },
  ];
}

/** What the office enters where the shop reports these changes by itself: the old converter, as if it still ran. */
export function withoutReported(setUp: SetUp, jobs: readonly PastJob[]): SetUp {
  const fittedKm = new Map(
    jobs.flatMap(({ unit, converter }) => (converter === null ? [] : [[unit, converter.odometerKm]])),
  );
  return {
    ...setUp,
    lives: setUp.lives.flatMap((life): LifeInput[] => {
      const at = fittedKm.get(life.vehicle);
      if (at === undefined || (life.removed_km ?? 0) < at) return life.fitted_km === at ? [] : [life];
      const { removed_km: _km, removed_at: _at, ended: _ended, mode: _mode, ...running } = life;
      return [running];
    }),
  };
}

/** Beginning of a day, and a moment of it. */
export const momentOf = (day: number, hour: number): Date => new Date(day * DAY_MS + hour * 3_600_000);
