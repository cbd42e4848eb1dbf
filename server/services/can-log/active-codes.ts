import { ENGINE_ADDRESS, TRANSMISSION_ADDRESS } from '#server/engine/j1939/signals.ts';

/** Active codes are sent once a second: a code counts as active so long after the message that named it. */
const ACTIVE_US = 3_000_000;
/** A source can name 445 codes in a message; so many of all of them together are kept. */
const MOST_CODES = 2000;
/** A reading takes so many. */
const MOST_CODES_OF_READING = 64;

interface ActiveCode {
  code: string;
  source: number;
  fromUs: number;
  untilUs: number;
  seconds: number;
}

/** Which trouble codes were active when; readings tell those of transmission and engine, the summary all. */
export function createActiveCodes() {
  const known = new Map<string, ActiveCode>();
  const bySource = new Map<number, ActiveCode[]>();

  /** The codes that a source names now; those that it named before and does not name now end. */
  const take = (source: number, codes: readonly string[], atUs: number): void => {
    for (const one of bySource.get(source) ?? []) endAt(one, atUs);
    const named: ActiveCode[] = [];
    for (const code of codes) {
      const key = `${source} ${code}`;
      let one = known.get(key);
      if (one === undefined) {
        if (known.size >= MOST_CODES) continue;
        one = { code, source, fromUs: atUs, untilUs: atUs, seconds: 0 };
        known.set(key, one);
      }
      if (one.untilUs < atUs) one.fromUs = atUs;
      one.untilUs = atUs + ACTIVE_US;
      one.seconds += ACTIVE_US / 1_000_000;
      named.push(one);
    }
    bySource.set(source, named);
  };

  const endAt = (one: ActiveCode, atUs: number): void => {
    if (one.untilUs <= atUs) return;
    one.seconds -= (one.untilUs - atUs) / 1_000_000;
    one.untilUs = atUs;
  };

  return {
    take,
    /** the log ends, or its clock is no longer the same */
    end(atUs: number): void {
      for (const one of known.values()) endAt(one, atUs);
      for (const one of known.values()) {
        one.fromUs = Number.NEGATIVE_INFINITY;
        one.untilUs = Number.NEGATIVE_INFINITY;
      }
      bySource.clear();
    },
    /** active at some time from `fromUs` to `toUs`, of transmission and engine */
    within(fromUs: number, toUs: number): string[] {
      const found = new Set<string>();
      for (const one of known.values())
        if (
          (one.source === TRANSMISSION_ADDRESS || one.source === ENGINE_ADDRESS) &&
          one.fromUs < toUs &&
          one.untilUs > fromUs
        )
          found.add(one.code);
      return [...found].slice(0, MOST_CODES_OF_READING);
    },
    list: () =>
      [...known.values()].map(({ code, source, seconds }) => ({
        code,
        source,
        seconds: Math.round(seconds * 10) / 10,
      })),
  };
}
