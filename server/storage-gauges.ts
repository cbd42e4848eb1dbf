import { Gauge, type Registry } from 'prom-client';
import type { StorageFigures } from './services/storage/read-storage-figures.ts';

const gauges: Readonly<Record<keyof StorageFigures, { name: string; help: string }>> = {
  databaseBytes: { name: 'slipdrift_database_bytes', help: 'Size of the database on disk' },
  readingMonths: { name: 'slipdrift_reading_months', help: 'Months of readings that have a table' },
  readingBytes: { name: 'slipdrift_reading_bytes', help: 'Size of the readings on disk, with their index' },
  readings: { name: 'slipdrift_readings_stored', help: 'Readings stored, as the database estimates them' },
  upkeepDoneS: {
    name: 'slipdrift_upkeep_done_seconds',
    help: 'When the upkeep of storage was last done, in seconds since 1970; 0 where it never was',
  },
  upkeepFailures: {
    name: 'slipdrift_upkeep_failures',
    help: 'Runs of the upkeep that have failed since the last that was done',
  },
};

/** Figures that are the database's and the same in every process; one question serves one look at all of them. */
export function createStorageGauges(registers: Registry[], ask: () => Promise<StorageFigures>): void {
  let asking: Promise<StorageFigures | null> | null = null;
  const askOnce = () => {
    // A database that is away must not take the other figures with it.
    asking ??= ask()
      .catch(() => null)
      .finally(() => {
        asking = null;
      });
    return asking;
  };
  for (const [key, words] of Object.entries(gauges) as [
    keyof StorageFigures,
    { name: string; help: string },
  ][])
    new Gauge({
      ...words,
      registers,
      async collect() {
        const found = await askOnce();
        if (found === null) this.reset();
        else this.set(found[key]);
      },
    });
}
