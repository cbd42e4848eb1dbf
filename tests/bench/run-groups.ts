import { join } from 'node:path';
import { ensureScreens } from '#server/cli/screens/ensure-screens.ts';
import { measureAnswers } from './answers/measure-answers.ts';
import { addPlanner, addReader } from './answers/people.ts';
import { measureAssessment } from './assessment/measure-assessment.ts';
import { measureDeliveries } from './deliveries/measure-deliveries.ts';
import { type FleetSize, type MadeFleet, makeFleet } from './fleet/make-fleet.ts';
import { openServer } from './open-server.ts';
import type { Tell } from './report.ts';
import { measureScreen } from './screen/measure-screen.ts';
import { measureDelivered, tellStorage } from './storage/measure-storage.ts';
import { measureTrend } from './trend/measure-trend.ts';

export const groups = ['deliveries', 'trend', 'storage', 'answers', 'assessment', 'screen'] as const;
export type Group = (typeof groups)[number];

const VEHICLES = 10_000;
const READINGS = 10_000;
/** Six a day, where nobody looks at how many there are. */
const FEW_READINGS = 6 * 365;
const DAYS = 365;

/** Runs these groups, each figure told as it is found; what needs the fleet of 10,000 shares one. */
export async function runGroups(
  chosen: ReadonlySet<Group>,
  folder: string,
  scale: number,
  tell: Tell,
): Promise<void> {
  if (chosen.has('trend')) await measureTrend(scale, tell);
  if (chosen.has('deliveries')) await measureDeliveries(folder, scale, tell);
  if (chosen.has('storage')) await measureStored(join(folder, 'storage'), scale, tell);
  const needFleet = (['storage', 'answers', 'assessment', 'screen'] as const).filter((one) =>
    chosen.has(one),
  );
  if (needFleet.length === 0) return;
  const many = chosen.has('storage') || chosen.has('answers');
  const size: FleetSize = {
    vehicles: Math.max(48, Math.round(VEHICLES * scale)),
    readings: many ? Math.max(1_000, Math.round(READINGS * scale)) : FEW_READINGS,
    days: DAYS,
  };
  await measureFleet(new Set(needFleet), join(folder, 'fleet'), size, scale, tell);
}

async function measureStored(folder: string, scale: number, tell: Tell): Promise<void> {
  const server = await openServer(folder);
  try {
    await measureDelivered(server, scale, 'within a day of their moment', tell);
    await measureDelivered(server, scale, 'late', tell);
  } finally {
    await server.stop();
  }
}

async function measureFleet(
  chosen: ReadonlySet<Group>,
  folder: string,
  size: FleetSize,
  scale: number,
  tell: Tell,
): Promise<void> {
  if (chosen.has('screen')) await ensureScreens();
  const server = await openServer(folder);
  let fleet: MadeFleet;
  try {
    fleet = await makeFleet(server, size);
    tell({
      figure: `readings generated in the database, ${fleet.fill.rows} rows with their key`,
      value: fleet.fill.rows / fleet.fill.seconds,
      unit: 'rows/s',
    });
    if (chosen.has('storage'))
      await tellStorage(server.client, `${fleet.fill.rows} generated, of 11 fields, months settled`, tell);
    const planner = await addPlanner(server);
    if (chosen.has('answers')) {
      const total = { vehicles: size.vehicles, readings: fleet.fill.rows };
      await measureAnswers(server, { planner, machine: await addReader(server) }, total, scale, tell);
    }
    if (chosen.has('screen')) await measureScreen(server.url, planner.cookie, size.vehicles, tell);
  } finally {
    await server.stop();
  }
  if (chosen.has('assessment')) await measureAssessment(folder, fleet, tell);
}
