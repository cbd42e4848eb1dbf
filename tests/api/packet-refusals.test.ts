import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { kmFromMiles } from '#server/contract/units.ts';
import { visitAs } from '#tests/helpers/packet-visit.ts';
import { plainEnd, sendPlainFleet } from '#tests/helpers/send-plain-fleet.ts';
import { signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

let app: TestApp;
let planner: ReturnType<typeof visitAs>;
let kmOf: Map<string, number>;

beforeAll(async () => {
  app = await startApp({}, plainEnd);
  await sendPlainFleet(app);
  planner = visitAs(app, (await signInAs(app, 'planner', { name: 'Tarn Ewell' })).headers);
  const rows = await app.client`
    select unit, odometer_km from vehicles join reading_spans on vehicle = key`;
  kmOf = new Map(rows.map(({ unit, odometer_km: km }) => [unit as string, km as number]));
});
afterAll(() => app?.stop());

const kmAt = (unit: string) => Math.ceil(kmOf.get(unit) ?? Number.NaN);
const countOf = async (table: string) => {
  const [row] = await app.client`select count(*) as n from ${app.client(table)}`;
  return Number(row?.n);
};

describe('the mileage at closing', () => {
  it('is asked about where it lies below the last reading, and stands once that is answered', async () => {
    const { id } = await planner.open('P-03');
    const below = kmAt('P-03') - 120;
    const asked = await planner.close(id, { outcome: 'no_fault_found', odometer_km: below });
    expect(asked).toMatchObject({ kind: 'asked', questions: [{ field: 'odometer_km', suggestion: null }] });
    if (asked.kind === 'asked')
      expect(asked.questions[0]?.message).toMatch(
        /^The last reading, of 3 Mar 2026, has [\d,]+ km: 1(19|20|21) km more\. Was the work done before that reading\?$/,
      );
    expect((await planner.get(id)).state).toBe('open');
    const done = await planner.close(id, {
      outcome: 'no_fault_found',
      odometer_km: below,
      as_measured: true,
    });
    expect(done).toMatchObject({ kind: 'closed', closing: { odometer_km: below } });
  });

  it('is taken for miles only where somebody says so', async () => {
    const { id } = await planner.open('P-04');
    const km = kmAt('P-04');
    const miles = Math.ceil(km / kmFromMiles(1));
    const asked = await planner.close(id, { outcome: 'no_fault_found', odometer_km: miles });
    expect(asked).toMatchObject({
      kind: 'asked',
      questions: [{ suggestion: { odometer_km: expect.any(Number) } }],
    });
    const suggested = asked.kind === 'asked' ? Number(asked.questions[0]?.suggestion?.odometer_km) : 0;
    expect(Math.abs(suggested - km)).toBeLessThan(2);
  });

  it('is asked about where the vehicle cannot have driven so far', async () => {
    const { id } = await planner.open('P-04');
    const asked = await planner.close(id, { outcome: 'no_fault_found', odometer_km: kmAt('P-04') + 9000 });
    expect(asked).toMatchObject({ kind: 'asked' });
    expect((await planner.get(id)).state).toBe('open');
  });

  it('cannot lie before the present converter was fitted', async () => {
    await app.post('/api/lives', { vehicle: 'P-05', fitted_km: kmAt('P-05') - 50, source: 'new' });
    const { id } = await planner.open('P-05');
    const parts = [{ kind: 'converter', source: 'new' }];
    await planner.report(id, { parts, teardown: { cause: 'lining_worn' } });
    const { version } = await planner.get(id);
    const refused = await planner.refused('POST', `/packets/${id}/close`, {
      version,
      outcome: 'repaired',
      ended: 'failed',
      odometer_km: kmAt('P-05') - 50,
      as_measured: true,
    });
    expect([refused.status, refused.errors[0]?.field]).toEqual([400, 'odometer_km']);
    expect(await countOf('lives')).toBe(1);
  });
});

describe('a report that does not add up', () => {
  it('is told all that is missing at once, and nothing is changed', async () => {
    const { id, version } = await planner.open('P-06');
    const bare = await planner.refused('POST', `/packets/${id}/close`, {
      version,
      outcome: 'repaired',
      odometer_km: kmAt('P-06'),
    });
    expect(bare.errors.map(({ field }) => field)).toEqual(['teardown.cause', 'reason']);
    const declined = await planner.refused('POST', `/packets/${id}/close`, {
      version,
      outcome: 'declined',
      odometer_km: kmAt('P-06'),
    });
    expect(declined.errors.map(({ field }) => field)).toEqual(['reason']);
    await planner.report(id, { parts: [{ kind: 'converter', source: 'new' }] });
    const kept = await planner.refused('POST', `/packets/${id}/close`, {
      version: version + 1,
      outcome: 'no_fault_found',
      odometer_km: kmAt('P-06'),
    });
    expect(kept.errors.map(({ field }) => field)).toEqual(['outcome']);
    expect((await planner.get(id)).state).toBe('open');
  });

  it('is closed without the cooler record that is due only for a reason, which stays visible', async () => {
    const { id } = await planner.open('P-07');
    await planner.record(id, { step: 'pan', debris: 'metal' });
    await planner.report(id, {
      teardown: { cause: 'one_way_clutch' },
      cooler: {
        done: 'flushed',
        minutes: 100,
        method: 'compressed_air',
        both_directions: true,
        filter_clean: true,
      },
    });
    const { version } = await planner.get(id);
    const asked = { version, outcome: 'declined', odometer_km: kmAt('P-07'), reason: 'Sold as it stands' };
    const refused = await planner.refused('POST', `/packets/${id}/close`, asked);
    expect(refused.errors).toMatchObject([{ field: 'cooler' }]);
    expect(refused.errors[0]?.message).toContain('compressed air alone');
    await planner.close(id, { ...asked, without_cooler: 'No work was done' });
    expect((await planner.get(id)).closing).toMatchObject({ without_cooler: 'No work was done' });
    const history = await (await app.get('/api/vehicles/P-07/history')).json();
    expect(JSON.stringify(history)).toContain('Closed without a cooler record: No work was done');
  });
});

describe('two shops at one job', () => {
  it('are told apart: the second learns who closed it, and stores nothing', async () => {
    const { id, version } = await planner.open('P-08');
    const other = visitAs(app, (await signInAs(app, 'admin', { name: 'Vale Orrin' })).headers);
    await other.close(id, { outcome: 'no_fault_found', odometer_km: kmAt('P-08') });
    const before = await countOf('findings');
    for (const [method, path, body] of [
      ['POST', 'close', { version, outcome: 'no_fault_found', odometer_km: kmAt('P-08') }],
      ['POST', 'findings', { step: 'pan', debris: 'none' }],
      ['PUT', 'report', { version, parts: [] }],
    ] as const) {
      const refused = await planner.refused(method, `/packets/${id}/${path}`, body);
      expect([refused.status, refused.detail.split('.')[0]]).toEqual([
        409,
        'Vale Orrin closed this job on 4 Mar 2026',
      ]);
    }
    expect(await countOf('findings')).toBe(before);
    // A new packet is a new job, and has the one before in it.
    const again = await planner.open('P-08');
    expect(again.id).not.toBe(id);
    expect(again.earlier).toMatchObject([{ packet: id, outcome: 'no_fault_found', vehicle: 'P-08' }]);
  });

  it('have one of two reports that were written over each other refused', async () => {
    const { id, version } = await planner.open('Q-02');
    const first = await planner.ask('PUT', `/packets/${id}/report`, {
      version,
      parts: [{ kind: 'solenoid', source: 'new' }],
    });
    expect(first.status).toBe(200);
    const second = await planner.refused('PUT', `/packets/${id}/report`, { version, parts: [] });
    expect([second.status, second.errors[0]?.field]).toEqual([409, 'version']);
    expect((await planner.get(id)).report.parts).toHaveLength(1);
  });

  it('close it once where both press at the same moment', async () => {
    const { id, version } = await planner.open('Q-03');
    const body = { version, outcome: 'no_fault_found', odometer_km: kmAt('Q-03') };
    const answers = await Promise.all(
      Array.from({ length: 6 }, () => planner.ask('POST', `/packets/${id}/close`, body)),
    );
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409, 409, 409, 409, 409]);
  });

  it('have one packet where both open it at the same moment', async () => {
    const answers = await Promise.all(Array.from({ length: 6 }, () => planner.open('Q-04')));
    expect(new Set(answers.map(({ id }) => id)).size).toBe(1);
  });
});

describe('currents at the fuse', () => {
  it.each([
    ['swapped', 'Q-05', { off_a: 4, on_a: 0.1 }, { off_a: 0.1, on_a: 4 }, 'failed'],
    ['in milliamps', 'Q-06', { off_a: 20, on_a: 1020 }, { off_a: 0.02, on_a: 1.02 }, 'unclear'],
  ])('are asked about where they may be %s', async (_, unit, input, suggestion, verdict) => {
    const { id } = await planner.open(unit);
    const asked = await planner.record(id, { step: 'solenoid_current', ...input });
    expect(asked).toMatchObject({ kind: 'asked', questions: [{ suggestion }] });
    expect((await planner.get(id)).steps.find(({ step }) => step === 'solenoid_current')?.finding).toBeNull();
    const stands = await planner.record(id, { step: 'solenoid_current', ...input, as_measured: true });
    expect(stands).toMatchObject({ kind: 'stored', finding: { verdict } });
  });

  it('are asked about where one is negative', async () => {
    const { id } = await planner.open('Q-07');
    expect(await planner.record(id, { step: 'solenoid_current', off_a: 0, on_a: -1.1 })).toMatchObject({
      kind: 'asked',
    });
  });

  it('are refused where they are no figures', async () => {
    const { id } = await planner.open('Q-06');
    const refused = await planner.refused('POST', `/packets/${id}/findings`, {
      step: 'solenoid_current',
      off_a: '0',
    });
    expect(refused.status).toBe(400);
    expect(refused.errors.map(({ field }) => field).sort()).toEqual(['off_a', 'on_a']);
  });
});
