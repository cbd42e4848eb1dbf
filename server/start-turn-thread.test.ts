import { afterEach, expect, it } from 'vitest';
import { startTurnThread, type TurnThread } from './start-turn-thread.ts';

type Ask = { say: string; afterMs?: number } | { drop: true } | { die: true };
interface Answer {
  said: string;
  /** how many this thread has answered before */
  before: number;
}

const file = new URL(
  `data:text/javascript,${encodeURIComponent(`
    import { parentPort } from 'node:worker_threads';
    let before = 0;
    let dropped = false;
    parentPort.on('message', async (ask) => {
      if (ask.die) process.exit(1);
      if (ask.drop) { dropped = true; return; }
      if (ask.say === 'long') parentPort.postMessage({ said: 'half', before });
      await new Promise((settle) => setTimeout(settle, ask.afterMs ?? 0));
      parentPort.postMessage({ said: dropped ? 'dropped' : ask.say, before });
      before += 1;
    });`)}`,
);
const threads: TurnThread<Ask, Answer>[] = [];
const never = new AbortController().signal;

function start(isSpent?: (answer: Answer) => boolean) {
  const thread = startTurnThread<Ask, Answer>({
    file,
    name: 'trial',
    ...(isSpent === undefined ? {} : { isSpent }),
  });
  threads.push(thread);
  return thread;
}
afterEach(() => Promise.all(threads.splice(0).map((thread) => thread.stop())));

it('does one thing after the other, in the order they come', async () => {
  const thread = start();
  const first = thread.run({ say: 'a', afterMs: 30 }, { signal: never });
  const second = thread.run({ say: 'b' }, { signal: never });
  expect(thread.waiting()).toBe(1);
  expect(await Promise.all([first, second])).toEqual([
    { said: 'a', before: 0 },
    { said: 'b', before: 1 },
  ]);
});

it('passes over what ended before its turn, and tells the thread of what ends in it', async () => {
  const thread = start();
  const end = new AbortController();
  const how = { signal: end.signal, dropBy: { drop: true as const } };
  const running = thread.run({ say: 'a', afterMs: 200 }, how);
  const waiting = thread.run({ say: 'b' }, how);
  setTimeout(() => end.abort(), 100);
  expect(await waiting).toBeNull();
  expect(thread.waiting()).toBe(0);
  expect(await running).toMatchObject({ said: 'dropped' });
  expect(await thread.run({ say: 'c' }, how)).toBeNull();
});

it('hears what is on the way, and settles at the last answer', async () => {
  const heard: string[] = [];
  const isOnTheWay = ({ said }: Answer) => {
    heard.push(said);
    return said === 'half';
  };
  expect(await start().run({ say: 'long' }, { signal: never, isOnTheWay })).toMatchObject({ said: 'long' });
  expect(heard).toEqual(['half', 'long']);
});

it('begins a new thread after one that died, or that is spent', async () => {
  const thread = start(({ said }) => said === 'spent');
  await expect(thread.run({ die: true }, { signal: never })).rejects.toThrow(
    'The trial thread ended before its work did.',
  );
  const answers = [{ say: 'a' }, { say: 'spent' }, { say: 'b' }].map((ask) =>
    thread.run(ask, { signal: never }),
  );
  expect((await Promise.all(answers)).map((answer) => answer?.before)).toEqual([0, 1, 0]);
});

it('fails what is in work when it is stopped', async () => {
  const thread = start();
  const running = thread.run({ say: 'a', afterMs: 10_000 }, { signal: never });
  const stopped = expect(running).rejects.toThrow('stopped before its work was done');
  await thread.stop();
  await stopped;
});
