import { startApp } from './start-app.ts';

const LIMIT_BYTES = 2 * 1_048_576;

/** A server for deliveries of at most 2 MiB, with what tests of its refusals ask of it. */
export type SmallIntake = Awaited<ReturnType<typeof startSmallIntake>>;

export async function startSmallIntake() {
  const app = await startApp({ maxBodyBytes: LIMIT_BYTES });
  // Tables that an assessment has in hand cannot be emptied: the two would wait for each other.
  app.running.assessment.hold();
  return {
    ...app,
    async deliver(body: unknown, headers: Record<string, string> = {}, query = '') {
      const answer = await app.post(`/api/readings${query}`, body, headers);
      return { status: answer.status, type: answer.headers.get('content-type'), reply: await answer.json() };
    },
    async countReadings(): Promise<number> {
      const [row] = await app.client`select count(*) as n from readings`;
      return Number(row?.n);
    },
    async empty(): Promise<void> {
      await app.client`truncate readings, reading_spans, receipts, refused_lines, sender_weeks, touched_vehicles, lives, shop_vehicles, bookings, packets, packet_evidence, packet_files, packet_links, packet_openings, findings, vehicles`;
    },
  };
}
