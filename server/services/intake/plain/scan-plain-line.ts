import { NO_GEAR, NOT_SAID, REALS, type ReadingColumns } from '#db/queries/reading-columns.ts';
import { celsiusFromFahrenheit, kmFromMiles } from '#server/contract/units.ts';
import { boundedNumbers } from '#server/services/intake/is-plain-reading.ts';
import { findKeys } from './find-keys.ts';
import { scanMoment } from './scan-moment.ts';

interface Limits {
  /** moments outside of these are no readings */
  oldestMs: number;
  latestMs: number;
}

const CARRIAGE_RETURN = 13;
const QUOTE = 34;
const COMMA = 44;
const MINUS = 45;
const DOT = 46;
const ZERO = 48;
const NINE = 57;
const COLON = 58;
const BACKSLASH = 92;
const SPACE = 32;
const OPENING = 123;
const CLOSING = 125;
const LAST_PRINTABLE = 126;
const LONGEST_UNIT = 64;
/** So many digits, and as many powers of ten, are whole numbers without rounding: their quotient is rounded once, as JSON's is. */
const MOST_DIGITS = 15;
const POWERS = Float64Array.from({ length: MOST_DIGITS + 1 }, (_, i) => 10 ** i);

const numbers = boundedNumbers.map(({ field }) => field as string);
const keyOf = findKeys([...numbers, 'vehicle', 'at', 'shifting', 'codes']);
const low = Float64Array.from(boundedNumbers, (one) => one.low);
const high = Float64Array.from(boundedNumbers, (one) => one.high);
const VEHICLE = numbers.length;
const AT = VEHICLE + 1;
const SHIFTING = AT + 1;
const placeOf = (field: string): number => {
  const place = numbers.indexOf(field);
  if (place < 0) throw new Error(`scanPlainLine requires the field '${field}' in the schema`);
  return place;
};
const ODOMETER_KM = placeOf('odometer_km');
const ODOMETER_MI = placeOf('odometer_mi');
const SLIP = placeOf('slip_rpm');
const DUTY = placeOf('duty_pct');
const FLUID_C = placeOf('fluid_c');
const FLUID_F = placeOf('fluid_f');
const LOAD = placeOf('load_pct');
const TORQUE = placeOf('torque_pct');
const THROTTLE = placeOf('throttle_pct');
const SPEED_KMH = placeOf('speed_kmh');
const SPEED_MPH = placeOf('speed_mph');
const SECONDS = placeOf('seconds');
const GEAR = placeOf('gear');

const TRUE = Buffer.from('true');
const FALSE = Buffer.from('false');
const NO_CODES = Buffer.from('[]');

/**
 * Reads a line that is the plain JSON of a reading from its bytes into columns: our fields, each once, text without escapes,
 * numbers without exponents. Answers false, and has stored nothing, for any that it is not sure of: those go by way of
 * JSON.parse and the schema, which also say what is wrong. Where it is sure, it stores what they would; the tests hold it to that.
 */
export function createPlainScanner() {
  const values = new Float64Array(numbers.length);
  const reals = new Float64Array(REALS);
  /** place in the line; fields met so far, a bit each; what was met that is no number */
  let at = 0;
  let seen = 0;
  let unitFrom = 0;
  let unitTo = 0;
  /** A number in a variable of its own would be made anew on the heap for each line. */
  const moment = new Float64Array(1);
  let shifting = NOT_SAID;

  const skipSpace = (bytes: Buffer): void => {
    while (bytes[at] === SPACE) at++;
  };
  const isHere = (bytes: Buffer, word: Buffer): boolean => {
    for (let i = 0; i < word.length; i++) if (bytes[at + i] !== word[i]) return false;
    at += word.length;
    return true;
  };

  /** A number in plain decimals; NaN where it is written otherwise. */
  const scanNumber = (bytes: Buffer): number => {
    const isNegative = bytes[at] === MINUS;
    if (isNegative) at++;
    const start = at;
    let value = 0;
    let byte = bytes[at] ?? 0;
    while (byte >= ZERO && byte <= NINE) {
      value = value * 10 + byte - ZERO;
      byte = bytes[++at] ?? 0;
    }
    const whole = at - start;
    if (whole === 0 || (whole > 1 && bytes[start] === ZERO)) return Number.NaN;
    let decimals = 0;
    if (byte === DOT) {
      const first = ++at;
      byte = bytes[at] ?? 0;
      while (byte >= ZERO && byte <= NINE) {
        value = value * 10 + byte - ZERO;
        byte = bytes[++at] ?? 0;
      }
      decimals = at - first;
      if (decimals === 0) return Number.NaN;
    }
    if (whole + decimals > MOST_DIGITS) return Number.NaN;
    const scaled = decimals === 0 ? value : value / (POWERS[decimals] ?? 1);
    return isNegative ? -scaled : scaled;
  };

  /** Where the text that begins here ends, at its quote; -1 where it holds other than printable ASCII, or an escape. */
  const scanText = (bytes: Buffer, to: number): number => {
    if (bytes[at] !== QUOTE) return -1;
    at++;
    for (let end = at; end < to; end++) {
      const byte = bytes[end] ?? 0;
      if (byte === QUOTE) return end;
      if (byte < SPACE || byte > LAST_PRINTABLE || byte === BACKSLASH) return -1;
    }
    return -1;
  };

  const scanValue = (bytes: Buffer, to: number, key: number): boolean => {
    if (key < VEHICLE) {
      const value = scanNumber(bytes);
      values[key] = value;
      return value >= (low[key] ?? Number.NaN) && value <= (high[key] ?? Number.NaN);
    }
    if (key === SHIFTING) {
      shifting = Number(bytes[at] === TRUE[0]);
      return isHere(bytes, shifting === 1 ? TRUE : FALSE);
    }
    if (key !== VEHICLE && key !== AT) return isHere(bytes, NO_CODES);
    const end = scanText(bytes, to);
    if (end < 0) return false;
    if (key === AT) moment[0] = scanMoment(bytes, at, end);
    else {
      unitFrom = at;
      unitTo = end;
    }
    at = end + 1;
    return true;
  };

  /** Reads the members of the object into the variables above; false where anything is not as it is expected. */
  const scanMembers = (bytes: Buffer, to: number): boolean => {
    for (;;) {
      skipSpace(bytes);
      const keyTo = scanText(bytes, to);
      if (keyTo < 0) return false;
      const key = keyOf(bytes, at, keyTo);
      if (key < 0 || (seen & (1 << key)) !== 0) return false;
      seen |= 1 << key;
      at = keyTo + 1;
      skipSpace(bytes);
      if (bytes[at++] !== COLON) return false;
      skipSpace(bytes);
      if (!scanValue(bytes, to, key)) return false;
      skipSpace(bytes);
      if (bytes[at] !== COMMA) return at === to - 1;
      at++;
    }
  };

  const has = (key: number): boolean => (seen & (1 << key)) !== 0;
  const given = (key: number): number => values[key] ?? Number.NaN;

  const isWhole = (bytes: Buffer, { oldestMs, latestMs }: Limits): boolean =>
    has(VEHICLE) &&
    has(AT) &&
    has(SLIP) &&
    has(DUTY) &&
    has(ODOMETER_KM) !== has(ODOMETER_MI) &&
    !(has(FLUID_C) && has(FLUID_F)) &&
    !(has(SPEED_KMH) && has(SPEED_MPH)) &&
    !(has(GEAR) && !Number.isInteger(given(GEAR))) &&
    (moment[0] ?? Number.NaN) >= oldestMs &&
    (moment[0] ?? Number.NaN) <= latestMs &&
    unitTo > unitFrom &&
    unitTo - unitFrom <= LONGEST_UNIT &&
    bytes[unitFrom] !== SPACE &&
    bytes[unitTo - 1] !== SPACE;

  return (
    bytes: Buffer,
    from: number,
    end: number,
    limits: Limits,
    columns: ReadingColumns,
    line: number,
  ): boolean => {
    const to = bytes[end - 1] === CARRIAGE_RETURN ? end - 1 : end;
    if (bytes[from] !== OPENING || bytes[to - 1] !== CLOSING) return false;
    values.fill(Number.NaN);
    seen = 0;
    shifting = NOT_SAID;
    at = from + 1;
    if (!scanMembers(bytes, to) || !isWhole(bytes, limits)) return false;
    reals[0] = has(ODOMETER_KM) ? given(ODOMETER_KM) : kmFromMiles(given(ODOMETER_MI));
    reals[1] = given(SLIP);
    reals[2] = given(DUTY);
    reals[3] = has(FLUID_F) ? celsiusFromFahrenheit(given(FLUID_F)) : given(FLUID_C);
    reals[4] = given(LOAD);
    reals[5] = given(TORQUE);
    reals[6] = given(THROTTLE);
    reals[7] = has(SPEED_MPH) ? kmFromMiles(given(SPEED_MPH)) : given(SPEED_KMH);
    reals[8] = given(SECONDS);
    const place = columns.places.ofBytes(bytes, unitFrom, unitTo);
    columns.pushValues(
      place,
      moment[0] ?? Number.NaN,
      reals,
      has(GEAR) ? given(GEAR) : NO_GEAR,
      shifting,
      line,
    );
    return true;
  };
}
