import type { ReadingInput } from '#server/contract/readings.ts';
import { drivePlainly, type PlainVehicle } from './drive-plainly.ts';
import { toNdjson } from './make-reading.ts';
import type { TestApp } from './start-app.ts';

/** Moment of the last reading, and what the server under test takes for now. */
export const plainEnd = new Date('2026-03-04T00:00:00Z');
const days = 100;
const start = new Date(plainEnd.getTime() - days * 86_400_000);

const climbing = (rpmPerDay: number, fromDay: number) => (day: number) =>
  13 + Math.max(0, day - fromDay) * rpmPerDay;

/**
 * Sixteen vehicles of two platforms and two depots: P-01 is past its limit, P-02 near it, P-03 drifts far from it, Q-01
 * drifts, the rest hold still.
 */
export const plainFleet: PlainVehicle[] = ['P', 'Q'].flatMap((letter, platform) =>
  Array.from({ length: 8 }, (_, i): PlainVehicle => {
    const slips: Record<string, (day: number) => number> = {
      'P-01': climbing(2.4, 30),
      'P-02': climbing(1.6, 35),
      'P-03': climbing(0.5, 50),
      'Q-01': climbing(1.2, 30),
    };
    const unit = `${letter}-0${i + 1}`;
    return {
      unit,
      firstKm: 60_000 + 11_000 * i + 500 * platform,
      kmPerDay: 150 + 5 * i,
      slipOn: slips[unit] ?? (() => 12 + 0.4 * i),
    };
  }),
);

/**
 * Sets the two platforms up with their vehicles, sends every reading and has all of it assessed. `asSent` says what
 * gateways make of the readings, and in which deliveries; it is assessed after each.
 */
export async function sendPlainFleet(
  app: TestApp,
  asSent: (readings: ReadingInput[]) => ReadingInput[][] = (readings) => [readings],
): Promise<void> {
  const post = async (path: string, body: unknown, type = 'application/json') => {
    const answer = await app.post(path, body, { 'content-type': type });
    if (answer.status !== 200) throw new Error(`POST ${path}: ${await answer.text()}`);
  };
  await post('/api/depots', [
    { id: 'north', name: 'North yard', bays: 2 },
    { id: 'south', name: 'South yard', bays: 1 },
  ]);
  await post('/api/platforms', [
    { id: 'p-type', name: 'Type P', limit_rpm: 150 },
    { id: 'q-type', name: 'Type Q', limit_rpm: 160 },
  ]);
  await post(
    '/api/vehicles',
    plainFleet.map(({ unit }, i) => ({
      id: unit,
      platform: unit.startsWith('P') ? 'p-type' : 'q-type',
      depot: i % 2 === 0 ? 'north' : 'south',
    })),
  );
  for (const delivery of asSent(drivePlainly(plainFleet, start, days, 21))) {
    await post('/api/readings', toNdjson(delivery), 'application/x-ndjson');
    await post('/api/assess', {});
  }
}
