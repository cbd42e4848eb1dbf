import { type FindingRow, listFindings } from '#db/queries/find-packet.ts';
import { type ClosedJobRow, listClosedJobs } from '#db/queries/list-packets.ts';
import { causeWords, outcomeWords } from '#server/contract/packet-words.ts';
import type { EarlierJob } from '#server/contract/packets.ts';
import type { Actor } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';
import { isWithin } from '#server/services/fleet/other-depots.ts';
import type { StoredFlag, StoredJudgement } from './stored-packet.ts';
import { toCause } from './weigh-cooler.ts';

const MOST_OWN = 30;
const MOST_SISTERS = 12;

interface Of {
  packet: number;
  vehicle: number;
  platform: string | null;
}

/** What earlier jobs came to, on the vehicle itself and on the others of its platform. */
export async function listEarlierJobs(
  ctx: Context,
  { packet, vehicle, platform }: Of,
): Promise<{ own: EarlierJob[]; sisters: EarlierJob[] }> {
  const [own, others] = await Promise.all([
    listClosedJobs(ctx.db, { vehicle, before: packet }, MOST_OWN),
    platform === null ? [] : listClosedJobs(ctx.db, { platform, notVehicle: vehicle }, MOST_SISTERS),
  ]);
  const ids = [...own, ...others].map((row) => row.packet.id);
  const found = ids.length === 0 ? [] : await listFindings(ctx.db, ids);
  return {
    own: own.map((row) => toJob(row, found, { unit: seesOwn(ctx.actor), packet: mayOpen(ctx.actor, row) })),
    sisters: others.map((row) => {
      const isSeen = seesSister(ctx, row);
      return toJob(row, found, { unit: isSeen, packet: isSeen });
    }),
  };
}

const seesOwn = ({ link }: Actor): boolean => link === null;

/** Whether the one who asks sees the packet of a closed job, as `packetSeenBy` has it. */
function mayOpen({ depots, role, link }: Actor, { packet, depot }: ClosedJobRow): boolean {
  if (link !== null) return false;
  if (depots === null) return true;
  const has = (own: string | null) => own !== null && depots.includes(own);
  return has(packet.depot) || (role !== 'shop' && has(depot));
}

/** Who holds a link, or works in a shop, learns what was found and not on which vehicle. */
const seesSister = (ctx: Context, { depot }: ClosedJobRow): boolean =>
  ctx.actor.link === null && ctx.actor.role !== 'shop' && isWithin(ctx, depot);

function toJob(
  { packet, unit }: ClosedJobRow,
  found: readonly FindingRow[],
  seen: { unit: boolean; packet: boolean },
): EarlierJob {
  const outcome = packet.outcome ?? 'no_fault_found';
  const cause = toCause(packet.cause);
  const said = outcome === 'repaired' && cause !== null ? causeWords[cause] : outcomeWords[outcome];
  const newest = new Map<string, FindingRow>();
  for (const row of found) if (row.packet === packet.id && !newest.has(row.step)) newest.set(row.step, row);
  return {
    packet: seen.packet ? packet.id : null,
    vehicle: seen.unit ? unit : null,
    closed_at: (packet.closedAt ?? packet.openedAt).toISOString(),
    odometer_km: Math.round(packet.odometerKm ?? 0),
    converter_km: packet.converterKm === null ? null : Math.round(packet.converterKm),
    outcome,
    cause,
    words: said,
    flagged_slip_rpm: (packet.flag as StoredFlag).metric.reference_slip_rpm,
    findings: [...newest.values()].reverse().map((row) => {
      const { verdict, words } = row.judgement as StoredJudgement;
      return { step: row.step, verdict, words };
    }),
  };
}
