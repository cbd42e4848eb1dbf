import { momentOf, type PastJob } from '#demo-fleet/past-jobs.ts';
import { type ReportContent, reportContent } from '#server/contract/repair.ts';
import type { Cause } from '#server/contract/words.ts';
import { programActor } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';
import { closePacket } from '#server/services/packets/close-packet.ts';
import { listPackets } from '#server/services/packets/list-packets.ts';
import { openPacket } from '#server/services/packets/open-packet.ts';
import { saveReport } from '#server/services/packets/save-report.ts';
import { sendToShop } from '#server/services/shop/send-to-shop.ts';
import { findVehicle } from '#server/services/vehicles/find-vehicle.ts';
import { assessOne } from './assess-one.ts';
import { DEMO_ACCOUNTS } from './demo-accounts.ts';
import { recordSteps, type Steps } from './record-steps.ts';

const nameOf = (role: string) => DEMO_ACCOUNTS.find((one) => one.role === role)?.name ?? role;
export const PLANNER = programActor(nameOf('planner'));
export const SHOP = programActor(nameOf('shop'));

/** One visit to the shop in the past: sent there, tested, reported and closed, each with the clock of then. */
export async function visitShop(ctx: Context, job: PastJob): Promise<void> {
  const planner = { ...ctx, actor: PLANNER, now: () => momentOf(job.day, 6.5) };
  const seen = await findVehicle(planner, job.unit);
  const { depot, odometerKm } = seen.vehicle;
  // A sending that broke off and goes on finds its visits made.
  const made = await listPackets(planner, { vehicle: job.unit, state: 'closed', limit: 1 }, 'metric');
  if (made.total > 0 || depot === null || odometerKm === null) return;
  await assessOne(planner, job.unit);
  await sendToShop(planner, job.unit, { depot, note: visits[job.kind].note });
  const shop = (hour: number): Context => ({ ...ctx, actor: SHOP, now: () => momentOf(job.day, hour) });
  const id = await openPacket(shop(7.5), { vehicle: job.unit });
  await recordSteps(shop(8), id, visits[job.kind].steps, MINUTES_A_STEP);
  const { closing } = visits[job.kind];
  const report = visits[job.kind].report(job, seen.platform?.converter ?? null);
  await saveReport(shop(12), id, { version: 1, ...report });
  await closePacket(shop(14), id, {
    version: 2,
    odometer_km: job.converter?.odometerKm ?? Math.round(odometerKm),
    calm_km: CALM_KM,
    without_cooler: '',
    // The instrument of a vehicle in the shop stands where it stood, whatever arrives of it later.
    as_measured: true,
    ...closing,
  });
  await assessOne({ ...ctx, actor: PLANNER, now: () => momentOf(job.day, 15) }, job.unit);
}

const CALM_KM = 8_000;
const MINUTES_A_STEP = 25;

interface Visit {
  note: string;
  steps: Steps;
  report: (
    job: PastJob,
    bought: { price: number; core_deposit: number; spare_cores: number } | null,
  ) => ReportContent;
  closing: { outcome: 'repaired' | 'no_fault_found' | 'declined'; reason: string; ended?: 'failed' };
}

/** As an instrument shows it, A. */
export const asRead = (amps: number): number => Math.round(amps * 100) / 100;
const nothing = () => reportContent.parse({});
const right = { step: 'fluid', level: 'right', colour: 'amber', smell: 'usual' } as const;

const visits: Record<PastJob['kind'], Visit> = {
  converter: {
    note: 'Slips on the hill out of town.',
    steps: ({ limitRpm, expectedA }) => [
      { step: 'fluid', level: 'right', colour: 'brown', smell: 'usual' },
      { step: 'road_test', duty_pct: 78, slip_rpm: Math.round(limitRpm * 2.1), seconds: 40, falls: false },
      { step: 'solenoid_current', off_a: 0.04, on_a: asRead(expectedA * 0.97), click: 'heard' },
      { step: 'pressure', place: 'line', off: 4.3, on: 6.2, smallest_step: 0.1 },
      { step: 'pan', debris: 'lining', notes: 'Flakes on the magnet and in the filter.' },
      { step: 'cooler', litres: 0.7, seconds: 20 },
    ],
    report: ({ converter }, bought) =>
      reportContent.parse({
        parts: [
          {
            kind: 'converter',
            source: converter?.source === 'new' ? 'new' : 'rebuilt',
            supplier: converter?.supplier ?? '',
            price: bought?.price ?? null,
            core_deposit: bought?.core_deposit ?? null,
            core: (bought?.spare_cores ?? 0) > 0 ? 'kept' : 'returned',
          },
        ],
        cooler: {
          done: 'flushed',
          minutes: 95,
          method: 'pumped_through_filter',
          both_directions: true,
          filter_clean: true,
          flow_before_l_min: 2.1,
          flow_after_l_min: 4.4,
        },
        teardown: {
          cause: causeOf(converter?.mode ?? ''),
          cut_open: (bought?.spare_cores ?? 0) > 0,
          notes: '',
        },
      }),
    closing: { outcome: 'repaired', reason: '', ended: 'failed' },
  },
  wiring: {
    note: 'Driver reports that the engine runs up now and then.',
    steps: ({ expectedA }) => [
      right,
      { step: 'road_test', duty_pct: 82, slip_rpm: 12, seconds: 35, falls: false },
      {
        step: 'solenoid_current',
        off_a: 0.03,
        on_a: asRead(expectedA * 0.35),
        click: 'not_heard',
        notes: 'Comes and goes when the harness is moved.',
      },
    ],
    report: () =>
      reportContent.parse({
        parts: [{ kind: 'wiring', what: 'Connector at the transmission', source: 'new', price: 46 }],
        teardown: { cause: 'wiring_fault' },
      }),
    closing: { outcome: 'repaired', reason: 'Connector corroded; cleaned out and replaced.' },
  },
  no_fault_found: {
    note: 'Slip is rising; please look while it is in for its service.',
    steps: ({ expectedA }) => [
      right,
      { step: 'road_test', duty_pct: 85, slip_rpm: 22, seconds: 60, falls: false },
      { step: 'solenoid_current', off_a: 0.05, on_a: asRead(expectedA * 1.02), click: 'heard' },
    ],
    report: nothing,
    closing: {
      outcome: 'no_fault_found',
      reason: 'Holds on the road. Fluid and filter are as they should be.',
    },
  },
  declined: {
    note: 'Slip is rising; a converter could be fitted before the season.',
    steps: () => [{ step: 'fluid', level: 'right', colour: 'brown', smell: 'usual' }],
    report: nothing,
    closing: {
      outcome: 'declined',
      reason: 'Needed on the road until the timetable changes. Look again then.',
    },
  },
};

function causeOf(mode: string): Cause {
  if (mode.includes('seal')) return 'piston_seal';
  return mode.includes('broken up') ? 'lining_lost' : 'lining_worn';
}
