import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { platformInput } from '#server/contract/fleet.ts';
import { ranking } from '#server/contract/ranking.ts';
import {
  type Preview,
  type PreviewRequest,
  previewReply,
  usualThresholds,
} from '#server/contract/settings.ts';
import { type Grade, grades } from '#server/contract/words.ts';
import { plainEnd, sendPlainFleet } from '#tests/helpers/send-plain-fleet.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { withTestKey } from '#tests/helpers/test-key.ts';

let app: TestApp;
beforeAll(async () => {
  app = await startApp({}, plainEnd);
  await sendPlainFleet(app);
});
afterAll(() => app?.stop());

type Place = Pick<Preview['moved'][number], 'vehicle' | 'rank' | 'grade'>;

async function readList(): Promise<Place[]> {
  const { rows } = ranking.parse(await (await app.get('/api/ranking?limit=1000')).json());
  return rows.map(({ vehicle, rank, grade }) => ({ vehicle, rank, grade }));
}

const ask = (request: unknown) => app.post('/api/settings/preview', request);

/** Asks as a screen does: again with the same body until it is made. */
async function preview(request: PreviewRequest): Promise<Preview> {
  for (;;) {
    const reply = previewReply.parse(await (await ask(request)).json());
    if (reply.preview !== null) return reply.preview;
  }
}

const put = (body: unknown) =>
  fetch(`${app.url}/api/settings/thresholds`, {
    method: 'PUT',
    headers: { ...withTestKey, 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });

const savePlatform = async (fields: object) => {
  const answer = await app.post('/api/platforms', { id: 'p-type', name: 'Type P', ...fields });
  expect(await answer.json()).toEqual({ created: 0, changed: 1, unchanged: 0 });
};

const countGrades = (list: readonly Place[]) =>
  Object.fromEntries(grades.map((grade: Grade) => [grade, list.filter((row) => row.grade === grade).length]));

/** What a change did to the list, told from the list before and after alone. */
function tellChange(before: readonly Place[], after: readonly Place[]) {
  const then = new Map(before.map((row) => [row.vehicle, row]));
  const pairs = after.map((row) => ({
    vehicle: row.vehicle,
    rank: row.rank,
    grade: row.grade,
    rank_before: then.get(row.vehicle)?.rank,
    grade_before: then.get(row.vehicle)?.grade,
  }));
  return {
    vehicles: after.length,
    before: countGrades(before),
    after: countGrades(after),
    regraded: pairs.filter((one) => one.grade !== one.grade_before).length,
    reranked: pairs.filter((one) => one.rank !== one.rank_before).length,
    moved: pairs.filter((one) => one.grade !== one.grade_before || one.rank !== one.rank_before),
  };
}

const byName = (rows: readonly { vehicle: string }[]) =>
  rows.toSorted((a, b) => (a.vehicle < b.vehicle ? -1 : 1));

/** Holds a preview to what the list becomes once the change is saved; answers what changed. */
async function comparePreview(request: PreviewRequest, save: () => Promise<unknown>) {
  const before = await readList();
  const { moved, ...told } = await preview(request);
  expect(await readList()).toEqual(before);
  await save();
  await app.running.assessment.idle();
  const { moved: reallyMoved, ...really } = tellChange(before, await readList());
  expect(told).toEqual(really);
  expect(byName(moved.map(({ depot: _, ...one }) => one))).toEqual(byName(reallyMoved));
  return really;
}

const costs = { road_failure: 9000, planned_repair: 3200, inspection: 120, lost_day: 60 };

describe('what the list would be', () => {
  it('is what it becomes with other costs', async () => {
    const dear = { ...costs, road_failure: 900, planned_repair: 880, inspection: 400 };
    const really = await comparePreview({ platform: { id: 'p-type', costs: dear } }, () =>
      savePlatform({ costs: dear }),
    );
    expect(really.reranked).toBeGreaterThan(4);
    expect(really.regraded).toBe(0);
    const { rows } = await (await app.get('/api/ranking?platform=p-type&limit=1')).json();
    const [{ chance_within_horizon: chance, expected_cost_avoided: avoided }] = rows;
    expect(avoided).toBeCloseTo(chance * (900 - 880) - 400 - 60, 6);
  });

  it('is what it becomes with other thresholds', async () => {
    const strict = { ...usualThresholds, hold_chance: 0.9, book_chance: 0.6 };
    const really = await comparePreview({ thresholds: strict }, async () => {
      expect((await put(strict)).status).toBe(200);
    });
    expect(really.regraded).toBeGreaterThan(0);
    expect(really.reranked).toBe(0);
  });

  it('is what it becomes with another limit, for which the platform is learned and assessed anew', async () => {
    const learnedAt = async () =>
      (await app.client`select as_of from platform_contexts where platform = 'p-type'`)[0]?.as_of as Date;
    const before = await learnedAt();
    const really = await comparePreview({ platform: { id: 'p-type', limit_rpm: 60 } }, async () => {
      expect(await learnedAt()).toEqual(before);
      await savePlatform({ limit_rpm: 60 });
    });
    expect(really.regraded).toBeGreaterThan(0);
    expect((await learnedAt()).getTime()).toBeGreaterThan(before.getTime());
  });

  it('is what it becomes with another expected life', async () => {
    const really = await comparePreview({ platform: { id: 'p-type', life_km: 60_000 } }, () =>
      savePlatform({ life_km: 60_000 }),
    );
    expect(really.reranked).toBeGreaterThan(0);
  });

  it('is what it becomes with all of them at once', async () => {
    const thresholds = { ...usualThresholds, book_chance: 0.3, evidence_q: 0.01 };
    await comparePreview(
      { platform: { id: 'p-type', limit_rpm: 110, life_km: null, costs }, thresholds },
      async () => {
        await put(thresholds);
        await savePlatform({ limit_rpm: 110, life_km: null, costs });
      },
    );
  });

  it('is as it is where nothing changes', async () => {
    const { moved, before, after } = await preview({ platform: { id: 'p-type', limit_rpm: 110 } });
    expect(moved).toEqual([]);
    expect(after).toEqual(before);
  });
});

it('is dropped when whoever asked has left, and the next one is made', async () => {
  const leaving = new AbortController();
  const left = fetch(`${app.url}/api/settings/preview`, {
    method: 'POST',
    headers: { ...withTestKey, 'content-type': 'application/json' },
    body: JSON.stringify({ platform: { id: 'p-type', limit_rpm: 77 } }),
    signal: leaving.signal,
  });
  setTimeout(() => leaving.abort(), 20);
  await expect(left).rejects.toThrow();
  expect(await preview({ platform: { id: 'q-type', costs } })).toMatchObject({ vehicles: 16 });
});

describe('thresholds', () => {
  it('are as usual until somebody changes them, and each change is written down', async () => {
    await app.client`delete from fleet_settings`;
    const get = async () => (await app.get('/api/settings/thresholds')).json();
    expect(await get()).toEqual(usualThresholds);
    const answer = await put({ hold_chance: 0.5 });
    expect(await answer.json()).toEqual({ ...usualThresholds, hold_chance: 0.5 });
    expect(await get()).toEqual({ ...usualThresholds, hold_chance: 0.5 });
    await put({ hold_chance: 0.5 });
    const rows = await app.client`
      select action, subject_id, before, after, actor_kind from changes where subject = 'thresholds'
      order by id desc limit 2`;
    expect(rows[0]).toEqual({
      action: 'changed',
      subject_id: 'fleet',
      before: { hold_chance: 0.25 },
      after: { hold_chance: 0.5 },
      actor_kind: 'key',
    });
    expect(rows[1]?.after).not.toEqual({ hold_chance: 0.5 });
  });

  it('rank the fleet again without a reading and without being asked', async () => {
    const booked = async () => (await readList()).filter(({ grade }) => grade === 'book').length;
    await put({ ...usualThresholds, hold_chance: 0.99, book_chance: 0.99 });
    await app.running.assessment.idle();
    const before = await booked();
    await put({ ...usualThresholds, hold_chance: 0.99, book_chance: 0.01 });
    await expect.poll(booked, { timeout: 20_000 }).toBeGreaterThan(before);
    const rows = await app.client`
      select from_grade, to_grade from grade_changes where at = (select max(at) from grade_changes)`;
    expect([...rows]).toContainEqual({ from_grade: 'watch', to_grade: 'book' });
  });

  it.each([
    [{ hold_chance: 0 }, 'hold_chance'],
    [{ hold_chance: 1.2 }, 'hold_chance'],
    [{ evidence_q: 0 }, 'evidence_q'],
    [{ quiet_days: 3 }, 'quiet_days'],
    [{ quiet_days: 20.5 }, 'quiet_days'],
    [{ hold: 0.3 }, ''],
  ])('that are wrong are refused, and stay: %j', async (body, field) => {
    const before = await (await app.get('/api/settings/thresholds')).json();
    const answer = await put(body);
    expect(answer.status).toBe(400);
    expect((await answer.json()).errors).toMatchObject([{ field }]);
    expect(await (await app.get('/api/settings/thresholds')).json()).toEqual(before);
  });
});

describe('a preview that cannot be made', () => {
  it.each([
    [{}, 400, ''],
    [{ platform: { id: 'p-type', limit_rpm: 0 } }, 400, 'platform.limit_rpm'],
    [{ platform: { id: 'p-type', costs: { ...costs, inspection: -1 } } }, 400, 'platform.costs.inspection'],
    [{ platform: { id: 'p-type', life_km: 0 } }, 400, 'platform.life_km'],
    [{ platform: { id: 'p-type', gate: {} } }, 400, 'platform'],
    [{ platform: { id: 'nowhere', limit_rpm: 100 } }, 404, 'platform.id'],
  ])('says why: %j', async (body, status, field) => {
    const answer = await ask(body);
    expect(answer.status).toBe(status);
    expect((await answer.json()).errors).toMatchObject([{ field }]);
  });

  it('of a limit of 0 says what that would mean', async () => {
    const answer = await app.post('/api/platforms', platformInput.parse({ id: 'x', name: 'X' }));
    expect(answer.status).toBe(200);
    const wrong = await app.post('/api/platforms', { id: 'x', name: 'X', limit_rpm: 0 });
    expect((await wrong.json()).errors[0].message).toBe(
      'must be above 0: at a limit of 0 every clutch counts as failed',
    );
    const negative = await app.post('/api/platforms', { id: 'x', name: 'X', costs: { lost_day: -1 } });
    expect((await negative.json()).errors[0]).toMatchObject({
      field: 'costs.lost_day',
      message: 'must not be negative',
    });
  });
});
