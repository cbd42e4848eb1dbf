import type { z } from 'zod';
import type { RawClient } from '#db/client.ts';
import type { bookingRequest } from '#server/contract/bookings.ts';
import { type Booking, booking, bookingsReply } from '#server/contract/bookings.ts';
import type { Grade } from '#server/contract/words.ts';
import type { StoredDetail } from '#server/services/assessment/stored-assessment.ts';
import { makeStoredBrief } from './make-listed-assessment.ts';
import type { TestApp } from './start-app.ts';
import { withTestKey } from './test-key.ts';

/** A Thursday, 10:00 in Vienna. */
export const bookingNow = new Date('2026-11-26T09:00:00Z');

/**
 * Two depots in Vienna's time, of two bays and of one, and one that has none; a platform whose inspection takes 3 hours
 * and one of 10; and vehicles named after their depot.
 */
export async function setUpBookableFleet(app: Pick<TestApp, 'post'>, perDepot = 12): Promise<void> {
  const send = async (path: string, body: unknown) => {
    const answer = await app.post(path, body);
    if (answer.status !== 200) throw new Error(`${path} answered ${answer.status}: ${await answer.text()}`);
  };
  const time_zone = 'Europe/Vienna';
  await send('/api/platforms', [
    { id: 'short', name: 'Short type', inspection_hours: 3 },
    { id: 'long', name: 'Long type', inspection_hours: 10 },
  ]);
  await send('/api/depots', [
    {
      id: 'north',
      name: 'Skarrowick',
      bays: 2,
      time_zone,
      special_days: [
        { day: '2026-12-08', bays: 0, note: 'Conception Day' },
        { day: '2026-12-24', hours: { from: '07:00', to: '12:00' }, note: 'short day' },
        { day: '2026-12-05', hours: { from: '08:00', to: '14:00' }, bays: 1, note: 'extra Saturday' },
      ],
    },
    { id: 'south', name: 'Harrowmead', bays: 1, time_zone },
    { id: 'bare', name: 'Bare yard', bays: 0 },
  ]);
  await send(
    '/api/vehicles',
    ['N', 'S'].flatMap((letter) =>
      Array.from({ length: perDepot }, (_, i) => ({
        id: `${letter}-${i + 1}`,
        depot: letter === 'N' ? 'north' : 'south',
        platform: 'short',
      })),
    ),
  );
}

const emptyDetail: StoredDetail = {
  fromKm: null,
  baseline: null,
  onset: null,
  accelerating: 0,
  fitLine: [],
  forecast: [],
  bandRises: [],
};

/** Gives a vehicle a grade as the assessment does, without readings. */
export async function gradeVehicle(
  client: RawClient,
  unit: string,
  grade: Grade,
  { since = bookingNow, rank = 1 }: { since?: Date; rank?: number } = {},
): Promise<void> {
  const brief = JSON.stringify(makeStoredBrief());
  const detail = JSON.stringify(emptyDetail);
  await client`
    insert into assessments (vehicle, as_of, rank, grade, pattern, life, limit_rpm, chance, facts, brief, detail)
    select key, ${since}, ${rank}, ${grade}, 'drift_all_commands', 1, 150, 0.4, '{}', ${brief}::text::jsonb, ${detail}::text::jsonb
    from vehicles where unit = ${unit}
    on conflict (vehicle) do update set grade = excluded.grade, rank = excluded.rank`;
  await client`
    insert into grade_changes (vehicle, at, from_grade, to_grade)
    select key, ${since}, null, ${grade} from vehicles where unit = ${unit}`;
}

/** Has every graded vehicle drive on, and probably fail within the weeks that a plan weighs. */
export async function wearOn(client: RawClient): Promise<void> {
  const chances = [250, 1000, 5000, 20_000].map((km, i) => [km, 0.1 + 0.25 * i]);
  const facts = JSON.stringify({ chances, codes: 0 });
  await client`update assessments set km_per_day = 200, facts = ${facts}::text::jsonb`;
}

type Request = z.input<typeof bookingRequest>;

/** Books one vehicle and answers the booking. */
export async function book(
  { url }: Pick<TestApp, 'url'>,
  request: Request,
  headers: Record<string, string> = withTestKey,
): Promise<Booking> {
  const answer = await fetch(`${url}/api/bookings`, {
    method: 'POST',
    headers: { 'content-type': 'application/json', ...headers },
    body: JSON.stringify(request),
  });
  if (answer.status !== 200) throw new Error(`not booked: ${await answer.text()}`);
  const [booked] = bookingsReply.parse(await answer.json()).booked;
  if (booked === undefined) throw new Error('nothing was booked');
  return booked;
}

/** A change of a booking, as the answer has it. */
export async function change(
  app: Pick<TestApp, 'url'>,
  headers: Record<string, string>,
  { id }: Pick<Booking, 'id'>,
  what: 'move' | 'put-off' | 'cancel' | 'done',
  body: Record<string, unknown>,
) {
  const answer = await fetch(`${app.url}/api/bookings/${id}${what === 'move' ? '' : `/${what}`}`, {
    method: what === 'move' ? 'PATCH' : 'POST',
    headers: { 'content-type': 'application/json', ...headers },
    body: JSON.stringify(body),
  });
  const reply = await answer.json();
  return { status: answer.status, reply, booking: answer.status === 200 ? booking.parse(reply) : null };
}
