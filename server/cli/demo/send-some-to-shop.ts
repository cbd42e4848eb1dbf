import { writeRoadTest } from '#demo-fleet/write-road-test.ts';
import type { Context } from '#server/services/context.ts';
import { listRanking } from '#server/services/inspection/list-ranking.ts';
import { openPacket } from '#server/services/packets/open-packet.ts';
import { recordRoadTest } from '#server/services/packets/record-road-test.ts';
import { sendToShop } from '#server/services/shop/send-to-shop.ts';
import { asRead, SHOP } from './past-visits.ts';
import { recordSteps } from './record-steps.ts';

const SENT = 5;
const NOTES = ['Came back with a shudder at 70 km/h.', null, 'Please look at the fluid first.'];
/** Over its limit by so much, so that the road test leaves no doubt. */
const CLEAR_OF_LIMIT = 1.25;
const USUAL_LIMIT_RPM = 150;

/** The worst vehicles go to the shops of their depots, as a planner would send them; the work on the first has begun. */
export async function sendSomeToShop(ctx: Context): Promise<void> {
  const { rows } = await listRanking(ctx, { grade: 'hold,book', limit: SENT });
  for (const [i, { vehicle, depot, ...row }] of rows.entries()) {
    if (depot === null) continue;
    await sendToShop(ctx, vehicle, { depot, note: NOTES[i % NOTES.length] ?? null });
    const id = await openPacket(ctx, { vehicle });
    if (i === 0) await beginWork({ ...ctx, actor: SHOP }, id, { ...row, vehicle });
  }
}

/** Fluid, a recorded road test and the current: half of the way through the tree. */
async function beginWork(
  ctx: Context,
  id: number,
  row: { vehicle: string; reference_slip_rpm: number | null; limit_rpm: number | null },
): Promise<void> {
  await recordSteps(ctx, id, () => [
    { step: 'fluid', level: 'right', colour: 'brown', smell: 'usual', notes: 'Sample taken.' },
  ]);
  const slipRpm = Math.max(row.reference_slip_rpm ?? 0, CLEAR_OF_LIMIT * (row.limit_rpm ?? USUAL_LIMIT_RPM));
  const bytes = Buffer.from(writeRoadTest({ seed: row.vehicle, slipRpm }));
  await recordRoadTest(ctx, id, { name: `${row.vehicle}-road-test.csv`, bytes, asMeasured: false });
  await recordSteps(ctx, id, ({ expectedA }) => [
    { step: 'solenoid_current', off_a: 0.05, on_a: asRead(expectedA * 0.98), click: 'heard' },
  ]);
}
