import { type ChildProcess, execFile, spawn } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { endWithUs } from './end-with-us.ts';
import { TEST_KEY } from './test-key.ts';

const program = fileURLToPath(new URL('../../server/cli/slipdrift.mjs', import.meta.url));

export interface RunningProgram {
  child: ChildProcess;
  /** everything said so far */
  output(): string;
  /** exit code, or the signal that ended it */
  ended: Promise<number | string>;
  kill(signal: NodeJS.Signals): Promise<number | string>;
}

/** Runs the command line as a process of its own, with these settings and none of ours. */
export function runSlipdrift(args: string[], settings: Record<string, string> = {}): RunningProgram {
  const { PATH = '', HOME = '' } = process.env;
  const child = spawn(process.execPath, [program, ...args], {
    env: { PATH, HOME, ...settings },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  endWithUs(child);
  let said = '';
  for (const stream of [child.stdout, child.stderr])
    stream?.setEncoding('utf8').on('data', (text: string) => {
      said += text;
    });
  const ended = new Promise<number | string>((settle) => {
    child.once('close', (code, signal) => settle(code ?? signal ?? 'unknown'));
  });
  return {
    child,
    output: () => said,
    ended,
    kill(signal) {
      child.kill(signal);
      return ended;
    },
  };
}

/** Runs a command to its end, with these settings over ours, and answers what it said, by stream. */
export function runCommand(
  args: readonly string[],
  settings: Record<string, string>,
): Promise<{ code: number; out: string; error: string }> {
  const env = { ...process.env, ...settings };
  return new Promise((settle) => {
    execFile(process.execPath, [program, ...args], { env }, (failure, out, error) => {
      settle({ code: failure === null ? 0 : Number(failure.code), out, error });
    });
  });
}

export interface Served extends RunningProgram {
  url: string;
}

/** Serves on a free port, with the set-up key of the tests, and answers when it listens. */
export async function serveSlipdrift(settings: Record<string, string>): Promise<Served> {
  const running = runSlipdrift(['serve'], { PORT: '0', SLIPDRIFT_API_KEY: TEST_KEY, ...settings });
  const url = await new Promise<string>((settle, fail) => {
    const look = setInterval(() => {
      const found = /"url":"(http:[^"]+)"/.exec(running.output())?.[1];
      if (found === undefined) return;
      clearInterval(look);
      settle(found);
    }, 20);
    running.ended.then((how) => {
      clearInterval(look);
      fail(new Error(`ended with ${how}: ${running.output()}`));
    });
  });
  return { ...running, url };
}
