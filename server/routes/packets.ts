import type { Context } from 'hono';
import { z } from 'zod';
import {
  newPacketLink,
  packet,
  packetFile,
  packetLink,
  packetLinkRequest,
  packetList,
  packetQuery,
  packetRequest,
} from '#server/contract/packets.ts';
import { units } from '#server/contract/ranking.ts';
import { plainText } from '#server/contract/readings.ts';
import { closed, closeRequest, coreRequest, reportRequest } from '#server/contract/repair.ts';
import { findingInput, recorded, roadTrace } from '#server/contract/test-steps.ts';
import { vehicleSeries } from '#server/contract/vehicle.ts';
import { SlipdriftError } from '#server/errors.ts';
import { closePacket } from '#server/services/packets/close-packet.ts';
import { findPacket } from '#server/services/packets/find-packet.ts';
import { gatherPrint } from '#server/services/packets/gather-print.ts';
import { getPacket } from '#server/services/packets/get-packet.ts';
import { getPacketSeries } from '#server/services/packets/get-packet-series.ts';
import { listLinks, makeLink, revokeLink } from '#server/services/packets/links.ts';
import { listPackets } from '#server/services/packets/list-packets.ts';
import { openPacket } from '#server/services/packets/open-packet.ts';
import { addPhoto, PHOTO_BYTES, readFile } from '#server/services/packets/photos.ts';
import { TRACE_LIMIT_BYTES } from '#server/services/packets/read-trace.ts';
import { recordFinding } from '#server/services/packets/record-finding.ts';
import { getTrace, recordRoadTest } from '#server/services/packets/record-road-test.ts';
import { noteCore, saveReport } from '#server/services/packets/save-report.ts';
import type { RouteDeps } from './deps.ts';
import { newCall } from './new-call.ts';
import { asJson, newRoutes, problems } from './new-routes.ts';
import { withBytes } from './read-bytes.ts';
import { takeTurns } from './take-turns.ts';

const id = z.coerce.number().int().min(1).max(Number.MAX_SAFE_INTEGER);
const params = z.object({ id });
const told = { units: units.default('metric') };
const query = z.object(told);
const fileName = plainText.trim().min(1).max(200);

const open = newCall('report', {
  method: 'post',
  path: '/api/packets',
  summary: 'Open the packet of a vehicle, or have the one that is open',
  request: { query, body: { required: true, ...asJson(packetRequest) } },
  responses: {
    200: { description: 'The packet', ...asJson(packet) },
    ...problems(400, 404, 409),
  },
});
const list = newCall('readPacket', {
  method: 'get',
  path: '/api/packets',
  summary: 'List packets: open jobs first, then closed ones, the newest first',
  request: { query: packetQuery.extend(told) },
  responses: { 200: { description: 'Packets', ...asJson(packetList) }, ...problems(400) },
});
const byLink = newCall('ownLink', {
  method: 'get',
  path: '/api/packet-by-link',
  summary: 'The packet that a link opens',
  description: 'Send the part of the link behind # as Authorization: Bearer <it>.',
  request: { query },
  responses: { 200: { description: 'The packet', ...asJson(packet) } },
});
const find = newCall('readPacket', {
  method: 'get',
  path: '/api/packets/{id}',
  summary:
    'One packet: why the vehicle was flagged, what happened before, the test steps, findings and report',
  request: { params, query },
  responses: { 200: { description: 'The packet', ...asJson(packet) }, ...problems(400, 404) },
});
const series = newCall('readPacket', {
  method: 'get',
  path: '/api/packets/{id}/series',
  summary: 'The stretches of its vehicle, with fit and forecast',
  request: { params },
  responses: { 200: { description: 'Series', ...asJson(vehicleSeries) }, ...problems(400, 404) },
});
const pdf = newCall('readPacket', {
  method: 'get',
  path: '/api/packets/{id}/packet.pdf',
  summary: 'The packet as PDF, to be printed or kept',
  request: { params, query: z.object({ ...told, size: z.enum(['a4', 'letter']).default('a4') }) },
  responses: {
    200: {
      description: 'PDF with the charts as vectors',
      content: { 'application/pdf': { schema: z.string().meta({ format: 'binary' }) } },
    },
    ...problems(400, 404),
  },
});
const record = newCall('report', {
  method: 'post',
  path: '/api/packets/{id}/findings',
  summary: 'Record what a test step showed',
  description:
    'Input that may be a slip of the pen is asked about instead of being stored; send it again with as_measured to let it stand.',
  request: { params, body: { required: true, ...asJson(findingInput) } },
  responses: {
    200: { description: 'The finding, or questions', ...asJson(recorded) },
    ...problems(400, 404, 409),
  },
});
const roadTest = newCall('report', {
  method: 'post',
  path: '/api/packets/{id}/road-test',
  summary: 'Record a road test from a trace: CSV with time, throttle, speed, slip and duty',
  description:
    'Units stand in the column names, such as time_s, speed_kmh or slip_rpm. Up to 64 MiB, also as gzip (Content-Encoding).',
  request: {
    params,
    query: z.object({
      name: fileName.default('road-test.csv'),
      as_measured: z.stringbool().default(false),
    }),
    body: { required: true, content: { 'text/csv': { schema: z.string() } } },
  },
  responses: {
    200: { description: 'The finding, or questions', ...asJson(recorded) },
    ...problems(400, 404, 408, 409, 413, 415, 503),
  },
});
const trace = newCall('readPacket', {
  method: 'get',
  path: '/api/packets/{id}/findings/{finding}/trace',
  summary: 'The recorded road test behind a finding, thinned for drawing',
  request: { params: params.extend({ finding: id }) },
  responses: { 200: { description: 'The trace', ...asJson(roadTrace) }, ...problems(400, 404) },
});
const photo = newCall('report', {
  method: 'post',
  path: '/api/packets/{id}/photos',
  summary: 'Keep a photograph: JPEG, PNG or WebP, up to 12 MiB',
  request: {
    params,
    query: z.object({ name: fileName.default('photo') }),
    body: { required: true, content: { 'image/*': { schema: z.string().meta({ format: 'binary' }) } } },
  },
  responses: {
    200: { description: 'Kept', ...asJson(packetFile) },
    ...problems(400, 404, 408, 409, 413, 415, 503),
  },
});
const file = newCall('readPacket', {
  method: 'get',
  path: '/api/packets/{id}/files/{file}',
  summary: 'A photograph or recorded trace as it came',
  request: { params: params.extend({ file: id }) },
  responses: {
    200: { description: 'The file', content: { '*/*': { schema: z.string().meta({ format: 'binary' }) } } },
    ...problems(400, 404),
  },
});
const report = newCall('report', {
  method: 'put',
  path: '/api/packets/{id}/report',
  summary: 'Keep parts, cooler and teardown as far as they are known',
  request: { params, query, body: { required: true, ...asJson(reportRequest) } },
  responses: { 200: { description: 'The packet', ...asJson(packet) }, ...problems(400, 404, 409) },
});
const close = newCall('report', {
  method: 'post',
  path: '/api/packets/{id}/close',
  summary: 'Close the job: where a converter was replaced its life ends and the next begins',
  request: { params, body: { required: true, ...asJson(closeRequest) } },
  responses: {
    200: { description: 'How it was closed, or questions', ...asJson(closed) },
    ...problems(400, 404, 409),
  },
});
const core = newCall('report', {
  method: 'put',
  path: '/api/packets/{id}/core',
  summary: 'Say what became of an old unit, also after closing',
  request: { params, query, body: { required: true, ...asJson(coreRequest) } },
  responses: { 200: { description: 'The packet', ...asJson(packet) }, ...problems(400, 404) },
});
const links = newCall('share', {
  method: 'get',
  path: '/api/packets/{id}/links',
  summary: 'The links of a packet, and who opened them',
  request: { params },
  responses: {
    200: { description: 'Links, newest first', ...asJson(z.array(packetLink)) },
    ...problems(400, 404),
  },
});
const share = newCall('share', {
  method: 'post',
  path: '/api/packets/{id}/links',
  summary: 'Make a link that opens this packet without an account, and ends by itself',
  request: { params, body: { required: true, ...asJson(packetLinkRequest) } },
  responses: {
    200: { description: 'The address, this once', ...asJson(newPacketLink) },
    ...problems(400, 404),
  },
});
const revoke = newCall('share', {
  method: 'delete',
  path: '/api/packets/{id}/links/{link}',
  summary: 'End a link at once',
  request: { params: params.extend({ link: id }) },
  responses: { 204: { description: 'It opens nothing any more' }, ...problems(400, 404) },
});

const printUnits = {
  metric: { distance: 'km', temperature: 'C' },
  imperial: { distance: 'mi', temperature: 'F' },
} as const;

export function createPacketRoutes({ people: { publicUrl }, assessment, printer, bodyIdleMs }: RouteDeps) {
  const routes = newRoutes();
  // A packet is printed with all its photographs: those of one at a time are in memory.
  const inPrintTurn = takeTurns();
  const origin = (c: Context) => publicUrl ?? new URL(c.req.url).origin;
  routes.openapi(open, async (c) => {
    const { context } = c.var;
    const opened = await openPacket(context, c.req.valid('json'));
    return c.json(await getPacket(context, opened, c.req.valid('query').units), 200);
  });
  routes.openapi(list, async (c) => {
    const { units: own, ...asked } = c.req.valid('query');
    return c.json(await listPackets(c.var.context, asked, own), 200);
  });
  routes.openapi(byLink, async (c) => {
    const { link } = c.var.context.actor;
    if (link === null) throw new SlipdriftError('not_allowed', 'This call is for whoever holds a link.');
    return c.json(await getPacket(c.var.context, link.packet, c.req.valid('query').units), 200);
  });
  routes.openapi(find, async (c) =>
    c.json(await getPacket(c.var.context, c.req.valid('param').id, c.req.valid('query').units), 200),
  );
  routes.openapi(series, async (c) =>
    c.json(await getPacketSeries(c.var.context, c.req.valid('param').id), 200),
  );
  routes.openapi(pdf, async (c) => {
    const { units: own, size } = c.req.valid('query');
    const { context } = c.var;
    const { id: asked } = c.req.valid('param');
    await findPacket(context, asked);
    const { bytes, vehicle } = await inPrintTurn(async () => {
      const gathered = await gatherPrint(context, asked, own);
      const printed = await printer.print({ ...gathered, size, units: printUnits[own] });
      return { bytes: printed, vehicle: gathered.packet.vehicle };
    });
    const name = `packet-${vehicle}.pdf`;
    c.header('Content-Disposition', `inline; filename*=UTF-8''${encodeURIComponent(name)}`);
    return c.body(new Uint8Array(bytes), 200, { 'Content-Type': 'application/pdf' });
  });
  routes.openapi(record, async (c) =>
    c.json(await recordFinding(c.var.context, c.req.valid('param').id, c.req.valid('json')), 200),
  );
  routes.openapi(roadTest, async (c) => {
    const { name, as_measured: asMeasured } = c.req.valid('query');
    const wanted = { maxBytes: TRACE_LIMIT_BYTES, idleMs: bodyIdleMs, types: /^text\/(csv|plain)\b/i };
    return c.json(
      await withBytes(c, wanted, (bytes) =>
        recordRoadTest(c.var.context, c.req.valid('param').id, { name, bytes, asMeasured }),
      ),
      200,
    );
  });
  routes.openapi(trace, async (c) => {
    const { id: own, finding } = c.req.valid('param');
    return c.json(await getTrace(c.var.context, own, finding), 200);
  });
  routes.openapi(photo, async (c) => {
    const wanted = { maxBytes: PHOTO_BYTES, idleMs: bodyIdleMs, types: /^image\//i };
    return c.json(
      await withBytes(c, wanted, (bytes) =>
        addPhoto(c.var.context, c.req.valid('param').id, c.req.valid('query').name, bytes),
      ),
      200,
    );
  });
  routes.openapi(file, async (c) => {
    const { id: own, file: which } = c.req.valid('param');
    const { name, type, bytes } = await readFile(c.var.context, own, which);
    // Whatever it holds, no browser runs it: its type is ours, and browsers are told not to guess another (nosniff).
    c.header('Content-Disposition', `inline; filename*=UTF-8''${encodeURIComponent(name)}`);
    return c.body(new Uint8Array(bytes), 200, { 'Content-Type': type });
  });
  routes.openapi(report, async (c) => {
    const { id: own } = c.req.valid('param');
    await saveReport(c.var.context, own, c.req.valid('json'));
    return c.json(await getPacket(c.var.context, own, c.req.valid('query').units), 200);
  });
  routes.openapi(close, async (c) => {
    const answer = await closePacket(c.var.context, c.req.valid('param').id, c.req.valid('json'));
    assessment.nudge();
    return c.json(answer, 200);
  });
  routes.openapi(core, async (c) => {
    const { id: own } = c.req.valid('param');
    await noteCore(c.var.context, own, c.req.valid('json'));
    return c.json(await getPacket(c.var.context, own, c.req.valid('query').units), 200);
  });
  routes.openapi(links, async (c) => c.json(await listLinks(c.var.context, c.req.valid('param').id), 200));
  routes.openapi(share, async (c) =>
    c.json(await makeLink(c.var.context, c.req.valid('param').id, c.req.valid('json'), origin(c)), 200),
  );
  routes.openapi(revoke, async (c) => {
    const { id: own, link } = c.req.valid('param');
    await revokeLink(c.var.context, own, link);
    return c.body(null, 204);
  });
  return routes;
}
