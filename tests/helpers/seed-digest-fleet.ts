import type { Database } from '#db/client.ts';
import { assessments, gradeChanges } from '#db/schema/analysis.ts';
import { depots, vehicles } from '#db/schema/fleet.ts';
import { readingSpans } from '#db/schema/intake.ts';
import { bookings, standings } from '#db/schema/planning.ts';
import { usualWeek } from '#server/contract/calendar.ts';
import type { Grade } from '#server/contract/words.ts';

interface SeededVehicle {
  unit: string;
  depot: string | null;
  grade: Grade;
  chance?: number;
  /** standing a week before */
  before?: { grade: Grade; chance: number };
  /** changes of grade, days ago */
  changes?: { daysAgo: number; from: Grade | null; to: Grade }[];
  /** days since the last reading */
  quietDays?: number;
  missing?: boolean;
}

/** Every vehicle is named after what the digest has to say of it; the rest of the name is its depot. */
const fleet: SeededVehicle[] = [
  { unit: 'N-NEW-HOLD', depot: 'north', grade: 'hold', changes: [{ daysAgo: 2, from: 'watch', to: 'hold' }] },
  { unit: 'N-BOOKED', depot: 'north', grade: 'hold', changes: [{ daysAgo: 3, from: 'book', to: 'hold' }] },
  { unit: 'S-NEW-HOLD', depot: 'south', grade: 'hold', changes: [{ daysAgo: 1, from: null, to: 'hold' }] },
  { unit: 'N-PUT-OFF', depot: 'north', grade: 'hold', changes: [{ daysAgo: 20, from: 'book', to: 'hold' }] },
  {
    unit: 'N-OFF-HOLD',
    depot: 'north',
    grade: 'watch',
    chance: 0.05,
    changes: [
      { daysAgo: 3, from: 'watch', to: 'hold' },
      { daysAgo: 2, from: 'hold', to: 'watch' },
    ],
  },
  {
    unit: 'N-WORSE',
    depot: 'north',
    grade: 'book',
    chance: 0.45,
    before: { grade: 'watch', chance: 0.12 },
  },
  {
    unit: 'S-WORSE',
    depot: 'south',
    grade: 'watch',
    chance: 0.1,
    before: { grade: 'steady', chance: 0.004 },
  },
  {
    unit: 'N-NEARER',
    depot: 'north',
    grade: 'watch',
    chance: 0.14,
    before: { grade: 'watch', chance: 0.03 },
  },
  { unit: 'N-THE-SAME', depot: 'north', grade: 'book', chance: 0.32, before: { grade: 'book', chance: 0.3 } },
  { unit: 'X-WORSE', depot: null, grade: 'book', chance: 0.2, before: { grade: 'watch', chance: 0.1 } },
  { unit: 'N-INSPECTED', depot: 'north', grade: 'steady' },
  { unit: 'S-INSPECTED', depot: 'south', grade: 'steady' },
  { unit: 'N-PAST', depot: 'north', grade: 'book', chance: 0.3 },
  { unit: 'S-PAST', depot: 'south', grade: 'book', chance: 0.3 },
  { unit: 'N-QUIET', depot: 'north', grade: 'unknown', quietDays: 9, missing: true },
  { unit: 'S-QUIET', depot: 'south', grade: 'unknown', quietDays: 13, missing: true },
  { unit: 'N-LONG-QUIET', depot: 'north', grade: 'unknown', quietDays: 30, missing: true },
];

const DAY_MS = 86_400_000;

/** A week of a fleet of two depots, as storage has it at a moment. */
export async function seedDigestFleet(db: Database, now: Date): Promise<void> {
  const ago = (days: number) => new Date(now.getTime() - days * DAY_MS);
  const dayOf = (at: Date) => at.toISOString().slice(0, 10);
  await db.insert(depots).values([
    { id: 'north', name: 'North yard', bays: 2, timeZone: 'Europe/Vienna', week: usualWeek },
    {
      id: 'south',
      name: 'South yard',
      bays: 1,
      timeZone: 'America/Denver',
      week: usualWeek,
      // Thursday of the week of 2 March 2026
      specialDays: [{ day: '2026-03-05', bays: 0, hours: null, note: 'closed' }],
    },
  ]);
  const keys = await db
    .insert(vehicles)
    .values(fleet.map(({ unit, depot }) => ({ unit, depot, registered: true })))
    .returning();
  const keyOf = (unit: string) => {
    const found = keys.find((one) => one.unit === unit);
    if (found === undefined) throw new Error(`no vehicle ${unit}`);
    return found.key;
  };
  await db.insert(readingSpans).values(
    fleet.map(({ unit, quietDays = 0.1 }) => ({
      vehicle: keyOf(unit),
      firstAt: ago(200),
      lastAt: ago(quietDays),
      odometerKm: 120_000,
    })),
  );
  await db.insert(assessments).values(
    fleet.map(({ unit, grade, chance, missing }, i) => ({
      vehicle: keyOf(unit),
      asOf: ago(0.05),
      rank: i + 1,
      grade,
      pattern: 'none',
      life: 1,
      limitRpm: 150,
      kmP10: grade === 'hold' ? 200 : null,
      kmP50: grade === 'hold' ? 900 : null,
      kmP90: grade === 'hold' ? 2_100 : null,
      chance: chance ?? (grade === 'hold' ? 0.9 : 0),
      facts: {},
      brief: { reasons: [], missing: missing ? [{ kind: 'quiet', days: 9 }] : [], spark: [] },
      detail: {},
    })),
  );
  await db.insert(gradeChanges).values(
    fleet.flatMap(({ unit, changes = [] }) =>
      changes.map(({ daysAgo, from, to }) => ({
        vehicle: keyOf(unit),
        at: ago(daysAgo),
        from,
        to,
        why: { kind: 'past_limit', slipRpm: 152.4, limitRpm: 150 },
      })),
    ),
  );
  await db
    .insert(standings)
    .values(
      fleet.flatMap(({ unit, before }, i) =>
        before === undefined ? [] : [{ vehicle: keyOf(unit), day: dayOf(ago(7)), rank: i + 3, ...before }],
      ),
    );
  const booking = (
    unit: string,
    depot: string,
    startsAt: Date | null,
    rest: Partial<typeof bookings.$inferInsert> = {},
  ): typeof bookings.$inferInsert => ({
    vehicle: keyOf(unit),
    depot,
    state: 'booked',
    bay: startsAt === null ? null : 1,
    day: startsAt === null ? null : dayOf(startsAt),
    startsAt,
    endsAt: startsAt === null ? null : new Date(startsAt.getTime() + 3 * 3_600_000),
    createdAt: ago(30),
    createdBy: 'Maren',
    changedAt: ago(30),
    changedBy: 'Maren',
    ...rest,
  });
  const noon = (days: number) => new Date(`${dayOf(ago(-days))}T12:00:00Z`);
  await db.insert(bookings).values([
    booking('N-BOOKED', 'north', noon(1), { createdAt: ago(1), createdBy: 'Ilse' }),
    booking('N-PUT-OFF', 'north', null, { state: 'put_off', reason: 'no bay\nbefore Friday.' }),
    booking('S-WORSE', 'south', noon(1), { createdAt: ago(0.5) }),
    booking('N-WORSE', 'north', noon(2), { createdAt: ago(2), changedAt: ago(1), state: 'cancelled' }),
    booking('N-INSPECTED', 'north', noon(-2), {
      state: 'done',
      changedAt: ago(1),
      reason: 'valve body changed',
    }),
    booking('S-INSPECTED', 'south', noon(-3), { state: 'done', changedAt: ago(2) }),
    booking('N-PAST', 'north', noon(-1)),
    booking('S-PAST', 'south', noon(-9)),
  ]);
}
