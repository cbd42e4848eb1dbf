import { expect, it } from 'vitest';
import { ProblemError } from '#web/api/problem-error.ts';
import { askPatiently } from './ask-patiently.ts';

const busy = (retryAfterS: number | null) =>
  new ProblemError({ title: 'busy', detail: 'Ask again.', code: 'busy', status: 409, retryAfterS });
const { signal } = new AbortController();

it('asks again where the server says when, and tells that it waits', async () => {
  let asked = 0;
  let waited = 0;
  const answer = await askPatiently(
    () => (++asked < 2 ? Promise.reject(busy(0)) : Promise.resolve('stored')),
    signal,
    () => waited++,
  );
  expect([answer, asked, waited]).toEqual(['stored', 2, 1]);
});

it('gives up at once where no time is said, or a long one, or it was stopped', async () => {
  const stopped = new AbortController();
  stopped.abort();
  for (const [after, by] of [
    [null, signal],
    [600, signal],
    [1, stopped.signal],
  ] as const) {
    let asked = 0;
    const ask = () => {
      asked++;
      return Promise.reject(busy(after));
    };
    await expect(askPatiently(ask, by, () => {})).rejects.toThrow('Ask again.');
    expect(asked).toBe(1);
  }
});
