import type { RawClient } from '#db/client.ts';
import type { NotebookView } from '#db/notebook/view.ts';
import { notebookViews } from '#db/notebook/views.ts';
import { findUnknownPlace } from '#db/queries/find-unknown-place.ts';
import { type NotebookRow, type RowFilter, readNotebookRows } from '#db/queries/read-notebook-rows.ts';
import { SlipdriftError } from '#server/errors.ts';
import { readProgramVersion } from '#server/services/backup/program-version.ts';
import { writeCsvRows } from './write-csv-rows.ts';
import { writeParquetRows } from './write-parquet-rows.ts';

export const exportFormats = ['csv', 'parquet'] as const;
export type ExportFormat = (typeof exportFormats)[number];

/** A table as it can be written, with what may narrow it; declines what it does not have. */
export function findExport(name: string, filter: RowFilter): NotebookView {
  const view = notebookViews.find((one) => one.name === name);
  if (view === undefined)
    throw new SlipdriftError(
      'invalid_request',
      `There is no table ${name}. These can be exported: ${notebookViews.map((one) => one.name).join(', ')}.`,
    );
  const lacks = (what: string) =>
    new SlipdriftError(
      'invalid_request',
      `${name} cannot be narrowed by ${what}: it has no such column. Nothing was written.`,
    );
  if (filter.platforms.length > 0 && view.narrow.platform === undefined) throw lacks('platform');
  if ((filter.depots.length > 0 || filter.seenDepots !== null) && view.narrow.depot === undefined)
    throw lacks('depot');
  if (filter.since !== null && view.narrow.since === undefined) throw lacks('since');
  return view;
}

/** A name that nobody knows would only give an empty file. */
export async function requireKnownPlaces(client: RawClient, { platforms, depots }: RowFilter): Promise<void> {
  for (const [kind, asked] of [
    ['platform', platforms],
    ['depot', depots],
  ] as const) {
    const found = await findUnknownPlace(client, kind, asked);
    if (found === null) continue;
    throw new SlipdriftError(
      'invalid_request',
      `There is no ${kind} ${found.unknown}. Nothing was written; these are known: ${found.known.join(', ') || 'none'}.`,
    );
  }
}

/** A table as the bytes of a file, in pieces: memory does not grow with its rows. */
export function exportTable(
  client: RawClient,
  view: NotebookView,
  filter: RowFilter,
  { format, now, onRows = () => {} }: { format: ExportFormat; now: Date; onRows?: (rows: number) => void },
): AsyncGenerator<Buffer> {
  const rows = tell(readNotebookRows(client, view, filter), onRows);
  return format === 'csv'
    ? writeCsvRows(view, rows)
    : writeParquetRows(view, rows, { program: readProgramVersion(), writtenAt: now });
}

async function* tell(
  rows: AsyncIterable<NotebookRow[]>,
  onRows: (rows: number) => void,
): AsyncGenerator<NotebookRow[]> {
  for await (const some of rows) {
    yield some;
    onRows(some.length);
  }
}
