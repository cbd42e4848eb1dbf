import type { Database } from '#db/client.ts';
import type { RebuildWindow } from '#db/queries/find-rebuild-windows.ts';
import type { StretchKey } from '#db/queries/find-sealed-stretches.ts';
import { type OdometerStepRow, readOdometerSteps, replaceOdometerSteps } from '#db/queries/odometer-steps.ts';
import { readReadings, type StoredReading } from '#db/queries/read-readings.ts';
import { type KnownTotal, readTotalsWithin } from '#db/queries/read-totals-within.ts';
import { replaceStretches, type WrittenStretch, writeStretch } from '#db/queries/replace-stretches.ts';
import { type BuiltStretches, buildStretches } from '#server/engine/stretches/build-stretches.ts';
import type { toEngineSettings } from './engine-settings.ts';
import { groupBy } from './group-by.ts';
import { findSealed, renumberSealed } from './seal-stretches.ts';

/** Readings around the window that the gates look at: twice what a step of the odometer needs to be confirmed. */
const GUARD = 24;

/** A vehicle whose stretches within a window are to be built again, and how. */
export interface StretchJob {
  window: RebuildWindow;
  lifeAt: (odometerKm: number) => number;
  settings: Pick<
    ReturnType<typeof toEngineSettings>,
    'gate' | 'bandEdgesPct' | 'reference' | 'referenceTorqueNm'
  >;
}

interface Rebuilt {
  /** in order; those not reached before the work was stopped are missing */
  built: number[];
  /** whose stretches are others now */
  changed: Set<number>;
  /** whose odometer has other steps now */
  stepsChanged: Set<number>;
}

/** What comes out the same as it is stored is not written again. Within the caller's transaction. */
export async function rebuildStretches(
  db: Database,
  jobs: readonly StretchJob[],
  stopped: () => boolean = () => false,
): Promise<Rebuilt> {
  const done: Rebuilt = { built: [], changed: new Set(), stepsChanged: new Set() };
  if (jobs.length === 0) return done;
  const windows = jobs.map(({ window }) => window);
  const keys = windows.map(({ vehicle }) => vehicle);
  const readings = await readReadings(db, windows, GUARD);
  const totals = groupBy(await readTotalsWithin(db, windows), ({ vehicle }) => vehicle);
  const steps = groupBy(await readOdometerSteps(db, keys), ({ vehicle }) => vehicle);
  const gone: (StretchKey & { vehicle: number })[] = [];
  const written: WrittenStretch[] = [];
  for (const job of jobs) {
    if (stopped()) break;
    const { vehicle } = job.window;
    const own = readings.get(vehicle) ?? [];
    const known = totals.get(vehicle) ?? [];
    const oldSteps = steps.get(vehicle) ?? [];
    const sealed = await findSealed(db, job.window, known, own);
    const { kept, isMoved } = await renumberSealed(db, vehicle, sealed, job.lifeAt);
    const result = build(job, own, oldSteps, sealed.length > 0);
    const change = findChange(job.window, result, known, sealed, kept);
    gone.push(...change.gone.map((key) => ({ ...key, vehicle })));
    written.push(...change.written);
    if (isMoved || change.gone.length > 0 || change.written.length > 0) done.changed.add(vehicle);
    if (await storeSteps(db, job.window, own, oldSteps, result)) done.stepsChanged.add(vehicle);
    done.built.push(vehicle);
  }
  await replaceStretches(db, gone, written);
  return done;
}

function build(
  { window, lifeAt, settings }: StretchJob,
  readings: readonly StoredReading[],
  steps: readonly OdometerStepRow[],
  isSealed: boolean,
): BuiltStretches {
  const firstAtMs = readings[0]?.atMs ?? window.toAt.getTime();
  const before = steps.findLast(({ at }) => at.getTime() <= firstAtMs);
  return buildStretches(readings, {
    gate: settings.gate,
    bandEdgesPct: settings.bandEdgesPct,
    reference: settings.reference,
    referenceTorqueNm: settings.referenceTorqueNm,
    lifeAt,
    offsetKm: before?.offsetKm ?? 0,
    fromStart: !isSealed && readings.filter(({ atMs }) => atMs < window.fromAt.getTime()).length < GUARD,
  });
}

/** What is to be taken away and written, so that what was built stands in the place of what is known within the window. */
function findChange(
  { vehicle, fromAt, toAt }: RebuildWindow,
  { rows, totals }: BuiltStretches,
  known: readonly KnownTotal[],
  sealed: readonly StretchKey[],
  kept: readonly StretchKey[],
): { gone: StretchKey[]; written: WrittenStretch[] } {
  const spared = new Set(kept.map(nameStretch));
  const bands = new Map<string, typeof rows>();
  for (const row of rows) {
    const own = bands.get(nameStretch(row));
    if (own === undefined) bands.set(nameStretch(row), [row]);
    else own.push(row);
  }
  const built = totals
    .filter(
      (total) =>
        total.firstAtMs <= toAt.getTime() &&
        total.lastAtMs >= fromAt.getTime() &&
        !spared.has(nameStretch(total)),
    )
    .map((total) => writeStretch(vehicle, total, bands.get(nameStretch(total)) ?? []));
  const sealedNames = new Set(sealed.map(nameStretch));
  const open = known.filter((total) => !sealedNames.has(nameStretch(total)));
  const before = new Map(open.map((total) => [nameStretch(total), total.digest]));
  const written = built.filter((one) => before.get(nameStretch(one)) !== one.digest);
  const same = new Set(built.filter((one) => !written.includes(one)).map(nameStretch));
  return { gone: open.filter((total) => !same.has(nameStretch(total))), written };
}

async function storeSteps(
  db: Database,
  { vehicle, fromAt, toAt }: RebuildWindow,
  readings: readonly StoredReading[],
  known: readonly OdometerStepRow[],
  { steps }: BuiltStretches,
): Promise<boolean> {
  const first = readings[0];
  const firstAtMs = first?.atMs ?? toAt.getTime();
  const stepsFrom = firstAtMs < fromAt.getTime() ? fromAt : new Date(firstAtMs + 1);
  const isWithin = (at: Date) => at >= stepsFrom && at <= toAt;
  const old = known.filter(({ at }) => isWithin(at));
  const found = steps.flatMap(({ index, offsetKm }) => {
    const atMs = readings[index]?.atMs;
    if (atMs === undefined || atMs < fromAt.getTime() || atMs > toAt.getTime()) return [];
    return [{ vehicle, at: new Date(atMs), offsetKm }];
  });
  const isSame =
    old.length === found.length &&
    old.every(
      (step, i) => step.at.getTime() === found[i]?.at.getTime() && step.offsetKm === found[i]?.offsetKm,
    );
  if (isSame) return false;
  await replaceOdometerSteps(db, vehicle, { fromAt: stepsFrom, toAt }, found);
  return true;
}

const nameStretch = ({ life, stretch }: { life: number; stretch: number }) => `${life} ${stretch}`;
