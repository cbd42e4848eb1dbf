import { type PlainTable, plainFigure } from '#web/format/write-csv.ts';

/** The figures of a chart as a table: for screen readers, for copying, for checking. */
export type NumbersTable = PlainTable;

/** Tab-separated lines, as a spreadsheet takes them. Thousands separators and true minus signs would hinder it. */
export const writeTabbed = (tables: readonly NumbersTable[]): string =>
  tables
    .map(({ caption, columns, rows }) =>
      [
        caption,
        columns.map((column) => column.title).join('\t'),
        ...rows.map((row) =>
          row.map((cell, i) => (columns[i]?.kind === 'figure' ? plainFigure(cell) : cell)).join('\t'),
        ),
      ].join('\n'),
    )
    .join('\n\n');
