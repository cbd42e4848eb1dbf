import { z } from 'zod';
import type { SetUpColumn } from '#server/contract/set-up-files/set-up-column.ts';
import { setUpFileReply } from '#server/contract/set-up-files/set-up-file-reply.ts';
import { type SetUpFile, setUpFiles } from '#server/contract/set-up-files/set-up-files.ts';
import { listOnRecord } from '#server/services/bulk-set-up/list-on-record.ts';
import { setUpFromFile } from '#server/services/bulk-set-up/set-up-from-file.ts';
import { writeTemplate } from '#server/services/bulk-set-up/write-template.ts';
import { answerCsv, csvAnswer } from './answer-csv.ts';
import type { RouteDeps } from './deps.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes, problems } from './new-routes.ts';
import { withBytes } from './read-bytes.ts';
import { dryRunQuery, readDryRun } from './read-dry-run.ts';

/** As long as JSON for the same may be. */
const MOST_BYTES = 16 * 1024 * 1024;

const sayColumn = ({ name, also, unit, needed }: SetUpColumn): string =>
  `${name}${also === undefined ? '' : ` or ${also.name}`} (${unit}${needed ? ', needed' : ''})`;

const postFile = ({ kind, columns, access, lead }: SetUpFile) =>
  newCall(access, {
    method: 'post',
    path: `/api/set-up/${kind}`,
    summary: `Set up ${kind} from a CSV file`,
    description: `${lead} All or nothing; faults name the line of the file. An empty cell leaves what is there, - takes it away. Columns, in any order: ${columns.map(sayColumn).join('; ')}. The body may be gzip, at most 16 MiB.`,
    request: {
      query: dryRunQuery,
      body: {
        required: true,
        content: {
          'text/csv': {
            schema: z.string().meta({ description: 'UTF-8; commas, semicolons or tabs; a header line' }),
          },
        },
      },
    },
    responses: {
      200: { description: 'What it came to, or would come to', ...asJson(setUpFileReply) },
      ...problems(400, 408, 409, 413, 415, 503),
    },
  });

const getFile = (access: 'readFleet' | 'readNames', path: string, summary: string) =>
  newCall(access, { method: 'get', path, summary, responses: { 200: csvAnswer } });

/** A set of calls a kind: who may set one up may not always set up the other. */
export function createSetUpFileRoutes({ assessment, bodyIdleMs }: RouteDeps) {
  const routes = newRoutes();
  for (const file of setUpFiles) {
    const { kind } = file;
    const post = postFile(file);
    routes.openAPIRegistry.registerPath(post);
    routes.post(post.path, async (c) => {
      const dryRun = readDryRun(c.req.query('dry_run'));
      const wanted = { maxBytes: MOST_BYTES, idleMs: bodyIdleMs, types: /^text\/csv\b/i };
      const reply = await withBytes(c, wanted, (bytes) => setUpFromFile(c.var.context, kind, bytes, dryRun));
      if (!dryRun && reply.created + reply.changed > 0) assessment.nudge();
      return c.json(reply, 200);
    });
    routes.openapi(
      getFile('readFleet', `/api/set-up/${kind}`, `The ${kind} on record as a set-up file`),
      async (c) => answerCsv(c, kind, await listOnRecord(c.var.context, kind)),
    );
    routes.openapi(
      getFile('readNames', `/api/set-up/${kind}/template`, `A set-up file for ${kind} to begin with`),
      (c) => answerCsv(c, `${kind}-template`, writeTemplate(file)),
    );
  }
  return routes;
}
