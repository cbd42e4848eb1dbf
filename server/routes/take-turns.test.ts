import { expect, it } from 'vitest';
import { takeTurns } from './take-turns.ts';

it('begins a piece of work only when the one before has ended, also where that failed', async () => {
  const inTurn = takeTurns();
  const seen: string[] = [];
  const work = (name: string, fails: boolean) => async () => {
    seen.push(`${name} begins`);
    await new Promise((done) => setTimeout(done, 5));
    seen.push(`${name} ends`);
    if (fails) throw new Error(name);
    return name;
  };
  const answers = await Promise.allSettled([inTurn(work('a', true)), inTurn(work('b', false))]);
  expect(answers.map(({ status }) => status)).toEqual(['rejected', 'fulfilled']);
  expect(seen).toEqual(['a begins', 'a ends', 'b begins', 'b ends']);
});
