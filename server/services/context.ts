import type { Logger } from 'pino';
import type { Database } from '#db/client.ts';
import type { Actor } from './actor.ts';

/** What every service is given instead of reaching for it: storage, the clock, the log and who asks. */
export interface Context {
  db: Database;
  now: () => Date;
  log: Logger;
  actor: Actor;
}
