import { Gauge, type Registry } from 'prom-client';

export type GaugeWords<T> = Readonly<Record<keyof T, { name: string; help: string }>>;

/** Figures that are the database's and the same in every process; one question serves one look at all of them. */
export function createSharedGauges<T extends Record<keyof T, number>>(
  registers: Registry[],
  gauges: GaugeWords<T>,
  ask: () => Promise<T>,
): void {
  let asking: Promise<T | null> | null = null;
  const askOnce = () => {
    // A database that is away must not take the other figures with it.
    asking ??= ask()
      .catch(() => null)
      .finally(() => {
        asking = null;
      });
    return asking;
  };
  for (const key of Object.keys(gauges) as (keyof T)[])
    new Gauge({
      ...gauges[key],
      registers,
      async collect() {
        const found = await askOnce();
        if (found === null) this.reset();
        else this.set(found[key]);
      },
    });
}
