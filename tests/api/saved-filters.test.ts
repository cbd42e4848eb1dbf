import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { mostSavedFilters, savedFilter } from '#server/contract/ranking.ts';
import { type SignedInPerson, signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

let app: TestApp;
let planner: SignedInPerson;
let analyst: SignedInPerson;

beforeAll(async () => {
  app = await startApp();
  planner = await signInAs(app, 'planner');
  analyst = await signInAs(app, 'analyst', { depots: [] });
});
afterAll(() => app?.stop());

const call = (who: SignedInPerson, method: string, path = '', body?: unknown) =>
  fetch(`${app.url}/api/saved-filters${path}`, {
    method,
    headers: who.headers,
    ...(body === undefined ? {} : { body: JSON.stringify(body) }),
  });
const list = async (who: SignedInPerson) => z.array(savedFilter).parse(await (await call(who, 'GET')).json());
const save = (who: SignedInPerson, name: string, search: string) => call(who, 'POST', '', { name, search });

describe('saved filters', () => {
  it('are of one person, by name, and replaced by one of the same name', async () => {
    expect(await list(planner)).toEqual([]);
    const first = savedFilter.parse(await (await save(planner, ' Monday ', 'q=B&grade=hold,book')).json());
    expect(first).toMatchObject({ name: 'Monday', search: 'grade=hold%2Cbook&q=B' });
    await save(planner, 'Depot 3', 'depot=depot-3');
    await save(analyst, 'Monday', 'sort=slip');
    const again = savedFilter.parse(await (await save(planner, 'Monday', 'booking=none')).json());
    expect(again).toEqual({ id: first.id, name: 'Monday', search: 'booking=none' });
    expect((await list(planner)).map(({ name }) => name)).toEqual(['Depot 3', 'Monday']);
    expect((await list(analyst)).map(({ search }) => search)).toEqual(['sort=slip']);
  });

  it('are deleted by whose they are, and by nobody else', async () => {
    const [one] = await list(analyst);
    expect((await call(planner, 'DELETE', `/${one?.id}`)).status).toBe(404);
    expect(await list(analyst)).toHaveLength(1);
    expect((await call(analyst, 'DELETE', `/${one?.id}`)).status).toBe(204);
    expect((await call(analyst, 'DELETE', `/${one?.id}`)).status).toBe(404);
    expect(await list(analyst)).toEqual([]);
    expect((await call(analyst, 'DELETE', '/first')).status).toBe(400);
  });

  it('stand in the changes of the person', async () => {
    const rows = await app.client`
      select before, after from changes
      where actor_kind = 'person' and subject = 'person' and action = 'changed' and after ? 'saved_filter' order by id`;
    expect(
      rows.map(({ before, after }) => [before.saved_filter?.search, after.saved_filter?.search]),
    ).toEqual([
      [undefined, 'grade=hold%2Cbook&q=B'],
      [undefined, 'depot=depot-3'],
      [undefined, 'sort=slip'],
      ['grade=hold%2Cbook&q=B', 'booking=none'],
      ['sort=slip', undefined],
    ]);
  });

  it.each([
    [{ name: '', search: 'grade=hold' }, 'name'],
    [{ name: 'x'.repeat(61), search: 'grade=hold' }, 'name'],
    [{ name: 'bell \u0007', search: 'grade=hold' }, 'name'],
    [{ name: 'much', search: `q=${'x'.repeat(1000)}` }, 'search'],
    [{ name: 'rows', search: 'open=B-1' }, 'search'],
    [{ name: 'colour', search: 'grade=red' }, 'grade'],
    [{ name: 'nothing', search: '' }, 'search'],
    [{ name: 'no search' }, 'search'],
  ])('refuse %o and name the field', async (body, field) => {
    const before = await list(planner);
    const answer = await call(planner, 'POST', '', body);
    expect(answer.status).toBe(400);
    const { errors } = await answer.json();
    expect(errors[0].field).toBe(field);
    expect(await list(planner)).toEqual(before);
  });

  it(`are ${mostSavedFilters} at most, also when many are saved at once`, async () => {
    const statuses = await Promise.all(
      Array.from(
        { length: mostSavedFilters + 5 },
        async (_, i) => (await save(analyst, `n${i}`, `q=${i}`)).status,
      ),
    );
    expect(statuses.filter((status) => status === 200)).toHaveLength(mostSavedFilters);
    expect(statuses.filter((status) => status === 409)).toHaveLength(5);
    expect(await list(analyst)).toHaveLength(mostSavedFilters);
    const [first] = await list(analyst);
    expect((await save(analyst, first?.name ?? '', 'q=replaced')).status).toBe(200);
    expect((await save(analyst, 'one more', 'q=1')).status).toBe(409);
  });

  it('are for office people, not for a shop and not for keys', async () => {
    const shop = await signInAs(app, 'shop');
    expect((await call(shop, 'GET')).status).toBe(403);
    expect((await save(shop, 'mine', 'q=1')).status).toBe(403);
    expect((await app.get('/api/saved-filters')).status).toBe(403);
  });
});
