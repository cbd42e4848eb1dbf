import type { PacketRow } from '#db/queries/find-packet.ts';
import { causeWords } from '#server/contract/packet-words.ts';
import type { Closing } from '#server/contract/repair.ts';
import { toCause } from './weigh-cooler.ts';

interface FittedLife {
  fittedKm: number;
}

/** How a job was closed; null while it is open. `lives` of the vehicle, in order. */
export function toClosing(packet: PacketRow['packet'], lives: readonly FittedLife[]): Closing | null {
  const { outcome, closedAt, closedBy, odometerKm } = packet;
  if (outcome === null || closedAt === null || odometerKm === null) return null;
  const cause = toCause(packet.cause);
  const begun = lives.findIndex(({ fittedKm }) => fittedKm === packet.newLifeKm);
  return {
    outcome,
    at: closedAt.toISOString(),
    by: closedBy ?? '',
    work_at: (packet.workAt ?? closedAt).toISOString(),
    odometer_km: Math.round(odometerKm),
    cause,
    cause_words: cause === null ? null : causeWords[cause],
    reason: packet.reason,
    without_cooler: packet.withoutCooler,
    calm_until_km: packet.calmUntilKm === null ? null : Math.round(packet.calmUntilKm),
    ended: packet.ended,
    new_life: packet.newLifeKm === null || begun < 0 ? null : begun + 1,
  };
}
