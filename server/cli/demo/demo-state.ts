import { mkdir, readFile, rename, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { ScenarioName } from '#demo-fleet/scenarios.ts';

/** What the demo's folder says about itself. The fixed end makes a broken-off sending repeat the same deliveries. */
export interface DemoState {
  scenario: ScenarioName;
  end: string;
  seeded: boolean;
}

const fileIn = (folder: string) => join(folder, 'demo.json');

export async function readDemoState(folder: string, scenario: ScenarioName, now: Date): Promise<DemoState> {
  try {
    return JSON.parse(await readFile(fileIn(folder), 'utf8')) as DemoState;
  } catch {
    return { scenario, end: now.toISOString(), seeded: false };
  }
}

export async function writeDemoState(folder: string, state: DemoState): Promise<void> {
  await mkdir(folder, { recursive: true });
  await writeFile(`${fileIn(folder)}.new`, `${JSON.stringify(state, null, 2)}\n`);
  await rename(`${fileIn(folder)}.new`, fileIn(folder));
}
