const NUMBER = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;
const DECIMAL_COMMA = /^[+-]?\d*,\d+(?:[eE][+-]?\d+)?$/;
/** RFC 3339, a space in place of the T and no offset allowed: only differences count. */
const STAMP = /^\d{4}-\d{2}-\d{2}[T ]\d{2}:\d{2}:\d{2}(?:\.\d+)?(?:Z|[+-]\d{2}:\d{2})?$/i;
const CLOCK = /^(\d{1,2}):(\d{2}):(\d{2}(?:\.\d+)?)$/;

/** A number; NaN where the cell is none. */
export function readTraceNumber(cell: string, decimalComma: boolean): number {
  const text = cell.trim();
  if (NUMBER.test(text)) return Number(text);
  return decimalComma && DECIMAL_COMMA.test(text) ? Number(text.replace(',', '.')) : Number.NaN;
}

/** A date with its time, or a time of day, in ms; NaN where the cell is neither. */
export function readTraceStamp(cell: string, decimalComma: boolean): number {
  const text = decimalComma ? cell.trim().replace(',', '.') : cell.trim();
  if (STAMP.test(text)) {
    const joined = text.replace(' ', 'T');
    return Date.parse(/(?:z|[+-]\d{2}:\d{2})$/i.test(joined) ? joined : `${joined}Z`);
  }
  const clock = CLOCK.exec(text);
  return clock === null
    ? Number.NaN
    : 1000 * (3600 * Number(clock[1]) + 60 * Number(clock[2]) + Number(clock[3]));
}

const yes = new Set(['1', 'true', 'yes', 'on']);
const no = new Set(['0', 'false', 'no', 'off', '']);

/** 1, 0, or NaN where the cell says neither. */
export function readTraceFlag(cell: string): number {
  const text = cell.trim().toLowerCase();
  return yes.has(text) ? 1 : no.has(text) ? 0 : Number.NaN;
}
