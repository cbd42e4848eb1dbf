import type { Database } from '#db/client.ts';
import { findCodeSenders } from '#db/queries/find-code-senders.ts';
import { spellCode } from '#server/contract/spell-code.ts';
import { addReach, type Reach, touchFleet } from '#server/services/fleet/touch-fleet.ts';

/** Leaves the vehicles that have lately sent one of these codes to the next assessment. */
export async function touchSenders(transaction: Database, codes: ReadonlySet<string>): Promise<void> {
  if (codes.size === 0) return;
  const reaches = new Map<number, Reach>();
  for (const { vehicle, code } of await findCodeSenders(transaction)) {
    const spelled = spellCode(code);
    if (spelled === null) continue;
    if (codes.has(spelled.code) || (spelled.family !== null && codes.has(spelled.family)))
      addReach(reaches, vehicle, 'assessment');
  }
  await touchFleet(transaction, reaches);
}
