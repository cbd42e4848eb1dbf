import { Gauge, type Registry } from 'prom-client';

export interface WaitingFigures {
  vehicles: number;
  oldestS: number;
  workers: number;
}

const gauges: Readonly<Record<keyof WaitingFigures, { name: string; help: string }>> = {
  vehicles: {
    name: 'slipdrift_waiting_vehicles',
    help: 'Vehicles with new readings that are not assessed and ranked yet, over all processes',
  },
  oldestS: {
    name: 'slipdrift_waiting_oldest_seconds',
    help: 'For how long the one of them has waited that was touched first; 0 where none is',
  },
  workers: {
    name: 'slipdrift_workers_busy',
    help: 'Workers that are assessing at the moment, over all processes',
  },
};

/** What is left to assess: the database's figures, the same in every process. */
export function createWorkGauges(registers: Registry[], ask: () => Promise<WaitingFigures>): void {
  let asking: Promise<WaitingFigures | null> | null = null;
  const askOnce = () => {
    asking ??= ask()
      .catch(() => null)
      .finally(() => {
        asking = null;
      });
    return asking;
  };
  for (const [key, words] of Object.entries(gauges) as [
    keyof WaitingFigures,
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
