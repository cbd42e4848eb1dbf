import { Counter, collectDefaultMetrics, Gauge, Histogram, Registry } from 'prom-client';
import type { StorageFigures } from './services/storage/read-storage-figures.ts';
import { createSharedGauges } from './shared-gauges.ts';
import { storageGauges } from './storage-gauges.ts';
import { type WaitingFigures, waitingGauges } from './work-gauges.ts';

export type Metrics = ReturnType<typeof createMetrics>;

/** What is asked of the database at each look. */
interface Asked {
  connections: () => Promise<{ open: number; active: number }>;
  storage: () => Promise<StorageFigures>;
  waiting: () => Promise<WaitingFigures>;
}

/** Counters of one running server, in a registry of its own. */
export function createMetrics(asked: Partial<Asked> = {}) {
  const registry = new Registry();
  const registers = [registry];
  collectDefaultMetrics({ register: registry });
  new Gauge({
    name: 'slipdrift_database_connections',
    help: 'Database connections of Slipdrift by state',
    labelNames: ['state'],
    registers,
    async collect() {
      // A database that is away must not take the other figures with it.
      const found = await asked.connections?.().catch(() => null);
      this.reset();
      if (found == null) return;
      this.set({ state: 'active' }, found.active);
      this.set({ state: 'idle' }, found.open - found.active);
    },
  });
  if (asked.waiting !== undefined) createSharedGauges(registers, waitingGauges, asked.waiting);
  if (asked.storage !== undefined) createSharedGauges(registers, storageGauges, asked.storage);
  return {
    registry,
    requests: new Histogram({
      name: 'slipdrift_http_request_seconds',
      help: 'Time to answer, by method, route and status',
      labelNames: ['method', 'route', 'status'],
      buckets: [0.005, 0.02, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 10, 60],
      registers,
    }),
    deliveries: new Counter({ name: 'slipdrift_deliveries_total', help: 'Deliveries answered', registers }),
    readings: new Counter({
      name: 'slipdrift_readings_total',
      help: 'Lines of deliveries by what became of them',
      labelNames: ['fate'],
      registers,
    }),
    watchedFiles: new Counter({
      name: 'slipdrift_watched_files_total',
      help: 'Files of the watched folder by what became of them',
      labelNames: ['fate'],
      registers,
    }),
    mqttConnected: new Gauge({
      name: 'slipdrift_mqtt_connected',
      help: '1 where this program reads from the MQTT broker',
      registers,
    }),
    assessments: new Histogram({
      name: 'slipdrift_assessment_seconds',
      help: 'Time to bring the assessments up to date',
      buckets: [0.05, 0.25, 1, 5, 15, 60, 300],
      registers,
    }),
  };
}
