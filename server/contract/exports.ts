import { z } from 'zod';

const tables = ['lives', 'stretches', 'assessments'] as const;
const formats = ['csv', 'parquet'] as const;

/** Files that the interface gives: a table and how it is written. */
export const exportFiles = tables.flatMap((table) => formats.map((format) => `${table}.${format}` as const));
export type ExportFile = (typeof exportFiles)[number];

export const exportParams = z.object({ file: z.enum(exportFiles) });

export const exportQuery = z.object({
  platform: z.string().max(64).optional(),
  depot: z.string().max(64).optional(),
  since: z.iso.date().optional().meta({
    description: 'lives that ran on this day or later, stretches that ended then, vehicles that sent',
  }),
});
export type ExportQuery = z.output<typeof exportQuery>;
