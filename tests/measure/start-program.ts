import { spawn } from 'node:child_process';
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';

export interface Program {
  url: string;
  pid: number;
  /** from the command to the line that names the address */
  seconds: number;
  seedSeconds: number | null;
  assessSeconds: number | null;
  /** highest resident memory of the process so far, from the kernel */
  peakMiB(): number;
  stop(): Promise<void>;
}

const binary = fileURLToPath(new URL('../../server/cli/slipdrift.mjs', import.meta.url));

/** Starts the command line as a user would and waits until it answers. */
export async function startProgram(
  args: string[],
  dataFolder: string,
  environment: Record<string, string> = {},
): Promise<Program> {
  const startedMs = performance.now();
  const child = spawn('node', [binary, ...args], {
    env: { ...process.env, SLIPDRIFT_DATA: dataFolder, DATABASE_URL: '', ...environment },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let said = '';
  let seededMs: number | null = null;
  const ended = new Promise<void>((settle) => child.once('close', () => settle()));
  const url = await new Promise<string>((settle, fail) => {
    const listen = (text: string) => {
      said += text;
      if (seededMs === null && said.includes('100 %')) seededMs = performance.now();
      const ready = /is at (http:\S+)/.exec(said) ?? /"url":"(http:[^"]+)".*"listening"/.exec(said);
      if (ready?.[1] !== undefined) settle(ready[1]);
    };
    child.stdout.setEncoding('utf8').on('data', listen);
    child.stderr.setEncoding('utf8').on('data', listen);
    child.once('close', (code) => fail(new Error(`ended with ${code}: ${said.slice(-2000)}`)));
  });
  const now = performance.now();
  const assessed = /Assessed the fleet in ([\d.]+) s/.exec(said);
  const tenth = (ms: number) => Math.round(ms / 100) / 10;
  return {
    url,
    pid: child.pid ?? 0,
    seconds: tenth(now - startedMs),
    seedSeconds: seededMs === null ? null : tenth(seededMs - startedMs),
    assessSeconds: assessed?.[1] === undefined ? null : Number(assessed[1]),
    peakMiB() {
      const status = readFileSync(`/proc/${child.pid}/status`, 'utf8');
      return Number(/VmHWM:\s+(\d+) kB/.exec(status)?.[1]) / 1024;
    },
    async stop() {
      child.kill('SIGTERM');
      await ended;
    },
  };
}
