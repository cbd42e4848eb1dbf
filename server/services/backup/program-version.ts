import { readFileSync } from 'node:fs';

/** Version of this Slipdrift. */
export function readProgramVersion(): string {
  const text = readFileSync(new URL('../../../package.json', import.meta.url), 'utf8');
  return (JSON.parse(text) as { version: string }).version;
}
