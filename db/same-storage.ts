import { type Database, rawClient } from './client.ts';

/** The tables were replaced by those of a backup while something was under way that began on the old ones. */
export class StorageReplaced extends Error {
  override name = 'StorageReplaced';

  constructor() {
    super('The storage was replaced from a backup meanwhile; what began on the old one was given up.');
  }
}

/** A restore makes every table anew: this number tells which storage one is on. */
const IDENTITY = `select to_regclass('public.vehicles')::oid::text as identity`;

/**
 * The same pool, whose transactions fail once a restore has replaced the tables. For work that carries what it has read,
 * such as keys of vehicles, from one transaction into the next.
 */
export async function holdToStorage(db: Database): Promise<Database> {
  const [row] = await rawClient(db).unsafe(IDENTITY);
  const begun: unknown = row?.identity;
  const transaction: Database['transaction'] = (work, config) =>
    db.transaction(async (inner) => {
      // Held until the transaction ends, so that the answer stays true.
      const [, found] = (await rawClient(inner).unsafe(
        `lock table public.vehicles in access share mode; ${IDENTITY}`,
      )) as unknown as [unknown, { identity: unknown }[]];
      if (found[0]?.identity !== begun) throw new StorageReplaced();
      return work(inner);
    }, config);
  return Object.create(db, { transaction: { value: transaction } }) as Database;
}
