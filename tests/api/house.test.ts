import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { TEST_KEY } from '#tests/helpers/test-key.ts';

let app: TestApp;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.stop());

describe('what every call has in common', () => {
  it('answers a problem document with the request id for a path that is none', async () => {
    const response = await app.get('/api/nothing', { 'x-request-id': 'mine-1' });
    expect(response.status).toBe(404);
    expect(response.headers.get('content-type')).toBe('application/problem+json');
    expect(await response.json()).toMatchObject({
      code: 'not_found',
      status: 404,
      request: 'mine-1',
      errors: [],
    });
  });

  it('names the methods that a path takes', async () => {
    const response = await app.post('/api/openapi.json', {});
    expect(response.status).toBe(405);
    expect(response.headers.get('allow')).toBe('GET');
    expect(await response.json()).toMatchObject({ code: 'method_not_allowed' });
  });

  it('serves no browser under a foreign host name, and a key under any', async () => {
    const { request } = await import('node:http');
    const ask = (headers: Record<string, string>) =>
      new Promise((settle) => {
        request(
          `${app.url}/api/session`,
          { headers: { host: 'elsewhere.example', ...headers } },
          (answer) => {
            answer.resume();
            settle(answer.statusCode);
          },
        ).end();
      });
    expect(await ask({})).toBe(403);
    expect(await ask({ authorization: `Bearer ${TEST_KEY}` })).toBe(200);
  });
});

describe('health and metrics', () => {
  it('is live and ready', async () => {
    expect((await app.get('/health/live')).status).toBe(200);
    expect(await (await app.get('/health/ready')).json()).toEqual({ status: 'ok' });
  });

  it('shows requests by route, connections and the process in the Prometheus format', async () => {
    const response = await app.get('/metrics');
    expect(response.headers.get('content-type')).toMatch(/^text\/plain; version=0\.0\.4/);
    const text = await response.text();
    expect(text).toMatch(
      /slipdrift_http_request_seconds_count\{method="GET",route="\/health\/live",status="200"\} 1/,
    );
    expect(text).toMatch(/slipdrift_database_connections\{state="active"\} \d/);
    expect(text).toMatch(/process_resident_memory_bytes \d/);
    expect(text).not.toContain('route="/api/nothing"');
  });
});

describe('the key', () => {
  it('is asked for on every call but health, the session and the description of the interface', async () => {
    const closed = await startApp({ apiKey: 'a-key-for-tests' });
    try {
      const without = await fetch(`${closed.url}/api/depots`);
      expect(without.status).toBe(401);
      expect(without.headers.get('www-authenticate')).toBe('Bearer');
      expect(await without.json()).toMatchObject({ code: 'unauthorized' });
      expect((await closed.get('/api/depots', { authorization: 'Bearer wrong' })).status).toBe(401);
      const right = await closed.get('/api/depots', { authorization: 'Bearer a-key-for-tests' });
      expect(right.status).toBe(200);
      expect((await fetch(`${closed.url}/api`)).status).toBe(200);
      expect((await fetch(`${closed.url}/api/openapi.json`)).status).toBe(200);
      expect((await fetch(`${closed.url}/api/session`)).status).toBe(200);
      expect((await fetch(`${closed.url}/health/ready`)).status).toBe(200);
      expect((await fetch(`${closed.url}/metrics`)).status).toBe(200);
    } finally {
      await closed.stop();
    }
  });
});

describe('the description of the interface', () => {
  it('is an OpenAPI 3.1 document whose every reference leads somewhere', async () => {
    const document = (await (await app.get('/api/openapi.json')).json()) as {
      openapi: string;
      paths: Record<string, unknown>;
      components: { schemas: Record<string, unknown> };
    };
    expect(document.openapi).toBe('3.1.0');
    expect(Object.keys(document.paths)).toContain('/health/ready');
    const named = [...JSON.stringify(document).matchAll(/#\/components\/schemas\/([^"]+)/g)].map((m) => m[1]);
    for (const name of named) expect(Object.keys(document.components.schemas)).toContain(name);
  });

  it('has a page to read it', async () => {
    const response = await app.get('/api');
    expect(response.headers.get('content-type')).toMatch(/^text\/html/);
    expect(await response.text()).toContain('/health/ready');
  });
});
