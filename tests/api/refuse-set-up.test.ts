import { afterAll, beforeAll, expect, it } from 'vitest';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

let app: TestApp;
beforeAll(async () => {
  app = await startApp();
});
afterAll(() => app.stop());

const life = { vehicle: 'B-1', fitted_km: 0, source: 'new' };

it.each([
  ['platforms', { id: 'a', name: 'Type\0A' }, 'name'],
  ['platforms', { id: 'a', name: 'half \ud83d' }, 'name'],
  ['depots', { id: 'a', name: 'Yard\n1' }, 'name'],
  ['vehicles', { id: 'B-1', vin: 'W\0' }, 'vin'],
  ['lives', { ...life, mode: 'slip\0' }, 'mode'],
  ['lives', { ...life, supplier: '\u0007' }, 'supplier'],
  ['lives', { ...life, fitted_at: '0000-01-01T00:00:00Z' }, 'fitted_at'],
  ['lives', { ...life, removed_km: 1, removed_at: '9999-12-31T23:59:59-14:00' }, 'removed_at'],
])('refuses what storage cannot hold in %s: %j', async (what, body, field) => {
  const answer = await app.post(`/api/${what}`, body);
  expect(answer.status).toBe(400);
  const { code, errors } = await answer.json();
  expect(code).toBe('invalid_request');
  expect(errors).toEqual([expect.objectContaining({ line: 1, field })]);
});
