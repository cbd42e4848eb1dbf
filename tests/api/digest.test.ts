import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ensureReadingMonths } from '#db/partitions.ts';
import { accessKeys } from '#db/schema/access.ts';
import { gradeChanges } from '#db/schema/analysis.ts';
import { type Digest, digest } from '#server/contract/digest.ts';
import { seedDigestFleet } from '#tests/helpers/seed-digest-fleet.ts';
import { signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

/** A Wednesday. */
const now = new Date('2026-03-04T10:00:00Z');
const DAY_MS = 86_400_000;
const ago = (days: number) => new Date(now.getTime() - days * DAY_MS);

let app: TestApp;
beforeAll(async () => {
  app = await startApp({}, now);
  await seedDigestFleet(app.db, now);
  const key = { right: 'deliver', digest: Buffer.alloc(32), requestsPerMinute: 60, createdBy: 'x' } as const;
  await app.db.insert(accessKeys).values([
    { ...key, id: 'a00000000001', name: 'gate 2', usedAt: ago(5) },
    { ...key, id: 'a00000000002', name: 'gate 3', usedAt: ago(1) },
    { ...key, id: 'a00000000003', name: 'gate 4', usedAt: ago(40) },
    { ...key, id: 'a00000000004', name: 'gate 5', usedAt: ago(5), revokedAt: ago(1) },
    { ...key, id: 'a00000000005', name: 'gate 6', usedAt: ago(5), expiresAt: ago(1) },
    { ...key, id: 'a00000000006', name: 'report', usedAt: ago(5), right: 'read' },
  ]);
});
afterAll(() => app?.stop());

async function read(query = '', headers: Record<string, string> = {}): Promise<Digest> {
  const answer = await app.get(`/api/digest${query}`, headers);
  expect(answer.status).toBe(200);
  return digest.parse(await answer.json());
}

const unitsOf = (lines: readonly { vehicle: string }[] | null) =>
  lines?.map(({ vehicle }) => vehicle) ?? null;
const textOf = (lines: readonly { vehicle: string; text: string }[] | null, unit: string) =>
  lines?.find(({ vehicle }) => vehicle === unit)?.text;

describe('the digest of the week that runs', () => {
  it('opens the week of its Monday, and tells of the seven days up to now', async () => {
    const found = await read();
    expect(found).toMatchObject({ week: '2026-03-02', current: true, compared_with: '2026-02-25' });
    expect(Date.parse(found.to) - now.getTime()).toBeLessThan(120_000);
    expect(Date.parse(found.to) - Date.parse(found.from)).toBe(7 * DAY_MS);
    expect(found.as_of).toBe(ago(0.05).toISOString());
    expect(found.sentence).toBe(
      '3 vehicles wait on hold without a day, 3 went on hold, 4 got worse, 2 were booked, 2 were inspected and 2 have gone quiet.',
    );
  });

  it('has the holds without a day, with what the planner said', async () => {
    const { uncovered_holds: holds } = await read();
    expect(unitsOf(holds)?.toSorted()).toEqual(['N-NEW-HOLD', 'N-PUT-OFF', 'S-NEW-HOLD']);
    expect(textOf(holds, 'N-NEW-HOLD')).toBe('On hold since 2 Mar 2026, not booked.');
    expect(textOf(holds, 'N-PUT-OFF')).toBe(
      'On hold since 12 Feb 2026. Its booking is put off: no bay before Friday.',
    );
    expect(holds?.[0]?.now).toMatchObject({ grade: 'hold', km_to_limit: { p10: 200, p50: 900, p90: 2_100 } });
  });

  it('has who went on hold, the newest first, with the grade before, the reason and the booking', async () => {
    const { newly_on_hold: holds } = await read();
    expect(holds.map(({ vehicle, before }) => [vehicle, before])).toEqual([
      ['S-NEW-HOLD', null],
      ['N-NEW-HOLD', 'watch'],
      ['N-BOOKED', 'book'],
    ]);
    expect(textOf(holds, 'S-NEW-HOLD')).toBe(
      'On hold since Tue 3 Mar, when it was first graded. Slip is 152 rpm, past the limit of 150 rpm. Not booked.',
    );
    expect(textOf(holds, 'N-BOOKED')).toBe(
      'On hold since Sun 1 Mar, was book. Slip is 152 rpm, past the limit of 150 rpm. Booked for Thu 5 Mar, 13:00, bay 1 at North yard.',
    );
    expect(holds[2]?.booking).toMatchObject({
      state: 'booked',
      day: '2026-03-05',
      from: '13:00',
      past: false,
    });
  });

  it('has what got worse: another grade first, then a clearly higher chance, and not the rest', async () => {
    const { got_worse: worse, got_worse_more } = await read();
    expect(unitsOf(worse)).toEqual(['N-WORSE', 'X-WORSE', 'S-WORSE', 'N-NEARER']);
    expect(got_worse_more).toBe(0);
    expect(worse[0]).toMatchObject({
      grade_before: 'watch',
      grade: 'book',
      chance_before: 0.12,
      chance: 0.45,
      text: 'Book, was watch. Chance of the limit within 5,000 km: 45 %, was 12 %.',
    });
    expect(textOf(worse, 'S-WORSE')).toBe(
      'Watch, was steady. Chance of the limit within 5,000 km: 10 %, was under 1 %.',
    );
    expect(textOf(worse, 'N-NEARER')).toMatch(/^Still watch\./);
  });

  it('has what was booked and by whom, what was inspected, and what is over and not closed', async () => {
    const found = await read();
    expect(unitsOf(found.newly_booked)).toEqual(['N-BOOKED', 'S-WORSE']);
    expect(found.newly_booked[0]).toMatchObject({
      by: 'Ilse',
      text: 'Thu 5 Mar, 13:00, bay 1 at North yard, by Ilse.',
    });
    expect(found.newly_booked[1]?.booking.from).toBe('05:00');
    expect(unitsOf(found.inspected)).toEqual(['S-INSPECTED', 'N-INSPECTED']);
    expect(textOf(found.inspected, 'N-INSPECTED')).toBe(
      'Mon 2 Mar at North yard, closed by Maren: valve body changed.',
    );
    expect(textOf(found.inspected, 'S-INSPECTED')).toBe('Sun 1 Mar at South yard, closed by Maren.');
    expect(unitsOf(found.not_closed)).toEqual(['S-PAST', 'N-PAST']);
    expect(textOf(found.not_closed, 'N-PAST')).toBe('Was booked for Tue 3 Mar, 13:00, bay 1 at North yard.');
  });

  it('has who went quiet in the second week back, how many longer, and the keys that stopped', async () => {
    const { gone_quiet: quiet } = await read();
    expect(unitsOf(quiet.vehicles)).toEqual(['S-QUIET', 'N-QUIET']);
    expect(quiet.vehicles[1]?.text).toBe('Last reading Mon 23 Feb.');
    expect(quiet.vehicles_longer).toBe(1);
    expect(quiet.gateways).toEqual([
      { name: 'gate 2', text: 'Last used Fri 27 Feb.', last_used_at: ago(5).toISOString() },
    ]);
  });

  it('has the bays of the week, closed days left out', async () => {
    const { ahead } = await read();
    expect(ahead).toEqual([
      // Monday to Friday, 07:00 to 16:00, two bays; inspected on Monday, not closed on Tuesday, booked on Thursday.
      { depot: 'north', name: 'North yard', bay_hours: 90, booked_hours: 9, bookings: 3 },
      { depot: 'south', name: 'South yard', bay_hours: 36, booked_hours: 3, bookings: 1 },
    ]);
  });

  it('is worded in the units of the reader', async () => {
    const { got_worse: worse } = await read('?units=imperial');
    // 5,000 km are 3,107 mi (NIST SP 811), to two figures.
    expect(worse[0]?.text).toContain('within 3,100 mi');
  });
});

describe('the digest of one depot', () => {
  const nothingOf = (found: Digest, letters: string) => {
    const lines = [
      found.uncovered_holds ?? [],
      found.newly_on_hold,
      found.got_worse,
      found.newly_booked,
      found.inspected,
      found.not_closed ?? [],
      found.gone_quiet.vehicles,
    ].flat();
    expect(lines.length).toBeGreaterThan(6);
    expect(lines.filter(({ vehicle }) => letters.includes(vehicle.charAt(0)))).toEqual([]);
    expect(JSON.stringify(found)).not.toMatch(/South yard|S-|X-WORSE|gate \d/);
    expect(found.ahead.map(({ depot }) => depot)).toEqual(['north']);
    expect(found.gone_quiet.gateways).toBeNull();
  };

  it('is all that a planner of that depot sees, whatever they ask for', async () => {
    const { headers } = await signInAs(app, 'planner', { depots: ['north'] });
    const own = await (await fetch(`${app.url}/api/digest`, { headers })).json();
    nothingOf(digest.parse(own), 'SX');
    const other = await fetch(`${app.url}/api/digest?depot=south`, { headers });
    expect(other.status).toBe(403);
  });

  it('is what others ask for by its name', async () => {
    nothingOf(await read('?depot=north'), 'SX');
  });
});

describe('the digest of a week that is past', () => {
  it('tells of the seven days before it, and of what stands open now nothing', async () => {
    const found = await read('?week=2026-02-18');
    expect(found).toMatchObject({
      week: '2026-02-16',
      current: false,
      from: '2026-02-09T00:00:00.000Z',
      to: '2026-02-16T00:00:00.000Z',
      uncovered_holds: null,
      not_closed: null,
      compared_with: null,
      got_worse: [],
    });
    expect(unitsOf(found.newly_on_hold)).toEqual(['N-PUT-OFF']);
    expect(found.sentence).toBe('1 vehicle went on hold.');
  });

  it('compares two days of standings where there are both', async () => {
    const rows = [
      ['N-THE-SAME', '2026-02-16', 'watch', 0.1],
      ['N-THE-SAME', '2026-02-23', 'book', 0.2],
      ['N-WORSE', '2026-02-16', 'watch', 0.1],
      ['N-WORSE', '2026-02-23', 'watch', 0.12],
    ] as const;
    for (const [unit, day, grade, chance] of rows)
      await app.client`
        insert into standings (vehicle, day, rank, grade, chance)
        select key, ${day}::date, 1, ${grade}, ${chance} from vehicles where unit = ${unit}`;
    const found = await read('?week=2026-02-23');
    expect(found.compared_with).toBe('2026-02-16');
    expect(unitsOf(found.got_worse)).toEqual(['N-THE-SAME']);
    expect(found.got_worse[0]).toMatchObject({
      grade_before: 'watch',
      grade: 'book',
      now: { grade: 'book' },
    });
  });

  it('finds who was quiet then, though they report again', async () => {
    const to = Date.parse('2026-02-23T00:00:00Z');
    const at = (days: number) => new Date(to - days * DAY_MS);
    const [vehicle] = await app.client`select key from vehicles where unit = 'N-THE-SAME'`;
    await ensureReadingMonths(app.db, ['2026-02']);
    for (const moment of [at(9), at(-1)])
      await app.client`
        insert into readings (at, vehicle, odometer_km, slip_rpm, duty_pct)
        values (${moment}, ${vehicle?.key}, 1, 1, 85)`;
    const { gone_quiet: quiet } = await read('?week=2026-02-23');
    // The others have no readings here but the moment of their last.
    expect(unitsOf(quiet.vehicles)).toEqual(['N-THE-SAME']);
    expect(unitsOf((await read()).gone_quiet.vehicles)).not.toContain('N-THE-SAME');
  });

  it('lists a booking that was cancelled only later, and says so', async () => {
    await app.client`update bookings set created_at = '2026-02-19T10:00:00Z' where state = 'cancelled'`;
    const found = await read('?week=2026-02-23');
    expect(found.newly_booked.map(({ vehicle, text }) => [vehicle, text])).toEqual([
      ['N-WORSE', 'Fri 6 Mar, 13:00, bay 1 at North yard, by Maren; cancelled since.'],
    ]);
  });
});

describe('bad input', () => {
  it.each([
    ['week=2026-03-09', /has not begun/],
    ['week=next', /must be a day such as/],
    ['week=2026-02-30', /must be a day such as/],
    ['units=feet', /units/],
    ['depot=', /depot/],
  ])('is refused: %s', async (query, words) => {
    const answer = await app.get(`/api/digest?${query}`);
    expect(answer.status).toBe(400);
    expect((await answer.json()).detail).toMatch(words);
  });

  it('is a depot that nobody knows', async () => {
    const answer = await app.get('/api/digest?depot=nowhere');
    expect([answer.status, (await answer.json()).errors]).toEqual([
      400,
      [{ field: 'depot', message: "No depot 'nowhere' is known." }],
    ]);
  });
});

it('says so where nothing is known', async () => {
  const empty = await startApp({}, now);
  try {
    const found = digest.parse(await (await empty.get('/api/digest')).json());
    expect(found).toMatchObject({
      sentence: 'No vehicle has been assessed yet.',
      as_of: null,
      compared_with: null,
      uncovered_holds: [],
      ahead: [],
    });
  } finally {
    await empty.stop();
  }
});

it('leaves out vehicles that are retired, but for what was done to them', async () => {
  await app.client`update vehicles set retired = true where unit in ('N-NEW-HOLD', 'N-QUIET', 'N-INSPECTED')`;
  const found = await read('?depot=north');
  const { newly_on_hold: holds, gone_quiet: quiet, inspected } = found;
  expect([unitsOf(holds), unitsOf(quiet.vehicles), unitsOf(inspected)]).toEqual([
    ['N-BOOKED'],
    [],
    ['N-INSPECTED'],
  ]);
  expect(unitsOf(found.uncovered_holds)).toEqual(['N-PUT-OFF']);
  await app.db.delete(gradeChanges);
});
