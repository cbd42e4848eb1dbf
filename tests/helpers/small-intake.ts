import { startApp, type TestApp } from './start-app.ts';

const LIMIT_BYTES = 2 * 1_048_576;

/** A server for deliveries of at most 2 MiB, with what tests of its refusals ask of it. */
export interface SmallIntake extends TestApp {
  deliver(
    body: unknown,
    headers?: Record<string, string>,
    query?: string,
  ): Promise<{ status: number; type: string | null; reply: DeliveryAnswer }>;
  countReadings(): Promise<number>;
  empty(): Promise<void>;
}

// biome-ignore lint/suspicious/noExplicitAny: an answer may be anything; tests say what of it they expect
type DeliveryAnswer = any;

export async function startSmallIntake(): Promise<SmallIntake> {
  const app = await startApp({ maxBodyBytes: LIMIT_BYTES });
  return {
    ...app,
    async deliver(body, headers = {}, query = '') {
      const answer = await app.post(`/api/readings${query}`, body, headers);
      return { status: answer.status, type: answer.headers.get('content-type'), reply: await answer.json() };
    },
    async countReadings() {
      const [row] = await app.client`select count(*) as n from readings`;
      return Number(row?.n);
    },
    async empty() {
      await app.client`truncate readings, receipts, refused_lines, touched_vehicles, lives, vehicles`;
    },
  };
}
