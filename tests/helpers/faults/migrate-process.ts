import { migrateDatabase } from '#db/migrate.ts';

/** A process of its own that does nothing but migrate, so that it can be killed midway. Says when it begins and ends. */
const [, , url = ''] = process.argv;
process.stdout.write('begins\n');
await migrateDatabase(url);
process.stdout.write('ended\n');
