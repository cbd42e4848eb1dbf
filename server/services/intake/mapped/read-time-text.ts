import type { Mapping } from '#server/contract/mappings.ts';
import { readDay } from './read-day.ts';

type Order = Mapping['time']['order'];

/** A time as it is written, each part null where it is not there. */
export interface TimeText {
  /** its day as ms since 1970, as if it were UTC */
  dayMs: number | null;
  /** since midnight */
  clockMs: number | null;
  /** of its zone, ahead of UTC */
  offsetMs: number | null;
}

const LONGEST = 64;
const PLAIN = /^(\d{4}-\d{2}-\d{2})[T ](\d{2}):(\d{2}):(\d{2})(?:[.,](\d{1,9}))?(Z|[+-]\d{2}:?\d{2})?$/;
const COMPACT = /^(\d{8})[T _-]?(\d{2})(\d{2})(\d{2})(?:[.,](\d{1,9}))?(Z|[+-]\d{2}:?\d{2})?$/;
const SPOKEN =
  /^(?:(\S.*?)(?:[\s,]+|T))?(\d{1,2})[:h](\d{2})(?::(\d{2})(?:[.,:](\d{1,9}))?)?(?: ?([ap])\.?m\.?)?(?: Uhr)?(?: ?(Z|UTC|GMT|(?:UTC|GMT)? ?[+\-−]\d{1,2}(?::?\d{2})?))?$/i;

const MINUTE_MS = 60_000;
/** Line Islands, the farthest ahead. */
const MOST_OFFSET_HOURS = 14;

/** Reads texts that say a time, whole or in part; null where one says none. Days repeat: the last one is remembered. */
export function createTimeTextReader(order: Order): (text: string) => TimeText | null {
  let lastText = '';
  let lastDayMs: number | null = null;
  const toDay = (text: string): number | null => {
    if (text !== lastText) {
      lastText = text;
      lastDayMs = readDay(text, order);
    }
    return lastDayMs;
  };
  return (text) => {
    if (text.length > LONGEST) return null;
    const plain = PLAIN.exec(text) ?? COMPACT.exec(text);
    if (plain !== null) {
      const [, day = '', hour, minute, second, part, zone] = plain;
      return join(toDay(day), toClock(hour, minute, second, part), zone);
    }
    const spoken = SPOKEN.exec(text);
    if (spoken === null) {
      const dayMs = toDay(text);
      return dayMs === null ? null : { dayMs, clockMs: null, offsetMs: null };
    }
    const [, day, hour, minute, second, part, half, zone] = spoken;
    const clockMs = toClock(hour, minute, second, part, half);
    if (day !== undefined) return join(toDay(day), clockMs, zone);
    const offsetMs = toOffset(zone);
    return clockMs === null || offsetMs === false ? null : { dayMs: null, clockMs, offsetMs };
  };
}

function join(dayMs: number | null, clockMs: number | null, zone: string | undefined): TimeText | null {
  const offsetMs = toOffset(zone);
  return dayMs === null || clockMs === null || offsetMs === false ? null : { dayMs, clockMs, offsetMs };
}

function toClock(
  hour: string | undefined,
  minute: string | undefined,
  second = '0',
  part = '0',
  half?: string,
): number | null {
  let hours = Number(hour);
  if (half !== undefined) {
    if (hours < 1 || hours > 12) return null;
    hours = (hours % 12) + (half.toLowerCase() === 'p' ? 12 : 0);
  }
  if (hours > 23 || Number(minute) > 59 || Number(second) > 59) return null;
  const wholeMs = ((hours * 60 + Number(minute)) * 60 + Number(second)) * 1000;
  return wholeMs + Math.floor(Number(`0.${part}`) * 1000 + 1e-6);
}

/** False for what is none anywhere. */
function toOffset(zone: string | undefined): number | null | false {
  if (zone === undefined) return null;
  const [, sign = '+', hours = '0', minutes = '0'] = /([+\-−])(\d{1,2}):?(\d{2})?$/.exec(zone) ?? [];
  if (Number(hours) > MOST_OFFSET_HOURS || Number(minutes) > 59) return false;
  const ms = (Number(hours) * 60 + Number(minutes)) * MINUTE_MS;
  return sign === '+' ? ms : -ms;
}
