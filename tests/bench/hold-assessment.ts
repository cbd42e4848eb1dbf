import type { RawClient } from '#db/client.ts';

/** The lock of `db/queries/claim-vehicles.ts`: without it nobody takes vehicles in hand. */
const CLAIM_LOCK = 730_511_506;

/** Keeps the background assessment waiting until the answer is called. */
export async function holdAssessment(client: RawClient): Promise<() => Promise<void>> {
  const own = await client.reserve();
  await own`select pg_advisory_lock(${CLAIM_LOCK})`;
  return async () => {
    await own`select pg_advisory_unlock(${CLAIM_LOCK})`;
    own.release();
  };
}
