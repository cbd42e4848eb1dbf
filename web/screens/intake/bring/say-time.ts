import type { Mapping } from '#server/contract/mappings.ts';

const timeForms: Record<Mapping['time']['form'], string> = {
  text: 'day and clock, written out',
  unix_s: 'seconds since 1970',
  unix_ms: 'milliseconds since 1970',
  sheet_days: 'days since the end of 1899, as sheets count',
  seconds: 'seconds since the start',
};

const dayOrders: Record<Mapping['time']['order'], string> = {
  ymd: 'year, month, day',
  dmy: 'day, month, year',
  mdy: 'month, day, year',
};

export const sayTimeForm = (form: Mapping['time']['form']): string => timeForms[form];
export const sayDayOrder = (order: Mapping['time']['order']): string => dayOrders[order];
