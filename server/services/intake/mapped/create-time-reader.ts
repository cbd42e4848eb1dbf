import { durationUnits } from '#server/contract/field-units.ts';
import type { FileUnit, Given, Mapping } from '#server/contract/mappings.ts';
import { needsZone } from './check-mapping.ts';
import { createDayFollower, type DayFollower } from './follow-days.ts';
import { LackingError } from './lacking-error.ts';
import { createFigureReader } from './read-figure.ts';
import { createTimeTextReader } from './read-time-text.ts';
import { dayOfFile } from './vehicle-of-file.ts';
import { createZoneClock } from './zone-clock.ts';

const DAY_MS = 86_400_000;
const SHEET_START_MS = Date.UTC(1899, 11, 30);
const LATEST_MS = Date.UTC(2200, 0, 1);
const MISSING = 'is missing';

/** Cells of a row that say its time; empty where there is no such column, or nothing in it. */
export interface TimeCells {
  /** the moment whole, or the time of day */
  time: string;
  date: string;
}

export interface TimeReader {
  /** ms since 1970, or what is wrong; throws where no row can have a time, before the first one had */
  read(cells: TimeCells, vehicle: string): number | string;
  severalDays(): boolean;
}

export function createTimeReader(
  mapping: Mapping,
  given: Given,
  unit: FileUnit | null,
  days: Pick<DayFollower, 'follow' | 'severalDays'> = createDayFollower(),
): TimeReader {
  const { time } = mapping;
  const zone = time.zone ?? given.zone ?? null;
  const toMoment = zone === null ? null : createZoneClock(zone);
  const dayText = time.date === 'column' ? null : (given.date ?? dayOfFile(given.file ?? ''));
  const firstDayMs = dayText === null ? null : Date.parse(dayText);
  let hadZone = false;

  const fromLocal = (localMs: number): number | string => {
    if (toMoment === null) {
      if (!hadZone) throw new LackingError([{ field: 'zone', message: needsZone }]);
      return 'has no zone, and none was given';
    }
    return toMoment(localMs) ?? 'is a time that the change of the clocks leaves out, or far from today';
  };

  const readText = createTimeTextReader(time.order);
  const readWords = (cells: TimeCells, vehicle: string): number | string => {
    const text = readText(cells.time);
    if (text === null) return `is not a time as it is expected (${sayOrder(time.order)})`;
    let dayMs = text.dayMs;
    if (cells.date !== '') {
      dayMs = readText(cells.date)?.dayMs ?? null;
      if (dayMs === null) return `has a date that is none (${sayOrder(time.order)})`;
    }
    if (text.clockMs === null) return 'has no time of day';
    if (dayMs === null) {
      if (firstDayMs === null) return 'has no date';
      const followed = days.follow(vehicle, text.clockMs);
      if (typeof followed === 'string') return followed;
      dayMs = firstDayMs + followed * DAY_MS;
    }
    const localMs = dayMs + text.clockMs;
    if (text.offsetMs === null) return fromLocal(localMs);
    hadZone = true;
    return localMs - text.offsetMs;
  };

  const readNumber = createFigureReader(
    time.form === 'seconds' ? durationUnits : [],
    time.form === 'seconds' ? unit : null,
    mapping.decimal,
  );
  const startMs = given.start === undefined ? Number.NaN : Date.parse(given.start);
  const readCount = (cells: TimeCells): number | string => {
    const count = readNumber(cells.time);
    if (typeof count === 'string') return count;
    if (time.form === 'unix_ms') return Math.round(count);
    if (time.form === 'unix_s') return Math.round(count * 1000);
    if (time.form === 'seconds') return startMs + Math.round(count * 1000);
    return count;
  };
  const readSheetDays = (cells: TimeCells, vehicle: string): number | string => {
    let sheetDays = readCount(cells);
    if (typeof sheetDays === 'string') return sheetDays;
    if (cells.date !== '') {
      const day = readNumber(cells.date);
      if (typeof day === 'string') return `has a date that ${day}`;
      sheetDays = Math.floor(day) + (sheetDays % 1);
    } else if (firstDayMs !== null) {
      const clockMs = Math.round((sheetDays - Math.floor(sheetDays)) * DAY_MS);
      const followed = days.follow(vehicle, clockMs);
      return typeof followed === 'string' ? followed : fromLocal(firstDayMs + followed * DAY_MS + clockMs);
    }
    return fromLocal(SHEET_START_MS + Math.round(sheetDays * DAY_MS));
  };

  const readCells = time.form === 'text' ? readWords : time.form === 'sheet_days' ? readSheetDays : readCount;
  const needsDate = time.date === 'column' && mapping.columns.some(({ takes }) => takes === 'date');
  return {
    read(cells, vehicle) {
      if (cells.time === '') return MISSING;
      if (needsDate && cells.date === '') return 'has no date';
      const ms = readCells(cells, vehicle);
      return typeof ms === 'string' || Math.abs(ms) <= LATEST_MS ? ms : 'is far from today';
    },
    severalDays: days.severalDays,
  };
}

const orders = { ymd: 'year, month, day', dmy: 'day, month, year', mdy: 'month, day, year' };
const sayOrder = (order: Mapping['time']['order']): string => orders[order];
