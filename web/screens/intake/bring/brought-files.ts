import type { Given } from '#server/contract/mappings.ts';

/** A file in hand, with what only whoever brings it can say of it, as it was typed. */
export interface BroughtFile {
  id: number;
  file: File;
  vehicle: string;
  date: string;
  start: string;
}

/** The same for all files of one go. */
export interface GivenToAll {
  zone: string;
  windowS: string;
}

const tenths = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 1 });

export function saySize(bytes: number): string {
  const units = ['bytes', 'KiB', 'MiB', 'GiB'];
  let value = bytes;
  let unit = 0;
  while (value >= 1024 && unit < units.length - 1) {
    value /= 1024;
    unit++;
  }
  return `${tenths.format(unit === 0 ? value : Math.round(value * 10) / 10)}\u00a0${units[unit]}`;
}

const kinds: readonly (readonly [RegExp, string])[] = [
  [/\.(csv|tsv|txt)$/i, 'table as text'],
  [/\.(ndjson|jsonl)$/i, 'JSON, one object a line'],
  [/\.json$/i, 'JSON'],
  [/\.(log|can|candump)$/i, 'log'],
];

/** What a file seems to be by its name, before anything of it was read. */
export function sayKind(name: string): string {
  const isPacked = /\.gz$/i.test(name);
  const inner = name.replace(/\.gz$/i, '');
  const kind = kinds.find(([ending]) => ending.test(inner))?.[1] ?? 'form not told by its name';
  return isPacked ? `${kind}, gzip` : kind;
}

/** Why a file cannot be read at all, told before it is sent; null where it may be. */
export function objectTo(file: Pick<File, 'name' | 'size'>): string | null {
  if (file.size === 0) return `${file.name} is empty.`;
  if (/\.(xlsx?|ods|numbers)$/i.test(file.name))
    return `${file.name} is a workbook. Save the sheet as CSV and bring that.`;
  if (/\.(zip|7z|rar|tar|tgz|bz2|xz|zst)$/i.test(file.name))
    return `${file.name} is packed in a way that is not read here. Unpack it, or pack each file with gzip.`;
  return null;
}

/** In the form of the call; what is empty was not given. `start` is typed as a local moment and taken as UTC. */
export function toGiven(one: Omit<BroughtFile, 'id'>, all: GivenToAll): Given {
  const start = one.start.trim();
  const windowS = Number(all.windowS);
  return {
    file: one.file.name.slice(0, 255),
    ...(one.vehicle.trim() === '' ? {} : { vehicle: one.vehicle.trim() }),
    ...(one.date === '' ? {} : { date: one.date }),
    ...(all.zone.trim() === '' ? {} : { zone: all.zone.trim() }),
    ...(start === '' ? {} : { start: toMoment(start) }),
    ...(all.windowS.trim() === '' || !(windowS >= 1 && windowS <= 600) ? {} : { window_s: windowS }),
  };
}

const toMoment = (local: string): string => `${local.length === 16 ? `${local}:00` : local}Z`;
