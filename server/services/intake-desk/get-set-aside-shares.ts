import { readSetAsideShares } from '#db/queries/intake-desk/read-set-aside-shares.ts';
import type { SetAsideShares } from '#server/contract/intake.ts';
import { type SetAsideReason, setAsideReasons } from '#server/contract/words.ts';
import type { Context } from '#server/services/context.ts';
import { requireAllDepots } from '#server/services/sight.ts';
import { listGatewayIds } from './list-gateways.ts';
import { nameSenders } from './name-senders.ts';

const MONTHS = 12;

/** How much of what each gateway brought was set aside, by month and reason. */
export async function getSetAsideShares({ db, actor, now }: Context): Promise<SetAsideShares> {
  requireAllDepots(actor, 'What each gateway brought');
  const today = now();
  const months = Array.from({ length: MONTHS }, (_, i) =>
    new Date(Date.UTC(today.getUTCFullYear(), today.getUTCMonth() - MONTHS + 1 + i, 1))
      .toISOString()
      .slice(0, 7),
  );
  const senders = await listGatewayIds(db);
  const since = new Date(`${months[0]}-01T00:00:00Z`);
  const rows = await readSetAsideShares(db, { since, senders });
  const nameSender = await nameSenders(db, senders);
  return {
    months,
    gateways: [...new Set(rows.map(({ sender }) => sender))].flatMap((id) => {
      const sender = nameSender(id);
      const own = rows.filter((row) => row.sender === id);
      return sender === null ? [] : [{ sender, months: months.map((month) => sumMonth(month, own)) }];
    }),
  };
}

function sumMonth(month: string, rows: readonly { month: string; reason: string | null; n: number }[]) {
  const setAside: Partial<Record<SetAsideReason, number>> = {};
  let readings = 0;
  for (const row of rows) {
    if (row.month !== month) continue;
    readings += row.n;
    const reason = setAsideReasons.find((one) => one === row.reason);
    if (reason !== undefined && row.n > 0) setAside[reason] = row.n;
  }
  return { month, readings, set_aside: setAside };
}
