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
