import type { StorageFigures } from './services/storage/read-storage-figures.ts';
import type { GaugeWords } from './shared-gauges.ts';

export const storageGauges: GaugeWords<StorageFigures> = {
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
