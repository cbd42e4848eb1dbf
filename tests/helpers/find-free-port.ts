import { createServer } from 'node:net';

/** Below the ports that systems hand out by themselves, so that no connection takes it before it is used. */
const FROM = 20_000;
const PORTS = 10_000;

/** A port of this machine on which nothing listens, for a program that must be told one. */
export async function findFreePort(): Promise<number> {
  for (let tried = 0; tried < 100; tried += 1) {
    const port = FROM + ((process.pid * 37 + tried) % PORTS);
    if (await isFree(port)) return port;
  }
  throw new Error('findFreePort requires a free port');
}

function isFree(port: number): Promise<boolean> {
  return new Promise((settle) => {
    const server = createServer();
    server.once('error', () => settle(false));
    server.listen(port, '127.0.0.1', () => server.close(() => settle(true)));
  });
}
