import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { getScenario } from './scenarios.ts';
import { type SendProgress, type SendSettings, sendFleet } from './send.ts';

interface Call {
  path: string;
  contentType: string;
  key: string | undefined;
  authorization: string | undefined;
  text: string;
}

const end = new Date('2026-03-04T12:00:00Z');

describe('sendFleet', () => {
  let server: Server;
  let folder: string;
  let calls: Call[];
  let settings: SendSettings;
  let before: (call: Call, request: IncomingMessage, response: ServerResponse) => boolean;

  beforeEach(async () => {
    calls = [];
    before = () => false;
    folder = await mkdtemp(join(tmpdir(), 'fleet-'));
    server = createServer(async (request, response) => {
      const chunks: Buffer[] = [];
      for await (const chunk of request) chunks.push(chunk);
      const body = Buffer.concat(chunks);
      const call: Call = {
        path: request.url ?? '',
        contentType: request.headers['content-type'] ?? '',
        key: request.headers['idempotency-key']?.toString(),
        authorization: request.headers.authorization,
        text: (request.headers['content-encoding'] === 'gzip' ? gunzipSync(body) : body).toString(),
      };
      if (before(call, request, response)) return;
      calls.push(call);
      response.setHeader('content-type', 'application/json');
      response.end(JSON.stringify(answer(call)));
    });
    await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
    const { port } = server.address() as AddressInfo;
    settings = {
      baseUrl: `http://127.0.0.1:${port}`,
      apiKey: 'secret-key',
      scenario: getScenario('small', { end }),
      truthPath: join(folder, 'truth.json'),
      retryDelayMs: 5,
    };
  });

  afterEach(async () => {
    server.closeAllConnections();
    await new Promise((resolve) => server.close(resolve));
    await rm(folder, { recursive: true });
  });

  it('sets the operator up first, then sends every line in three forms, and writes the truth', async () => {
    const progress: SendProgress[] = [];
    const result = await sendFleet({ ...settings, onProgress: (step) => progress.push(step) });
    expect(calls.slice(0, 4).map((call) => call.path)).toEqual([
      '/api/platforms',
      '/api/depots',
      '/api/vehicles',
      '/api/lives',
    ]);
    const deliveries = calls.slice(4);
    expect(deliveries.every((call) => call.path === '/api/readings' && call.key !== undefined)).toBe(true);
    expect(calls.every((call) => call.authorization === 'Bearer secret-key')).toBe(true);
    expect(new Set(deliveries.map((call) => call.contentType))).toEqual(
      new Set(['application/x-ndjson', 'text/csv', 'application/json']),
    );
    expect(new Set(deliveries.map((call) => call.key)).size).toBe(deliveries.length);
    expect(result.confirmed.lines).toBe(result.truth.counts.lines);
    expect(result.deliveries).toBe(deliveries.length);
    expect(JSON.parse(await readFile(join(folder, 'truth.json'), 'utf8'))).toEqual(result.truth);
    expect(progress.at(-1)).toMatchObject({ phase: 'done', done: 1, confirmed: result.confirmed });
  });

  it('tries again after 503 and after a broken connection, with the same key', async () => {
    const tried: string[] = [];
    before = (call, request, response) => {
      if (call.key === undefined) return false;
      tried.push(call.key);
      const attempt = tried.filter((key) => key === call.key).length;
      if (attempt === 1) {
        response.writeHead(503, { 'retry-after': '0' }).end();
        return true;
      }
      if (attempt === 2) {
        request.socket.destroy();
        return true;
      }
      return false;
    };
    const result = await sendFleet(settings);
    expect(result.confirmed.lines).toBe(result.truth.counts.lines);
    expect(tried).toHaveLength(3 * result.deliveries);
  });

  it('stops with what the intake said when a delivery is turned away', async () => {
    before = (call, _, response) => {
      if (call.key === undefined) return false;
      response.writeHead(401).end('{"detail":"the key is not known"}');
      return true;
    };
    await expect(sendFleet(settings)).rejects.toThrow(
      'POST /api/readings: 401 {"detail":"the key is not known"}',
    );
  });

  it('never has more deliveries under way than connections', async () => {
    let open = 0;
    let most = 0;
    before = (call, _, response) => {
      if (call.key === undefined) return false;
      open++;
      most = Math.max(most, open);
      calls.push(call);
      setTimeout(() => {
        open--;
        response.end(JSON.stringify(answer(call)));
      }, 5);
      return true;
    };
    await sendFleet({ ...settings, deliveryLines: 500, concurrency: 2 });
    expect(most).toBe(2);
  });
});

function answer(call: Call): object {
  if (call.path !== '/api/readings') return { created: 1, changed: 0, unchanged: 0 };
  const received =
    call.contentType === 'application/json'
      ? JSON.parse(call.text).readings.length
      : call.text.trimEnd().split('\n').length - (call.contentType === 'text/csv' ? 1 : 0);
  return {
    receipt: 'r',
    received,
    stored: received,
    duplicate: 0,
    conflicting: 0,
    refused: 0,
    refusals: [],
    unknown_fields: [],
  };
}
