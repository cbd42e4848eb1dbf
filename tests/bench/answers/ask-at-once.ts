import { Agent, get } from 'node:http';
import { quantile } from '#tests/bench/timing.ts';
import type { Headers } from './people.ts';

export const CONNECTIONS = 32;

export interface Times {
  p50: number;
  p99: number;
}

/**
 * Asks over connections that are held open, each for the next path as soon as it has its answer; answers milliseconds from request to
 * the last byte. The first of each connection are left out: it had to be made.
 */
export async function askAtOnce(
  url: string,
  headers: Headers,
  paths: readonly string[],
  requests: number,
  connections = CONNECTIONS,
): Promise<Times> {
  const agent = new Agent({ keepAlive: true, maxSockets: connections });
  const times: number[] = [];
  let next = 0;
  const work = async () => {
    for (let turn = 0; next < requests + 2 * connections; turn++) {
      const path = paths[next++ % paths.length] ?? '';
      const startedMs = performance.now();
      await ask(`${url}${path}`, headers, agent);
      if (turn > 1) times.push(performance.now() - startedMs);
    }
  };
  try {
    await Promise.all(Array.from({ length: connections }, work));
  } finally {
    agent.destroy();
  }
  return { p50: quantile(times, 0.5), p99: quantile(times, 0.99) };
}

function ask(address: string, headers: Headers, agent: Agent): Promise<void> {
  return new Promise((settle, fail) => {
    get(address, { headers, agent }, (answer) => {
      answer.resume();
      answer.once('error', fail).once('end', () => {
        if (answer.statusCode === 200) settle();
        else fail(new Error(`${address} was answered ${answer.statusCode}`));
      });
    }).once('error', fail);
  });
}
