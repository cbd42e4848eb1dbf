import type { CanSummary, Look } from '#server/contract/looks.ts';
import { formatWhole } from '#web/format/format-number.ts';

const counted = (n: number, one: string, several: string): string =>
  `${formatWhole(n)} ${n === 1 ? one : several}`;

const forms: Record<Look['format'], string> = {
  csv: 'A table as text',
  ndjson: 'JSON, one reading a line',
  json: 'JSON',
  can: 'A log of a CAN bus',
};

export function sayForm({
  format,
  gzip,
  own_form,
  whole,
  mapping,
}: Pick<Look, 'format' | 'gzip' | 'own_form' | 'whole' | 'mapping'>): string {
  if (format === 'csv' && !own_form && mapping === null) return 'Nothing that is read here.';
  const packed = gzip ? ', packed with gzip' : '';
  const own = own_form && format === 'csv' ? ' in our own form: its columns have our names' : '';
  return `${forms[format]}${own}${packed}.${whole ? '' : ' Only its beginning was looked at.'}`;
}

/** 'All 412 rows would be stored.' or '1,204 of 1,210 rows would be stored, 6 refused.' */
export function sayCounts(
  look: Pick<Look, 'lines' | 'good' | 'bad' | 'lacks' | 'whole' | 'format' | 'mapping'>,
): string {
  const { lines, good, bad, lacks } = look;
  if (lacks.length > 0)
    return `No row can be read yet: ${counted(lacks.length, 'thing is', 'things are')} still lacking.`;
  const what = look.format === 'can' ? 'windows' : look.mapping?.layout === 'long' ? 'moments' : 'rows';
  const singular = what.slice(0, -1);
  if (lines === 0) return `There is no ${singular} in it.`;
  const of = look.whole ? '' : ' looked at';
  if (bad === 0)
    return lines === 1
      ? `The one ${singular}${of} would be stored.`
      : `All ${formatWhole(lines)} ${what}${of} would be stored.`;
  return `${formatWhole(good)} of ${counted(lines, singular, what)}${of} would be stored, ${formatWhole(bad)} refused.`;
}

export function sayVehicles({
  vehicles,
  vehicles_total: total,
}: Pick<Look, 'vehicles' | 'vehicles_total'>): string {
  if (total === 0) return '';
  const unknown = vehicles.filter(({ known }) => !known);
  const names = vehicles.slice(0, 6).map(({ vehicle }) => vehicle);
  const more = total - names.length;
  const list = `${names.join(', ')}${more > 0 ? ` and ${formatWhole(more)} more` : ''}`;
  const first =
    unknown.length === 0
      ? ''
      : total === 1
        ? ' It is not known here yet and would be made.'
        : unknown.length === total
          ? ' None of them is known here yet; they would be made.'
          : ` Not known here yet and made at first contact: ${unknown
              .slice(0, 6)
              .map(({ vehicle }) => vehicle)
              .join(', ')}${unknown.length > 6 ? ` and ${formatWhole(unknown.length - 6)} more` : ''}.`;
  return `${total === 1 ? 'Vehicle' : `${formatWhole(total)} vehicles:`} ${list}.${first}`;
}

const clock = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  hour: '2-digit',
  minute: '2-digit',
  second: '2-digit',
  timeZone: 'UTC',
});
export const formatUtc = (at: string | number): string => clock.format(new Date(at));

/** The wall clock of a zone at a moment, where the browser knows the zone. */
export function formatThere(at: string, zone: string | null): string | null {
  if (zone === null || zone === '' || zone === 'UTC') return null;
  try {
    return new Intl.DateTimeFormat('en-GB', {
      day: 'numeric',
      month: 'short',
      hour: '2-digit',
      minute: '2-digit',
      second: '2-digit',
      timeZone: zone,
    }).format(new Date(at));
  } catch {
    return null;
  }
}

export function saySpan(look: Pick<Look, 'first_at' | 'last_at'>): string {
  if (look.first_at === null || look.last_at === null) return '';
  if (look.first_at === look.last_at) return `Taken ${formatUtc(look.first_at)} UTC.`;
  return `Taken from ${formatUtc(look.first_at)} to ${formatUtc(look.last_at)} UTC.`;
}

function sayLength(seconds: number): string {
  if (seconds < 90) return counted(Math.round(seconds), 'second', 'seconds');
  if (seconds < 5400) return counted(Math.round(seconds / 60), 'minute', 'minutes');
  return `${formatWhole(Math.floor(seconds / 3600))} h ${formatWhole(Math.round((seconds % 3600) / 60))} min`;
}

export function sayLogSpan({ first_s: first, last_s: last, clock: kind }: CanSummary): string {
  if (first === null || last === null) return 'No frame has a time.';
  const length = sayLength(last - first);
  if (kind === 'since_1970')
    return `From ${formatUtc(first * 1000)} to ${formatUtc(last * 1000)} UTC, ${length}.`;
  return `${length} by a clock that began at ${formatWhole(first)} s: it does not say the day.`;
}

export function sayWindows({ steady_lockup: steady, not, without }: CanSummary['windows']): string {
  const all = steady + not + without;
  if (all === 0) return 'No window could be made.';
  const parts = [
    [steady, 'with steady lockup'],
    [not, 'without it'],
    [without, 'that made no reading'],
  ].filter(([n]) => n !== 0);
  return `${counted(all, 'window', 'windows')}: ${parts.map(([n, words]) => `${formatWhole(Number(n))} ${words}`).join(', ')}.`;
}
