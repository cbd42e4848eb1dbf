import { seededRandom } from '#tests/helpers/seeded-random.ts';

/** One body of a simulated gateway. Every line of every body is told apart: a reading by its odometer. */
export interface FaultDelivery {
  /** null: the gateway sends no Idempotency-Key */
  key: string | null;
  body: string;
  /** numbers of its good lines, which are their odometers too */
  numbers: number[];
  /** its lines that cannot be a reading */
  refused: string[];
}

export interface FaultFeed {
  next(): FaultDelivery;
}

const BATCH_LINES = 5000;
/** Odometers go no further. */
const MOST_NUMBERS = 4_900_000;
/** Neither ahead of the clock nor past retention, whenever the tests run. */
const START_MS = Date.now() - 70 * 86_400_000;

interface FeedOptions {
  seed: number;
  vehicles?: number;
  /** share of bodies with more lines than are stored in one transaction */
  largeShare?: number;
  /** lines of a large body at most */
  largest?: number;
  /** numbers begin here, so that two feeds do not meet */
  from?: number;
  prefix?: string;
}

/** Bodies of NDJSON, some of several batches, one line in fifty refused, every other one with a key. */
export function createFaultFeed({
  seed,
  vehicles = 40,
  largeShare = 0.15,
  largest = 3 * BATCH_LINES,
  from = 1,
  prefix = 'F',
}: FeedOptions): FaultFeed {
  const { uniform } = seededRandom(seed);
  let number = from;
  let made = 0;
  return {
    next() {
      made++;
      const large = uniform() < largeShare;
      const count = large
        ? BATCH_LINES + Math.floor(uniform() * (largest - BATCH_LINES))
        : 1 + Math.floor(uniform() * 150);
      const delivery: FaultDelivery = {
        key: made % 2 === 0 ? `${prefix}-${seed}-${made}` : null,
        body: '',
        numbers: [],
        refused: [],
      };
      const lines: string[] = [];
      for (let i = 0; i < count; i++) {
        const line = toLine(number, `${prefix}-${number % vehicles}`, uniform() < 0.02);
        lines.push(line.text);
        if (line.good) delivery.numbers.push(number);
        else delivery.refused.push(line.text);
        number++;
        if (number > MOST_NUMBERS) throw new RangeError('createFaultFeed has no more numbers');
      }
      delivery.body = lines.join('\n');
      return delivery;
    },
  };
}

function toLine(number: number, vehicle: string, broken: boolean): { text: string; good: boolean } {
  const reading = {
    vehicle,
    at: new Date(START_MS + number * 1000).toISOString(),
    odometer_km: number,
    slip_rpm: broken ? `none ${number}` : 12,
    duty_pct: 85,
    fluid_c: 85,
    load_pct: 50,
  };
  return { text: JSON.stringify(reading), good: !broken };
}
