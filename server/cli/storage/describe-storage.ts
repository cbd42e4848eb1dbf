import { alignColumns } from '#server/cli/access/align-columns.ts';
import type { StorageReport } from '#server/contract/storage.ts';

/** A storage report as lines for a terminal. */
export function describeStorage(report: StorageReport): string {
  const { months, tables, upkeep } = report;
  return [
    ...describeWhole(report),
    '',
    alignColumns([
      ['MONTH', 'STATE', 'READINGS', 'SIZE', 'INDEX', 'FIRST', 'LAST', 'DROPPED ON'],
      ...months.map((one) => [
        one.month,
        one.alone ? `${one.state}, alone` : one.state,
        `${one.estimated ? 'about ' : ''}${count(one.rows)}`,
        size(one.heap_bytes),
        size(one.index_bytes),
        day(one.first_at),
        day(one.last_at),
        one.drops_on ?? 'kept',
      ]),
    ]),
    '',
    alignColumns([
      ['TABLE', 'ROWS', 'SIZE', 'INDEX', 'ENDS'],
      ...tables.map((one) => [
        one.name,
        `about ${count(one.rows)}`,
        size(one.heap_bytes),
        size(one.index_bytes),
        one.ends,
      ]),
    ]),
    '',
    alignColumns([
      ['UPKEEP', 'STATE', 'SECONDS', 'DONE'],
      ...upkeep.runs
        .slice(0, 5)
        .map(({ started_at, state, steps }) => [
          started_at.slice(0, 16).replace('T', ' '),
          state,
          steps.reduce((sum, { seconds }) => sum + seconds, 0).toFixed(1),
          steps
            .flatMap(({ step, done, fault }) =>
              fault === null
                ? done.length === 0
                  ? []
                  : [`${step}: ${done.join(' ')}`]
                : [`${step}: ${fault}`],
            )
            .join('; ') || 'nothing was due',
        ]),
    ]),
  ].join('\n');
}

function describeWhole({
  database_bytes,
  readings,
  growth,
  disk,
  retention,
  ...rest
}: StorageReport): string[] {
  const { next, readings_months: kept } = retention;
  return [
    `Database ${size(database_bytes)}; readings ${size(readings.bytes)}, about ${count(readings.rows)}${
      readings.bytes_per_reading === null
        ? ''
        : `, ${readings.bytes_per_reading.toFixed(0)} bytes each with index`
    }.`,
    growth === null
      ? 'Too little has come to say how it grows.'
      : `Grows by about ${size(growth.bytes_per_day)} a day, as in ${growth.month}.`,
    ...(disk === null
      ? []
      : [
          `Free on its disk: ${size(disk.free_bytes)}${disk.full_on === null ? '' : `, full about ${disk.full_on} at this rate`}.`,
        ]),
    kept === 0 ? 'Readings are kept for ever.' : `Readings are kept for ${kept} months.`,
    ...(next === null ? [] : [`Next ${next.month} is dropped, on ${next.on}: ${size(next.bytes)}.`]),
    `Vehicles that wait for an assessment: ${count(rest.waiting_vehicles)}.`,
  ];
}

const day = (at: string | null): string => at?.slice(0, 10) ?? '';
const count = (value: number): string => Math.round(value).toLocaleString('en-GB');

const units = ['B', 'KiB', 'MiB', 'GiB', 'TiB'];
function size(bytes: number): string {
  const power = bytes < 1024 ? 0 : Math.min(units.length - 1, Math.floor(Math.log2(bytes) / 10));
  const value = bytes / 1024 ** power;
  return `${value >= 10 || power === 0 ? value.toFixed(0) : value.toFixed(1)} ${units[power]}`;
}
