import { Readable } from 'node:stream';
import { rawClient } from '#db/client.ts';
import type { ExportFile, ExportQuery } from '#server/contract/exports.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';
import { sightOf } from '#server/services/sight.ts';
import { exportFormats, exportTable, findExport, requireKnownPlaces } from './export-table.ts';

/** Each has a connection for as long as somebody reads it. */
const AT_ONCE = 2;
const STALL_MS = 60_000;

export interface ExportDesk {
  /** the bytes of a file: what the asker may see of the table */
  open(ctx: Context, file: ExportFile, query: ExportQuery): Promise<Readable>;
}

/** Gives tables as files to those who read on; who stops reading is given up, and leaves the place to others. */
export function createExportDesk(stallMs = STALL_MS): ExportDesk {
  let open = 0;
  return {
    async open(ctx, file, { platform, depot, since }) {
      if (open >= AT_ONCE)
        throw new SlipdriftError(
          'busy',
          `${AT_ONCE} tables are being written already. Ask again when one is done.`,
          { retryAfterS: 20 },
        );
      open += 1;
      try {
        const filter = {
          platforms: platform === undefined ? [] : [platform],
          depots: depot === undefined ? [] : [depot],
          seenDepots: sightOf(ctx.actor).depots,
          since: since === undefined ? null : new Date(`${since}T00:00:00Z`),
        };
        const [name = '', ending] = file.split('.');
        const view = findExport(name, filter);
        const client = rawClient(ctx.db);
        await requireKnownPlaces(client, filter);
        const format = exportFormats.find((one) => one === ending) ?? 'csv';
        const stream = endStalled(exportTable(client, view, filter, { format, now: ctx.now() }), stallMs);
        stream.once('close', () => {
          open -= 1;
        });
        return stream;
      } catch (error) {
        open -= 1;
        throw error;
      }
    },
  };
}

/** A stream that is given up where nobody asks for its next piece. */
function endStalled(pieces: AsyncGenerator<Buffer>, stallMs: number): Readable {
  let waiting: NodeJS.Timeout | undefined;
  async function* watch() {
    for await (const piece of pieces) {
      waiting = setTimeout(() => stream.destroy(new Error('nobody read on')), stallMs);
      yield piece;
      clearTimeout(waiting);
    }
  }
  const stream = Readable.from(watch());
  stream.once('close', () => clearTimeout(waiting));
  // Whoever reads finds the file cut off; nobody else needs to know.
  stream.on('error', () => {});
  return stream;
}
