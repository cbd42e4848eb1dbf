import type { Context } from '#server/services/context.ts';
import { listRanking } from '#server/services/inspection/list-ranking.ts';
import { sendToShop } from '#server/services/shop/send-to-shop.ts';

const SENT = 5;
const NOTES = ['Came back with a shudder at 70 km/h.', null, 'Please look at the fluid first.'];

/** The worst vehicles go to the shops of their depots, as a planner would send them: the shop has something to see. */
export async function sendSomeToShop(ctx: Context): Promise<void> {
  const { rows } = await listRanking(ctx, { grade: 'hold,book', limit: SENT });
  for (const [i, { vehicle, depot }] of rows.entries())
    if (depot !== null) await sendToShop(ctx, vehicle, { depot, note: NOTES[i % NOTES.length] ?? null });
}
