/** A bay that has something in it. */
export interface Taken {
  bay: number;
  startsAt: Date;
  endsAt: Date;
}

export interface Wanted {
  /** bays are numbered from 1 to this */
  bays: number;
  opensAt: Date;
  closesAt: Date;
  /** now, or earlier */
  notBefore: Date;
  /** how long it takes */
  ms: number;
  /** only this bay */
  bay?: number | undefined;
  /** only at this time */
  startsAt?: Date | undefined;
}

export interface Gap {
  bay: number;
  startsAt: Date;
}

/** All time zones of today are whole quarters of an hour from UTC, so that a quarter there is one here. */
const QUARTER_MS = 900_000;

/** The earliest time at which a bay is free for long enough, on the quarter of an hour; of several bays the lowest. */
export function findGap(taken: readonly Taken[], wanted: Wanted): Gap | null {
  const { bays, bay, ms } = wanted;
  const first = Math.max(wanted.opensAt.getTime(), wanted.notBefore.getTime());
  const last = wanted.closesAt.getTime() - ms;
  let best: { bay: number; at: number } | null = null;
  for (let one = bay ?? 1; one <= Math.min(bay ?? bays, bays); one += 1) {
    const own = taken
      .filter((other) => other.bay === one)
      .toSorted((a, b) => a.startsAt.getTime() - b.startsAt.getTime());
    const at =
      wanted.startsAt === undefined
        ? earliest(own, first, ms)
        : isFree(own, wanted.startsAt.getTime(), ms)
          ? wanted.startsAt.getTime()
          : null;
    if (at !== null && at >= first && at <= last && (best === null || at < best.at)) best = { bay: one, at };
  }
  return best === null ? null : { bay: best.bay, startsAt: new Date(best.at) };
}

/** `own` is what one bay has, in order. */
function earliest(own: readonly Taken[], first: number, ms: number): number {
  let at = upToQuarter(first);
  for (const { startsAt, endsAt } of own)
    if (startsAt.getTime() < at + ms) at = Math.max(at, upToQuarter(endsAt.getTime()));
  return at;
}

const isFree = (own: readonly Taken[], at: number, ms: number): boolean =>
  own.every(({ startsAt, endsAt }) => endsAt.getTime() <= at || startsAt.getTime() >= at + ms);

const upToQuarter = (ms: number): number => Math.ceil(ms / QUARTER_MS) * QUARTER_MS;
