import { mkdir, writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { LineCounts } from './arrivals.ts';
import type { Fleet } from './build-fleet.ts';
import { odometerNowKm } from './build-vehicle.ts';
import { DAY_MS, momentText } from './calendar.ts';
import { isStep } from './life-run.ts';
import { kmAt, kmOn } from './plan.ts';
import { platforms } from './platforms.ts';
import type { GatewayKind, Vehicle, VehicleLife } from './vehicle.ts';
import type { FaultKind } from './wear.ts';

interface TruthLife {
  fittedKm: number;
  removedKm: number | null;
  ended: string | null;
  mode: string | null;
  source: string;
  supplier: string | null;
  reported: boolean;
  faultKind: FaultKind;
  /** where the damage began; its effect on slip may come later, at onsetKm */
  faultStartKm: number | null;
  onsetKm: number | null;
  crossingKm: number | null;
}

/** Odometers are true kilometres; `odometerStep` says where the instrument shows others. */
export interface TruthVehicle {
  unit: string;
  platform: string;
  depot: string;
  registered: boolean;
  gateway: GatewayKind;
  faultKind: FaultKind;
  sudden: boolean;
  onsetKm: number | null;
  crossingKm: number | null;
  kmNow: number;
  /** 0 where the limit is passed */
  kmToLimit: number | null;
  /** without sensor bias, software step or noise */
  referenceSlipNowRpm: number;
  limitRpm: number;
  lives: TruthLife[];
  odometerStep: { at: string; offsetKm: number } | null;
  notes: string[];
  /** true kilometres and noise-free reference slip, about every 500 km */
  series: [number, number][];
}

export interface Truth {
  scenario: string;
  seed: string;
  start: string;
  end: string;
  limits: Record<string, number>;
  platformStep: { platform: string; at: string; rpm: number } | null;
  counts: LineCounts;
  vehicles: TruthVehicle[];
}

const km = (value: number): number => Number(value.toFixed(1));
const kmOrNull = (value: number | null): number | null => (value === null ? null : km(value));

export function describeTruth({ scenario, window, vehicles }: Fleet): Truth {
  const step = scenario.platformStep;
  return {
    scenario: scenario.name,
    seed: scenario.seed,
    start: momentText(window.windowDay * DAY_MS),
    end: momentText(window.endMs),
    limits: Object.fromEntries(platforms.map(({ id, limitRpm }) => [id, limitRpm])),
    platformStep:
      step === null
        ? null
        : {
            platform: step.platform,
            at: momentText((window.endDay - step.daysBeforeEnd) * DAY_MS),
            rpm: step.rpm,
          },
    counts: { lines: 0, stored: 0, duplicate: 0, conflicting: 0, refused: 0 },
    vehicles: vehicles.map((vehicle) => describeVehicle(vehicle, window)),
  };
}

function describeVehicle(vehicle: Vehicle, window: Fleet['window']): TruthVehicle {
  const life = vehicle.lives.at(-1);
  if (life === undefined) throw new Error(`vehicle ${vehicle.unit} has no converter`);
  const kmNow = odometerNowKm(vehicle, window);
  const { onsetKm, crossingKm } = life.run;
  const slipNowRpm = Number(slipAtKm(vehicle, life, window, kmNow).toFixed(2));
  const moved = vehicle.odometerStep;
  return {
    unit: vehicle.unit,
    platform: vehicle.platform.id,
    depot: vehicle.depot.id,
    registered: vehicle.registered,
    gateway: vehicle.gateway,
    faultKind: life.fault.kind,
    sudden: life.fault.kind === 'sudden',
    onsetKm: kmOrNull(onsetKm),
    crossingKm: kmOrNull(crossingKm),
    kmNow: km(kmNow),
    kmToLimit: crossingKm === null ? null : km(Math.max(0, crossingKm - kmNow)),
    referenceSlipNowRpm: slipNowRpm,
    limitRpm: vehicle.platform.limitRpm,
    lives: vehicle.lives.map(describeLife),
    odometerStep: moved === null ? null : { at: momentText(moved.day * DAY_MS), offsetKm: moved.offsetKm },
    notes: describeNotes(vehicle, window),
    series: [
      ...vehicle.lives.flatMap((one) => one.run.series).filter(([at]) => at < kmNow),
      [km(kmNow), slipNowRpm],
    ],
  };
}

/** Between the evenings of yesterday and today: in proportion to the way, or before and after a step. */
function slipAtKm(vehicle: Vehicle, life: VehicleLife, window: Fleet['window'], kmNow: number): number {
  const today = window.endDay - window.windowDay;
  const evening = life.run.eveningRpm[today] ?? Number.NaN;
  const before = life.run.eveningRpm[today - 1] ?? evening;
  if (isStep(life.fault)) return kmNow >= life.fault.startKm ? evening : before;
  const fromKm = kmAt(vehicle.plan, window.endDay);
  const dayKm = kmOn(vehicle.plan, window.endDay);
  return dayKm === 0 ? evening : before + ((evening - before) * (kmNow - fromKm)) / dayKm;
}

const describeLife = (life: VehicleLife): TruthLife => ({
  fittedKm: life.fittedKm,
  removedKm: life.removedKm,
  ended: life.ended,
  mode: life.mode,
  source: life.source,
  supplier: life.supplier,
  reported: life.reported,
  faultKind: life.fault.kind,
  faultStartKm: Number.isFinite(life.fault.startKm) ? km(life.fault.startKm) : null,
  onsetKm: kmOrNull(life.run.onsetKm),
  crossingKm: kmOrNull(life.run.crossingKm),
});

function describeNotes(vehicle: Vehicle, window: Fleet['window']): string[] {
  const date = (day: number) => momentText(day * DAY_MS).slice(0, 10);
  const notes: string[] = [];
  if (!vehicle.registered) notes.push('never registered');
  if (vehicle.retired) notes.push(`retired on ${date(vehicle.activeToDay)}`);
  if (vehicle.activeFromDay > window.windowDay)
    notes.push(`first seen on ${date(vehicle.activeFromDay)}, slipping already`);
  if (vehicle.quiet !== null)
    notes.push(`gateway quiet from ${date(vehicle.quiet.fromDay)} to ${date(vehicle.quiet.toDay)}`);
  if (vehicle.odometerStep !== null)
    notes.push(
      `odometer instrument changed on ${date(vehicle.odometerStep.day)}, it then shows ${-vehicle.odometerStep.offsetKm} km less`,
    );
  if (vehicle.softwareStep !== null)
    notes.push(
      `software step on ${date(vehicle.softwareStep.day)}, ${vehicle.softwareStep.rpm.toFixed(1)} rpm`,
    );
  if (vehicle.nuisanceCode !== null)
    notes.push(`unrelated code ${vehicle.nuisanceCode.code} from ${date(vehicle.nuisanceCode.fromDay)}`);
  if (vehicle.lives.some((life) => !life.reported && life.fittedDay !== null))
    notes.push('converter changed, not reported');
  return notes;
}

/** Writes the truth where tests and readers look for it: demo-fleet/truth/<scenario>.json unless told otherwise. */
export async function writeTruth(truth: Truth, path = defaultTruthPath(truth.scenario)): Promise<string> {
  await mkdir(dirname(path), { recursive: true });
  await writeFile(path, `${JSON.stringify(truth)}\n`);
  return path;
}

const defaultTruthPath = (scenario: string): string =>
  fileURLToPath(new URL(`./truth/${scenario}.json`, import.meta.url));
