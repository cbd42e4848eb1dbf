import { createHash } from 'node:crypto';
import { setImmediate as nextTurn } from 'node:timers/promises';
import { deliveryReply } from '#server/contract/receipts.ts';
import type { Line, LineCounts, WireForm } from './arrivals.ts';
import { dayOf } from './calendar.ts';
import type { GatewayPlan } from './gateways.ts';
import { type PostSettings, post } from './post.ts';
import type { Scenario } from './scenario.ts';
import { serialise } from './serialise.ts';
import type { SetUp } from './set-up.ts';
import { type Simulation, simulateFleet } from './simulate.ts';
import { type Truth, writeTruth } from './truth.ts';

export interface SendProgress {
  phase: 'building' | 'set-up' | 'readings' | 'done';
  /** share of the readings made and handed over, 0 to 1 */
  done: number;
  /** what the intake has confirmed so far */
  confirmed: LineCounts;
  deliveries: number;
}

export interface SendSettings extends PostSettings {
  scenario: Scenario;
  onProgress?: (progress: SendProgress) => void;
  /** connections at once */
  concurrency?: number;
  /** lines in a compressed delivery; the other forms are a quarter and an eighth of it */
  deliveryLines?: number;
  /** null writes no truth */
  truthPath?: string | null;
  /** what the office enters, and what is done between the days; all that there is, and nothing, where it is left out */
  arrange?: (simulated: Pick<Simulation, 'setUp' | 'truth'>) => { setUp: SetUp; interludes: Interlude[] };
  /** senders of readings with their keys; all come from one, with the key of the set-up, where it is left out */
  gateways?: (truth: Truth) => GatewayPlan & { keyOf: (name: string) => string | undefined };
}

/** Waited for at the beginning of a day, once all that arrived before it has been confirmed. */
export interface Interlude {
  day: number;
  work: () => Promise<void>;
}

/** A delivery as the intake has confirmed it, and when its last line would have arrived. */
export interface ConfirmedDelivery {
  receipt: string;
  arrivedMs: number;
}

export interface SendResult {
  confirmed: LineCounts;
  receipts: ConfirmedDelivery[];
  deliveries: number;
  seconds: number;
  truth: Truth;
  truthPath: string | null;
}

interface Queue {
  gateway: string;
  form: WireForm;
  lines: Line[];
}

/** For so many days before the end gateways of their own deliver daily. */
const DAILY_DAYS = 21;

const formShare: Record<WireForm, number> = { ndjson: 1, csv: 0.25, json: 0.125 };

/** Sets the operator up and sends a scenario's readings as its gateways would; writes the truth beside it. */
export async function sendFleet(settings: SendSettings): Promise<SendResult> {
  const { scenario, onProgress, concurrency = 2, deliveryLines = 4000 } = settings;
  const started = performance.now();
  const confirmed: LineCounts = { lines: 0, stored: 0, duplicate: 0, conflicting: 0, refused: 0 };
  let deliveries = 0;
  let done = 0;
  const report = (phase: SendProgress['phase']) =>
    onProgress?.({ phase, done, confirmed: { ...confirmed }, deliveries });

  report('building');
  await nextTurn();
  const simulation = simulateFleet(scenario);
  report('set-up');
  const { setUp, interludes } = settings.arrange?.(simulation) ?? { setUp: simulation.setUp, interludes: [] };
  for (const kind of ['platforms', 'depots', 'vehicles', 'lives'] as const)
    await post(settings, `/api/${kind}`, {
      contentType: 'application/json',
      body: JSON.stringify(setUp[kind]),
    });

  const gateways = settings.gateways?.(simulation.truth) ?? null;
  const receipts: ConfirmedDelivery[] = [];
  const deliver = async ({ gateway, form }: Queue, lines: readonly Line[]) => {
    const delivery = await serialise(form, lines);
    const digest = createHash('sha256').update(delivery.body).digest('hex').slice(0, 32);
    const apiKey = gateways?.keyOf(gateway) ?? settings.apiKey;
    const reply = await post({ ...settings, apiKey }, '/api/readings', {
      contentType: delivery.contentType,
      gzipped: delivery.gzipped,
      body: delivery.body,
      idempotencyKey: `${scenario.name}-${digest}`,
    });
    const receipt = deliveryReply.parse(reply);
    receipts.push({ receipt: receipt.receipt, arrivedMs: lines.at(-1)?.arrivesMs ?? 0 });
    confirmed.lines += receipt.received;
    confirmed.stored += receipt.stored;
    confirmed.duplicate += receipt.duplicate;
    confirmed.conflicting += receipt.conflicting;
    confirmed.refused += receipt.refused;
    deliveries++;
    report('readings');
  };
  const lane = openLane(concurrency);
  const queues = new Map<string, Queue>();
  const queueOf = (gateway: string, form: WireForm): Queue => {
    const key = `${form} ${gateway}`;
    const queue = queues.get(key) ?? { gateway, form, lines: [] };
    queues.set(key, queue);
    return queue;
  };
  const hand = async (queue: Queue) => {
    const { lines } = queue;
    queue.lines = [];
    if (lines.length > 0) await lane.add(() => deliver(queue, lines));
  };
  const flush = async () => {
    for (const queue of queues.values()) await hand(queue);
    await lane.finish();
  };
  const endDay = dayOf(scenario.end.getTime());
  for (const slice of simulation.slices()) {
    for (const { work } of interludes.filter(({ day }) => day === slice.day)) {
      await flush();
      await work();
    }
    for (const line of slice.lines) {
      const queue = queueOf(gateways?.nameOf(line.reading.vehicle) ?? '', line.form);
      queue.lines.push(gateways?.pass(line) ?? line);
      if (queue.lines.length >= deliveryLines * formShare[queue.form]) await hand(queue);
    }
    if (gateways !== null)
      for (const queue of queues.values()) {
        const everyDays = slice.day > endDay - DAILY_DAYS ? 1 : gateways.everyDays(queue.gateway);
        if (slice.day % everyDays === 0) await hand(queue);
      }
    done = slice.done;
    await nextTurn();
  }
  await flush();

  const { truth } = simulation;
  const truthPath = settings.truthPath === null ? null : await writeTruth(truth, settings.truthPath);
  report('done');
  return { confirmed, receipts, deliveries, seconds: (performance.now() - started) / 1000, truth, truthPath };
}

/** Runs at most `width` tasks at once; the first failure stops the sending at the next hand-over. */
function openLane(width: number) {
  const running = new Set<Promise<void>>();
  let failure: unknown;
  const check = () => {
    if (failure !== undefined) throw failure;
  };
  return {
    async add(task: () => Promise<void>): Promise<void> {
      while (running.size >= width) await Promise.race(running);
      check();
      const promise: Promise<void> = task()
        .catch((error: unknown) => {
          failure ??= error;
        })
        .finally(() => running.delete(promise));
      running.add(promise);
    },
    async finish(): Promise<void> {
      await Promise.all(running);
      check();
    },
  };
}
