import { expect, it } from 'vitest';
import { readProblem } from './problem-error.ts';

it('takes title, detail and request id of a problem document', async () => {
  const body = {
    type: 'about:blank',
    title: 'Not found',
    status: 404,
    detail: 'No vehicle X.',
    code: 'not_found',
    errors: [],
    request: 'r-1',
  };
  const error = await readProblem(new Response(JSON.stringify(body), { status: 404 }));
  expect(error).toMatchObject({
    title: 'Not found',
    detail: 'No vehicle X.',
    code: 'not_found',
    status: 404,
    request: 'r-1',
  });
});

it('still says the status where the answer is no problem document', async () => {
  expect(await readProblem(new Response('<html>', { status: 502 }))).toMatchObject({
    title: 'The server answered 502',
    status: 502,
  });
});

it('reads how long to wait, in seconds', async () => {
  const body = { title: 'Too often', detail: 'Wait.', code: 'too_many', status: 429, errors: [] };
  const answer = (wait: string) =>
    new Response(JSON.stringify(body), { status: 429, headers: { 'retry-after': wait } });
  expect(await readProblem(answer('840'))).toMatchObject({ retryAfterS: 840 });
  expect(await readProblem(answer('Wed, 04 Mar 2026 08:30:00 GMT'))).toMatchObject({ retryAfterS: null });
});
