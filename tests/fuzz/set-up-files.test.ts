import fc from 'fast-check';
import { afterAll, beforeAll, it } from 'vitest';
import type { SetUpColumn } from '#server/contract/set-up-files/set-up-column.ts';
import { findSetUpFile } from '#server/contract/set-up-files/set-up-files.ts';
import { setUpKinds } from '#server/contract/words.ts';
import { fuzz, hold, holdEqual } from './fuzz.ts';
import { holdAnswer } from './hold-answer.ts';
import { hostileText } from './hostile-values.ts';
import { mutated } from './mutate-bytes.ts';
import { type FuzzedApp, startFuzzedApp } from './start-fuzzed-app.ts';

let app: FuzzedApp;
beforeAll(async () => {
  app = await startFuzzedApp();
});
afterAll(() => app.stop());

/** Mostly what the column takes: a file is refused for one cell, and then nothing else of it is tried. */
const cellOf = ({ name, holds, choices = [], example, needed }: SetUpColumn): fc.Arbitrary<string> => {
  const good: Record<SetUpColumn['holds'], fc.Arbitrary<string>> = {
    text: name === 'vin' || name === 'mode' ? hostileText : fc.constantFrom('A', 'b-2', 'Typ 3', 'ü'),
    number: fc.oneof(fc.integer({ min: 0, max: 400_000 }).map(String), fc.constant(example)),
    numbers: fc.constantFrom(example, '40 60 100', '40 30'),
    yes_no: fc.constantFrom('yes', 'no', '1'),
    moment: fc.constantFrom(
      '2024-02-29',
      '1900-01-01',
      '2199-12-31',
      '2023-02-29',
      '2024-02-29T23:59:59+14:00',
    ),
    hours: fc.constantFrom('closed', '07:00-16:00', '24:00-24:00', '00:00-24:00'),
    choice: fc.constantFrom(...(choices.length > 0 ? choices : ['x'])),
  };
  return fc.oneof(
    { weight: 40, arbitrary: good[holds] },
    { weight: needed ? 0 : 25, arbitrary: fc.constant('') },
    { weight: needed ? 0 : 5, arbitrary: fc.constant('-') },
    { weight: 1, arbitrary: hostileText },
  );
};

const call = fc.constantFrom(...setUpKinds).chain((kind) => {
  const { columns } = findSetUpFile(kind);
  const some = fc
    .subarray([...columns])
    .map((chosen) => columns.filter((one) => one.needed || chosen.includes(one)));
  const text = fc.tuple(some, fc.constantFrom(',', ';', '\t')).chain(([chosen, separator]) => {
    const quote = (cell: string) => `"${cell.replaceAll('"', '""')}"`;
    return fc
      .array(fc.tuple(...chosen.map(cellOf)), { minLength: 1, maxLength: 4 })
      .map((rows) =>
        [chosen.map(({ name }) => name), ...rows].map((row) => row.map(quote).join(separator)).join('\n'),
      );
  });
  const good = text.map((one) => Buffer.from(one));
  return fc.record({
    kind: fc.constant(kind),
    dryRun: fc.boolean(),
    body: fc.oneof({ weight: 5, arbitrary: good }, { weight: 1, arbitrary: mutated(good) }),
  });
});

/** What a refused or a dry file must leave as it was. */
async function everything(): Promise<string> {
  const rows = await app.client`
    select (select json_agg(d order by id) from depots d) as depots,
      (select json_agg(p order by id) from platforms p) as platforms,
      (select json_agg(v order by unit) from vehicles v) as vehicles,
      (select json_agg(l order by vehicle, fitted_km) from lives l) as lives,
      (select count(*) from changes) as changes`;
  return JSON.stringify(rows[0]);
}

it('sets up a fleet from any file, all or nothing, and the same file again changes nothing', async () => {
  let taken = 0;
  await fuzz('setUpFile', call, async ({ kind, dryRun, body }) => {
    const asked = `POST /api/set-up/${kind} ${body.toString('latin1').slice(0, 1000)}`;
    const headers = { 'content-type': 'text/csv', 'content-length': String(body.length) };
    const ask = async (dry: boolean) =>
      holdAnswer(
        await app.ask(`/api/set-up/${kind}?dry_run=${dry}`, {
          method: 'POST',
          headers,
          body: new Uint8Array(body),
        }),
        asked,
      );
    const before = await everything();
    const first = await ask(dryRun);
    if (dryRun || first.status !== 200) holdEqual(await everything(), before);
    if (first.status !== 200) return;
    taken += 1;
    const after = await everything();
    const again = await ask(false);
    hold(again.status === 200, () => `${asked}: ${again.text}`);
    const reply = JSON.parse(dryRun ? first.text : again.text);
    if (dryRun) holdEqual(again.text.replace('"dry_run":false', '"dry_run":true'), first.text);
    else {
      hold(reply.created + reply.changed === 0, () => `${asked}: ${again.text}`);
      holdEqual(await everything(), after);
    }
  });
  hold(taken > 0, () => 'no file was taken at all');
});
