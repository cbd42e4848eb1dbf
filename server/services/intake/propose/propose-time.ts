import type { Doubt } from '#server/contract/looks.ts';
import type { Given, Mapping } from '#server/contract/mappings.ts';
import { dayOfFile } from '#server/services/intake/mapped/vehicle-of-file.ts';
import { partName } from './column-words.ts';
import type { DescribedTimes } from './describe-times.ts';
import type { GuessedColumn } from './guess-column.ts';

export interface ProposedTime {
  time: Mapping['time'];
  columns: Mapping['columns'];
  doubts: Doubt[];
}

type Timed = { name: string; times: DescribedTimes };

const orderWords = { ymd: 'year first', dmy: 'day before month', mdy: 'month before day' };

/** Where the moment of a row stands, and how it is written. */
export function proposeTime(
  columns: readonly { name: string; guess: GuessedColumn }[],
  given: Given,
): ProposedTime {
  const timed = columns.flatMap(({ name, guess: { times } }): Timed[] =>
    times === null ? [] : [{ name, times }],
  );
  const whole = timed.filter(({ times }) => times.holds === 'moment');
  const date = timed.find(({ times }) => times.holds === 'date');
  const clock = timed.find(({ times }) => times.holds === 'clock');
  const [main = clock] = whole;
  const doubts: Doubt[] = [];
  const doubt = (column: string, message: string) => doubts.push({ about: 'time', column, message });
  const form = main?.times.form ?? 'text';
  const placed: Mapping['columns'] = [];
  const add = (one: Timed | undefined, takes: 'time' | 'date' | 'clock') => {
    if (one !== undefined) placed.push({ column: one.name, takes, unit: null });
  };
  const ordered = main === clock ? date : main;
  if (main !== undefined && main !== clock) add(main, 'time');
  else {
    add(date, 'date');
    add(clock, 'clock');
  }
  for (const other of whole.slice(1))
    doubt(other.name, 'holds times as well; those of the first such column are taken');
  if (ordered?.times.otherOrder)
    doubt(
      ordered.name,
      `may have ${orderWords[ordered.times.otherOrder]}; it is read with ${orderWords[ordered.times.order]}`,
    );
  if (main !== undefined && form === 'seconds') {
    const { unit } = partName(main.name);
    const found = placed.find(({ takes }) => takes === 'time');
    if (found !== undefined) found.unit = unit === 'ms' || unit === 'min' ? unit : null;
    doubt(main.name, `is read as ${found?.unit ?? 's'} since a start, which has to be given with the file`);
  }
  if (main !== undefined && form === 'sheet_days')
    doubt(main.name, 'is read as days of a spreadsheet, counted from 1899-12-30');
  const byClock = main !== undefined && main === clock && date === undefined;
  const ofFile =
    byClock && given.date === undefined && given.file !== undefined && dayOfFile(given.file) !== null;
  if (ofFile)
    doubt(
      clock?.name ?? '',
      `has the time of day alone; the day is that in the name of the file, ${dayOfFile(given.file ?? '')}`,
    );
  else if (byClock)
    doubt(clock?.name ?? '', 'has the time of day alone; the day has to be given with the file');
  const isUtc = placed.some(({ column }) =>
    /\b(utc|gmt|zulu)\b|_utc$|\(z\)/i.test(column.replaceAll('_', ' ')),
  );
  return {
    time: {
      date: byClock ? (ofFile ? 'file_name' : 'given') : 'column',
      form,
      order: ordered?.times.order ?? 'ymd',
      zone: isUtc && (form === 'text' || form === 'sheet_days') ? 'UTC' : null,
    },
    columns: placed,
    doubts,
  };
}
