import { afterAll, beforeAll, expect, it } from 'vitest';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { toShortestReal } from './to-shortest-real.ts';

let database: TestDatabase;
beforeAll(async () => {
  database = await createTestDatabase();
});
afterAll(() => database?.drop());

it('names a 4-byte float as PostgreSQL prints it', async () => {
  const { uniform } = seededRandom(20_261_127);
  const bits = new DataView(new ArrayBuffer(4));
  const anyBits = () => {
    bits.setUint32(0, Math.floor(uniform() * 4_294_967_296));
    return bits.getFloat32(0);
  };
  const values = [
    ...[0, 0.1, 0.3, -12.345, 85, 1 / 3, 8_388_607.5, 8_388_608, 16_777_216, 123_456_792, 1e-40, 3.4e38],
    ...Array.from({ length: 4000 }, () => Math.round(uniform() * 5e6) / 10),
    ...Array.from({ length: 4000 }, () => Math.round(uniform() * 2e5) / 1000),
    ...Array.from({ length: 4000 }, () => uniform() * 9e5),
    ...Array.from({ length: 8000 }, anyBits).filter(Number.isFinite),
  ].map(Math.fround);
  const rows = await database.client<{ printed: number }[]>`
    select value::real as printed from unnest(${values}::float8[]) with ordinality as v(value, place) order by place`;
  const others = rows.flatMap(({ printed }, i) =>
    Object.is(toShortestReal(values[i] ?? Number.NaN), printed) ? [] : [[values[i], printed]],
  );
  expect(rows).toHaveLength(values.length);
  expect(others).toEqual([]);
});
