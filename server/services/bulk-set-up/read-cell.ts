import { CLEAR_MARK, CLOSED_WORD } from '#server/contract/set-up-files/set-up-column.ts';
import { celsiusFromFahrenheit, kmFromMiles } from '#server/contract/units.ts';
import { suggestName } from '#server/services/csv/suggest-name.ts';
import type { MatchedColumn } from './match-header.ts';
import { readFigure } from './read-figure.ts';

/** What a cell says: a value, null where it clears, or a fault. */
export type ReadCell = { value: unknown } | { fault: string };

const HOURS = /^(\d{1,2}:\d{2})\s*[-\u2013]\s*(\d{1,2}:\d{2})$/;
const YES = new Set(['yes', 'y', 'true', '1']);
const NO = new Set(['no', 'n', 'false', '0']);

/** A metre of a kilometre: finer than any instrument, and without the long tail of a conversion. */
const inThousandths = (value: number): number => Math.round(value * 1000) / 1000;

const toMetric = { mi: kmFromMiles, mph: kmFromMiles, degF: celsiusFromFahrenheit };

/** A cell that is not empty, as the value that JSON would have brought. */
export function readCell({ column, unit }: MatchedColumn, cell: string, separator: string): ReadCell {
  const text = withoutGuard(cell);
  if (text === CLEAR_MARK) {
    if (column.clears || column.holds === 'hours') return { value: null };
    return { fault: `cannot be taken away: ${CLEAR_MARK} is for columns that may hold nothing` };
  }
  switch (column.holds) {
    case 'number': {
      const read = readFigure(text, separator);
      return 'fault' in read || unit === null ? read : { value: inThousandths(toMetric[unit](read.value)) };
    }
    case 'numbers':
      return readNumbers(text, separator);
    case 'yes_no': {
      const word = text.toLowerCase();
      if (YES.has(word) || NO.has(word)) return { value: YES.has(word) };
      return { fault: `must be yes or no, not '${text}'` };
    }
    case 'moment':
      return readMoment(text);
    case 'hours':
      return readHours(text);
    case 'choice': {
      const { choices = [] } = column;
      const word = text.toLowerCase();
      if (choices.includes(word)) return { value: word };
      return { fault: `must be one of ${choices.join(', ')}, not '${text}'${suggestName(word, choices)}` };
    }
    case 'text':
      return { value: text };
  }
}

/** Tables that we write have an apostrophe before what a sheet would take for a formula. */
const withoutGuard = (cell: string): string => cell.replace(/^'(?=[=+\-@])/, '');

function readNumbers(text: string, separator: string): ReadCell {
  const values: number[] = [];
  for (const part of text.split(/\s+/)) {
    const read = readFigure(part, separator);
    if ('fault' in read) return read;
    values.push(read.value);
  }
  return { value: values };
}

/** Noon in Greenwich is the same day almost everywhere. */
const NOON = 'T12:00:00Z';

function readMoment(text: string): ReadCell {
  if (/^\d{4}-\d{2}-\d{2}$/.test(text)) {
    const isDay = !Number.isNaN(Date.parse(text)) && new Date(text).toISOString().startsWith(text);
    return isDay ? { value: `${text}${NOON}` } : { fault: `'${text}' is a day that there is not` };
  }
  if (/^\d{4}-\d{2}-\d{2}[Tt ]/.test(text)) return { value: text };
  return { fault: `must be a day such as 2025-11-04, or an RFC 3339 time, not '${text}'` };
}

export const sayMoment = (time: Date): string =>
  time
    .toISOString()
    .replace(/T12:00:00\.000Z$/, '')
    .replace(/\.000Z$/, 'Z');

function readHours(text: string): ReadCell {
  if (text.toLowerCase() === CLOSED_WORD) return { value: null };
  const [, from, to] = HOURS.exec(text) ?? [];
  if (from === undefined || to === undefined)
    return { fault: `must be hours such as 07:00-16:00, or ${CLOSED_WORD}, not '${text}'` };
  return { value: { from: from.padStart(5, '0'), to: to.padStart(5, '0') } };
}
