import { countByTable, type Manifest } from '#server/services/backup/manifest.ts';

const number = new Intl.NumberFormat('en');

/** '412,345 readings of 240 vehicles and 31 other tables' */
export function describeContent(manifest: Manifest): string {
  const counts = new Map(countByTable(manifest).map(({ name, rows }) => [name, rows]));
  const rowsOf = (name: string) => number.format(counts.get(name) ?? 0);
  return `${rowsOf('readings')} readings of ${rowsOf('vehicles')} vehicles, ${counts.size} tables`;
}

/** 'by Slipdrift 0.1.0 on 2026-03-04 05:06:07 UTC, schema 0002_fluid-optional' */
export const describeOrigin = ({ program, taken_at, migration }: Manifest): string =>
  `by Slipdrift ${program} on ${taken_at.slice(0, 19).replace('T', ' ')} UTC, schema ${migration.name}`;

export const describeSize = (bytes: number): string =>
  bytes < 1_048_576
    ? `${number.format(Math.ceil(bytes / 1024))} KiB`
    : `${(bytes / 1_048_576).toFixed(1)} MiB`;

export const secondsSince = (startedMs: number): string =>
  `${((performance.now() - startedMs) / 1000).toFixed(1)} s`;
