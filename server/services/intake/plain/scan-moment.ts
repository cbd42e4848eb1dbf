const ZERO = 48;

let lastDay = -1;
let lastDayMs = Number.NaN;

/**
 * A moment written `YYYY-MM-DDTHH:MM:SSZ`, with up to three decimals of the seconds, as ms since 1970; NaN for any other
 * way of writing. The bytes are ASCII. Readings of a body are mostly of few days: the last one is remembered.
 */
export function scanMoment(bytes: Uint8Array, from: number, to: number): number {
  const length = to - from;
  if (length < 20 || length > 24 || length === 21 || bytes[to - 1] !== 90) return Number.NaN;
  const isWritten =
    bytes[from + 4] === 45 &&
    bytes[from + 7] === 45 &&
    bytes[from + 10] === 84 &&
    bytes[from + 13] === 58 &&
    bytes[from + 16] === 58 &&
    (length === 20 || bytes[from + 19] === 46);
  if (!isWritten) return Number.NaN;
  const day = digits(bytes, from, 4) * 10_000 + digits(bytes, from + 5, 2) * 100 + digits(bytes, from + 8, 2);
  if (day !== lastDay) {
    const dayMs = toDayMs(day);
    if (Number.isNaN(dayMs)) return Number.NaN;
    lastDay = day;
    lastDayMs = dayMs;
  }
  const hours = digits(bytes, from + 11, 2);
  const minutes = digits(bytes, from + 14, 2);
  const seconds = digits(bytes, from + 17, 2);
  if (!(hours < 24 && minutes < 60 && seconds < 60)) return Number.NaN;
  const decimals = length - 21;
  const fraction =
    length === 20 ? 0 : digits(bytes, from + 20, decimals) * (decimals === 3 ? 1 : decimals === 2 ? 10 : 100);
  return lastDayMs + ((hours * 60 + minutes) * 60 + seconds) * 1000 + fraction;
}

/** NaN where one of them is none. */
function digits(bytes: Uint8Array, from: number, count: number): number {
  let value = 0;
  for (let i = from; i < from + count; i++) {
    const digit = (bytes[i] ?? 0) - ZERO;
    if (!(digit >= 0 && digit <= 9)) return Number.NaN;
    value = value * 10 + digit;
  }
  return value;
}

/** YYYYMMDD; NaN where there is no such day. */
function toDayMs(day: number): number {
  const year = Math.floor(day / 10_000);
  const month = Math.floor(day / 100) % 100;
  const ofMonth = day % 100;
  const ms = Date.UTC(year, month - 1, ofMonth);
  const is = new Date(ms);
  return year >= 100 && is.getUTCMonth() === month - 1 && is.getUTCDate() === ofMonth ? ms : Number.NaN;
}
