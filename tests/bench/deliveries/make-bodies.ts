import { gzipSync } from 'node:zlib';
import { listByTime, type MadeRow, type MadeRows } from './made-rows.ts';

export type Form = 'NDJSON' | 'NDJSON gzip' | 'CSV';
export type Cut = '20,000 rows a body' | 'one body a connection';
export type Body = Buffer<ArrayBuffer>;

/** Fewer where there are few rows, so that both connections have some. */
const linesOf = (rows: number) => Math.min(20_000, Math.ceil(rows / 4));

/** Bodies for each of two connections, ready to be sent: both with all vehicles in turn, or each with its own half. */
export function makeBodies(made: MadeRows, form: Form, cut: Cut): Body[][] {
  if (cut === 'one body a connection') {
    const half = Math.ceil(made.vehicles / 2);
    return [
      [write([...listByTime(made, 0, half)], form)],
      [write([...listByTime(made, half, made.vehicles)], form)],
    ];
  }
  const queues: Body[][] = [[], []];
  const rows = [...listByTime(made)];
  const lines = linesOf(rows.length);
  for (let from = 0; from < rows.length; from += lines)
    queues[(from / lines) % 2]?.push(write(rows.slice(from, from + lines), form));
  return queues;
}

function write(rows: MadeRow[], form: Form): Body {
  if (form === 'CSV') {
    const names = Object.keys(rows[0] ?? {}).join(',');
    return Buffer.from(`${names}\n${rows.map((row) => Object.values(row).join(',')).join('\n')}`);
  }
  const text = Buffer.from(rows.map((row) => JSON.stringify(row)).join('\n'));
  return form === 'NDJSON' ? text : Buffer.from(gzipSync(text));
}
