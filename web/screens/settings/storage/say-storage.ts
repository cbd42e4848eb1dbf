import type { StorageReport, StoredMonth, UpkeepRun } from '#server/contract/storage.ts';
import { formatBytes } from '#web/format/format-bytes.ts';
import { formatDayAndYear, formatDaySpan, formatMonthAndYear } from '#web/format/format-day.ts';
import { formatWhole, noFigure, roundToEstimate } from '#web/format/format-number.ts';

type Step = UpkeepRun['steps'][number];

export const sayReadings = ({ readings, months }: StorageReport): string => {
  const about = months.some(({ estimated }) => estimated) ? 'about ' : '';
  const each = readings.bytes_per_reading;
  return each === null
    ? 'No reading is stored yet.'
    : `Readings are ${formatBytes(readings.bytes)} of it: ${about}${formatWhole(readings.rows)}, ${formatWhole(each)} bytes each with their index.`;
};

export function sayGrowth({ growth }: StorageReport): string {
  if (growth === null) return 'Too little has come to say.';
  const { month, readings_per_day, bytes_per_day } = growth;
  return `About ${formatWhole(roundToEstimate(readings_per_day))} readings and ${formatBytes(bytes_per_day)} a day, as in ${formatMonthAndYear(month)}.`;
}

export function sayDisk({ disk, growth, retention }: StorageReport): string {
  if (disk === null) return 'The database is on a server of yours: its disk is not seen from here.';
  const free = `${formatBytes(disk.free_bytes)} are free on its disk.`;
  if (growth === null) return free;
  if (disk.full_on !== null)
    return `${free} At this rate it is full about ${formatMonthAndYear(disk.full_on.slice(0, 7))}.`;
  return retention.readings_months === 0
    ? `${free} At this rate that lasts longer than ten years.`
    : `${free} At this rate it does not fill: retention takes away as much as comes.`;
}

export function sayRetention({ retention }: StorageReport): string {
  const { readings_months: months, next } = retention;
  if (months === 0) return 'Readings are kept for ever.';
  const kept = `Readings are kept for ${formatWhole(months)} ${months === 1 ? 'month' : 'months'}; the stretches made of them stay.`;
  return next === null
    ? kept
    : `${kept} ${formatMonthAndYear(next.month)} goes next, on ${formatDayAndYear(next.on)}: ${formatBytes(next.bytes)}.`;
}

export const sayReceipts = ({ retention: { receipts_months: months } }: StorageReport): string =>
  months === 0
    ? 'Receipts are kept for ever.'
    : `Receipts and settled refused lines are kept for ${formatWhole(months)} ${months === 1 ? 'month' : 'months'}.`;

const stateWords: Record<StoredMonth['state'], string> = {
  ahead: 'made ahead',
  open: 'readings arrive',
  over: 'over, not in order yet',
  settled: 'over, in order',
};
export const sayMonthState = ({ state }: StoredMonth): string => stateWords[state];

export const sayMonthSpan = ({ first_at, last_at }: StoredMonth): string =>
  first_at === null || last_at === null
    ? noFigure
    : formatDaySpan(first_at.slice(0, 10), last_at.slice(0, 10));

const runWords: Record<UpkeepRun['state'], string> = {
  running: 'running',
  done: 'done',
  failed: 'not all done',
  stopped: 'stopped with the program',
};
export const sayRunState = ({ state }: UpkeepRun): string => runWords[state];

const stepWords: Record<Step['step'], string> = {
  make_ahead: 'made ahead',
  drop_old: 'dropped, past retention',
  drop_empty: 'dropped, empty',
  forget: 'taken out',
  settle: 'put in order',
};

/** What a run did, a line a step; steps of which nothing was due say nothing. */
export function listSteps({ steps }: UpkeepRun): { text: string; isFault: boolean }[] {
  return steps.flatMap(({ step, done, fault }): { text: string; isFault: boolean }[] => {
    if (fault !== null) return [{ text: `Not ${stepWords[step]}: ${fault}`, isFault: true }];
    if (done.length === 0) return [];
    const what = step === 'forget' ? done.map(sayForgotten) : done.map(formatMonthAndYear);
    return [{ text: `${capitalise(stepWords[step])}: ${what.join(', ')}`, isFault: false }];
  });
}

export function sayRunTime({ steps }: UpkeepRun): string {
  const seconds = steps.reduce((sum, one) => sum + one.seconds, 0);
  if (seconds < 1) return 'under 1\u00a0s';
  return seconds < 120 ? `${formatWhole(seconds)}\u00a0s` : `${formatWhole(seconds / 60)}\u00a0min`;
}

const forgottenWords: Readonly<Record<string, string>> = {
  sessions: 'ended sign-ins',
  one_time_tokens: 'one-time addresses',
  sign_in_attempts: 'wrong passwords',
  webhook_posts: 'old events of webhooks',
  upkeep_runs: 'old runs of the upkeep',
  refused_lines: 'settled lines',
  receipts: 'receipts',
};

function sayForgotten(text: string): string {
  const [table = '', count = ''] = text.split(' ');
  return `${formatWhole(Number(count))} ${forgottenWords[table] ?? table}`;
}

const capitalise = (text: string): string => text.slice(0, 1).toUpperCase() + text.slice(1);
