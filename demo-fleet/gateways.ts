import type { Line } from './arrivals.ts';
import { DAY_MS } from './calendar.ts';
import { depots } from './depots.ts';
import type { Truth, TruthVehicle } from './truth.ts';

/** How the operator's readings come in: one sender a depot, and two that not all is well with. */
export interface GatewayPlan {
  nameOf: (unit: string) => string;
  /** how often it delivers, long ago: a year of daily deliveries would take its time */
  everyDays: (name: string) => number;
  /** the line as its gateway passes it on */
  pass: (line: Line) => Line;
}

const SPARE = 'Spare unit';
const LOANED = 'Loaned unit';
export const gatewayNames = [...depots.map(({ name }) => name), SPARE, LOANED];

const LOANED_VEHICLES = 6;
/** From so many days before the end the loaned unit says of a part of its readings that gears were changing. */
const STICKS_DAYS = 75;
const STICKS_SHARE = 0.4;

/**
 * The spare unit carries one vehicle that falls silent before the end, and falls silent with it. The loaned unit carries
 * vehicles without a fault, so that what sticks in it hides nothing that anybody should find.
 */
export function planGateways({ vehicles, end }: Pick<Truth, 'vehicles' | 'end'>): GatewayPlan {
  const endDay = end.slice(0, 10);
  const silent = vehicles
    .flatMap(({ unit, notes }) => {
      const from = notes.map((note) => /^gateway quiet from (\S+) to (\S+)$/.exec(note)).find((one) => one);
      return from?.[1] !== undefined && from[2] === endDay ? [{ unit, from: from[1] }] : [];
    })
    .sort((a, b) => (a.from < b.from ? 1 : -1));
  const loaned = new Set(
    vehicles
      .filter(isSound)
      .slice(0, LOANED_VEHICLES)
      .map(({ unit }) => unit),
  );
  const depotOf = new Map(vehicles.map(({ unit, depot }) => [unit, depot]));
  const nameAt = new Map(depots.map(({ id, name }) => [id, name]));
  const sticksFromMs = Date.parse(end) - STICKS_DAYS * DAY_MS;
  return {
    nameOf: (unit) => {
      if (unit === silent[0]?.unit) return SPARE;
      if (loaned.has(unit)) return LOANED;
      return nameAt.get(depotOf.get(unit) ?? '') ?? depots[0]?.name ?? SPARE;
    },
    everyDays: (name) => (name === SPARE || name === LOANED ? 7 : 28),
    pass: (line) => {
      const { reading } = line;
      if (!loaned.has(reading.vehicle) || line.raw !== undefined || Date.parse(reading.at) < sticksFromMs)
        return line;
      if (shareOf(reading.at) >= STICKS_SHARE) return line;
      return { ...line, reading: { ...reading, shifting: true } };
    },
  };
}

const isSound = ({ faultKind, lives, gateway, notes, registered }: TruthVehicle): boolean =>
  registered && faultKind === 'none' && lives.length === 1 && gateway === 'full' && notes.length === 0;

/** A number from 0 to 1 that a text always gives (FNV-1a), so that a copy of a line sticks as the line did. */
function shareOf(text: string): number {
  let hash = 2_166_136_261;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 16_777_619);
  return (hash >>> 0) / 2 ** 32;
}
