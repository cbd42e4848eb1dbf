import { and, eq, inArray } from 'drizzle-orm';
import { alias } from 'drizzle-orm/pg-core';
import type { Database } from '#db/client.ts';
import { assessments } from '#db/schema/analysis.ts';
import { vehicles } from '#db/schema/fleet.ts';
import { standings } from '#db/schema/planning.ts';
import { ofPart, type SeenPart } from './seen-part.ts';

const before = alias(standings, 'standings_before');
const drifting = ['hold', 'book', 'watch'] as const;

const columns = {
  key: vehicles.key,
  unit: vehicles.unit,
  depot: vehicles.depot,
  before: { rank: before.rank, grade: before.grade, chance: before.chance, kmP50: before.kmP50 },
};

/** Vehicles that drift, as the list has them now, beside where they stood on a day. */
export const compareWithNow = (db: Database, part: SeenPart, day: string) =>
  db
    .select({
      ...columns,
      after: {
        rank: assessments.rank,
        grade: assessments.grade,
        chance: assessments.chance,
        kmP50: assessments.kmP50,
      },
    })
    .from(assessments)
    .innerJoin(vehicles, eq(vehicles.key, assessments.vehicle))
    .innerJoin(before, and(eq(before.vehicle, vehicles.key), eq(before.day, day)))
    .where(and(inArray(assessments.grade, drifting), eq(vehicles.retired, false), ofPart(part)));

/** The same of two days. */
export const compareDays = (db: Database, part: SeenPart, day: string, later: string) =>
  db
    .select({
      ...columns,
      after: {
        rank: standings.rank,
        grade: standings.grade,
        chance: standings.chance,
        kmP50: standings.kmP50,
      },
    })
    .from(standings)
    .innerJoin(vehicles, eq(vehicles.key, standings.vehicle))
    .innerJoin(before, and(eq(before.vehicle, vehicles.key), eq(before.day, day)))
    .where(
      and(
        eq(standings.day, later),
        inArray(standings.grade, drifting),
        eq(vehicles.retired, false),
        ofPart(part),
      ),
    );

export type ComparedStanding = Awaited<ReturnType<typeof compareWithNow>>[number];
