import { hashPassword } from 'better-auth/crypto';
import { sql } from 'drizzle-orm';
import { pino } from 'pino';
import { startSlipdrift } from '#server/main.ts';
import { addAccount } from '#server/services/people/one-time-address.ts';
import { readSettings } from '#server/settings.ts';
import { storeMadeFleet } from '#tests/helpers/store-made-fleet.ts';

export const account = { email: 'planner@many.example', password: 'a password of the measurement' };

/** Stores a made fleet of so many vehicles and a planner in a data folder of its own. */
export async function prepareMany(folder: string, vehicles: number): Promise<void> {
  const settings = { ...readSettings({}), dataFolder: folder, port: 0 };
  const running = await startSlipdrift(settings, pino({ level: 'silent' }));
  try {
    await storeMadeFleet(running.context, vehicles);
    // As the database does by itself some minutes after so much was stored.
    await running.context.db.execute(sql`vacuum analyze`);
    await addAccount(running.context, {
      name: 'Planner',
      email: account.email,
      role: 'planner',
      depots: null,
      hash: await hashPassword(account.password),
    });
  } finally {
    await running.stop();
  }
}
