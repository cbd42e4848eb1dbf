import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  mostWorkbenchSets,
  workbenchSet,
  workbenchSetLine,
  workbenchSets,
} from '#server/contract/workbench.ts';
import { type SignedInPerson, signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

let app: TestApp;
let analyst: SignedInPerson;
let planner: SignedInPerson;

beforeAll(async () => {
  app = await startApp();
  analyst = await signInAs(app, 'analyst', { depots: [] });
  planner = await signInAs(app, 'planner');
});
afterAll(() => app?.stop());

const call = (who: SignedInPerson, method: string, path = '', body?: unknown) =>
  fetch(`${app.url}/api/workbench/sets${path}`, {
    method,
    headers: who.headers,
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
const list = async (who: SignedInPerson) => workbenchSets.parse(await (await call(who, 'GET')).json()).sets;
const choice = { kind: 'lives', columns: { exit: 'km', event: 'failed' }, covariates: ['°C'] };
const text = '\uFEFFkm;failed;°C\r\n"120,5";yes;91\r\n';
const keep = (who: SignedInPerson, name: string, more: object = {}) =>
  call(who, 'POST', '', { name, text, choice, ...more });
const detailOf = async (answer: Response) => (await answer.json()).detail as string;

describe('tables kept in the workbench', () => {
  it('come back letter by letter with their choice, and are of one person alone', async () => {
    expect(await list(analyst)).toEqual([]);
    const answer = await keep(analyst, ' Bench A ');
    expect(answer.status).toBe(200);
    const line = workbenchSetLine.parse(await answer.json());
    expect(line).toMatchObject({ name: 'Bench A', kind: 'lives', characters: text.length });
    const whole = workbenchSet.parse(await (await call(analyst, 'GET', `/${line.id}`)).json());
    expect(whole).toEqual({
      ...line,
      text,
      choice: { ...choice, header: true, decimal: 'point', event_turned: false },
    });
    expect(await list(planner)).toEqual([]);
    expect((await call(planner, 'GET', `/${line.id}`)).status).toBe(404);
    expect((await call(planner, 'DELETE', `/${line.id}`)).status).toBe(404);
    expect((await keep(planner, 'Bench A')).status).toBe(200);
    expect(await list(analyst)).toEqual([line]);
  });

  it('give way to one of the same name only where that was said', async () => {
    const [before] = await list(analyst);
    const refused = await keep(analyst, 'Bench A', { text: 'other' });
    expect(refused.status).toBe(409);
    expect(await detailOf(refused)).toContain("named 'Bench A' already");
    expect(await list(analyst)).toEqual([before]);
    const replaced = await keep(analyst, 'Bench A', { text: 'x,y\n1,2', replace: true });
    expect(await replaced.json()).toMatchObject({ id: before?.id, characters: 7 });
  });

  it('are deleted, and noted in the changes without their text', async () => {
    const [one] = await list(analyst);
    expect((await call(analyst, 'DELETE', `/${one?.id}`)).status).toBe(204);
    expect((await call(analyst, 'DELETE', `/${one?.id}`)).status).toBe(404);
    const rows = await app.client`
      select before, after from changes where actor_name = ${analyst.name} and after ? 'workbench_set' order by id`;
    expect(rows.map(({ before, after }) => [before.workbench_set, after.workbench_set])).toEqual([
      [null, { name: 'Bench A', kind: 'lives', characters: text.length }],
      [
        { name: 'Bench A', kind: 'lives', characters: text.length },
        { name: 'Bench A', kind: 'lives', characters: 7 },
      ],
      [{ name: 'Bench A', kind: 'lives', characters: 7 }, null],
    ]);
  });

  it.each([
    [{ name: '  ' }, 'name'],
    [{ name: 'x'.repeat(81) }, 'name'],
    [{ text: '' }, 'text'],
    [{ text: 'x'.repeat(4_000_001) }, 'text'],
    [{ choice: { kind: 'other', columns: {} } }, 'choice.kind'],
    [{ choice: { kind: 'lives', columns: { colour: 'red' } } }, 'choice.columns'],
    [{ choice: undefined }, 'choice'],
  ])('refuse %# and name the field', async (more, field) => {
    const answer = await keep(analyst, 'refused', more);
    expect(answer.status).toBe(400);
    expect((await answer.json()).errors[0].field).toBe(field);
    expect(await list(analyst)).toEqual([]);
  });

  it(`are ${mostWorkbenchSets} at most, also when many are kept at once`, async () => {
    const answers = await Promise.all(
      Array.from({ length: mostWorkbenchSets + 3 }, (_, i) => keep(analyst, `n${i}`)),
    );
    expect(answers.filter(({ status }) => status === 200)).toHaveLength(mostWorkbenchSets);
    const [over] = answers.filter(({ status }) => status === 409);
    expect(await detailOf(over!)).toContain('Delete one first');
    const [first] = await list(analyst);
    expect((await keep(analyst, first!.name, { replace: true })).status).toBe(200);
  });

  it('are for office people, not for a shop and not for keys', async () => {
    const shop = await signInAs(app, 'shop');
    expect((await keep(shop, 'mine')).status).toBe(403);
    expect((await app.get('/api/workbench/sets')).status).toBe(403);
  });
});
