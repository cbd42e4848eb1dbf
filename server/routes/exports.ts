import { Readable } from 'node:stream';
import { z } from 'zod';
import { exportParams, exportQuery } from '#server/contract/exports.ts';
import { createExportDesk } from '#server/services/export/export-desk.ts';
import { newCall } from './new-call.ts';
import { newRoutes, problems } from './new-routes.ts';

const getExport = newCall('readFleet', {
  method: 'get',
  path: '/api/export/{file}',
  summary: 'A table of the fleet as a file',
  description:
    'Written as it is read, of any size. CSV as RFC 4180 with a header line; a Parquet file says what each column is. Two at once are answered.',
  request: { params: exportParams, query: exportQuery },
  responses: {
    200: {
      description: 'The file; one that breaks off is not whole',
      content: {
        'text/csv': { schema: z.string() },
        'application/vnd.apache.parquet': { schema: z.string() },
      },
    },
    ...problems(400, 503),
  },
});

const TYPES = { csv: 'text/csv; charset=utf-8', parquet: 'application/vnd.apache.parquet' };

export function createExportRoutes() {
  const desk = createExportDesk();
  return newRoutes().openapi(getExport, async (c) => {
    const { file } = c.req.valid('param');
    const [table, ending] = file.split('.');
    const day = c.var.context.now().toISOString().slice(0, 10);
    c.header('Content-Disposition', `attachment; filename="slipdrift-${table}-${day}.${ending}"`);
    c.header('Content-Type', ending === 'csv' ? TYPES.csv : TYPES.parquet);
    c.header('Cache-Control', 'no-store');
    if (c.req.method === 'HEAD') return c.body(null, 200);
    const stream = await desk.open(c.var.context, file, c.req.valid('query'));
    return c.body(Readable.toWeb(stream) as ReadableStream<Uint8Array>, 200);
  });
}
