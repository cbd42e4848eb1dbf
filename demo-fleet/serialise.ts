import { promisify } from 'node:util';
import { gzip } from 'node:zlib';
import type { Line, WireForm } from './arrivals.ts';

const compress = promisify(gzip);

export interface Delivery {
  contentType: string;
  gzipped: boolean;
  body: Uint8Array<ArrayBuffer>;
  lines: number;
}

const csvColumns = [
  'vehicle',
  'at',
  'odometer_km',
  'slip_rpm',
  'duty_pct',
  'fluid_c',
  'speed_kmh',
  'seconds',
] as const;

/** The body of one delivery, as each kind of gateway writes it. Only NDJSON is compressed. */
export async function serialise(form: WireForm, lines: readonly Line[]): Promise<Delivery> {
  const text = writers[form](lines);
  const gzipped = form === 'ndjson';
  const body = gzipped ? await compress(text, { level: 1 }) : Buffer.from(text);
  return { contentType: contentTypes[form], gzipped, body: new Uint8Array(body), lines: lines.length };
}

const contentTypes: Record<WireForm, string> = {
  ndjson: 'application/x-ndjson',
  csv: 'text/csv',
  json: 'application/json',
};

const writers: Record<WireForm, (lines: readonly Line[]) => string> = {
  ndjson: (lines) => {
    let text = '';
    for (const { raw, reading } of lines) text += `${raw ?? JSON.stringify(reading)}\n`;
    return text;
  },
  csv: (lines) => {
    let text = `${csvColumns.join(',')}\r\n`;
    for (const { reading } of lines)
      text += `${csvColumns.map((column) => String(reading[column] ?? '')).join(',')}\r\n`;
    return text;
  },
  json: (lines) => JSON.stringify({ readings: lines.map(({ reading }) => reading) }),
};
