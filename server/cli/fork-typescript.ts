import { type ChildProcess, fork } from 'node:child_process';

interface ForkOptions {
  signal?: AbortSignal;
  /** what the child says, and a way to answer */
  onMessage?: (message: unknown, answer: (reply: string) => void) => void;
  env?: Record<string, string>;
}

/** Runs a TypeScript file in a process of its own, so that heavy work leaves this one free to serve. */
export function forkTypescript(file: URL, args: string[], options: ForkOptions = {}): Promise<void> {
  const child: ChildProcess = fork(file, args, {
    execArgv: ['--import', import.meta.resolve('tsx')],
    stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
    env: { ...process.env, ...options.env },
    ...(options.signal === undefined ? {} : { signal: options.signal }),
  });
  const { onMessage } = options;
  if (onMessage !== undefined)
    child.on('message', (message) => onMessage(message, (reply) => child.send(reply)));
  const said: string[] = [];
  child.stderr?.setEncoding('utf8').on('data', (text: string) => said.push(text));
  return new Promise((settle, fail) => {
    child.once('error', fail);
    child.once('close', (code, signal) => {
      if (code === 0) settle();
      else fail(new Error(said.join('').trim() || `ended with ${signal ?? `code ${code}`}`));
    });
  });
}
