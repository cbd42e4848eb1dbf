import { rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { makeTemporaryFolder } from './temporary-folder.ts';

interface Used {
  folder: string;
  before: string;
  users: number;
}

/** Vitest sets up once a project, all in one process: they share one folder. */
const shared = globalThis as { slipdriftRunFolder?: Used | undefined };

/**
 * One folder for all that is temporary, gone after the run with what tests and the browsers they start leave in it: who is
 * ended cannot clear up.
 */
export default function setup(): () => void {
  shared.slipdriftRunFolder ??= { before: tmpdir(), folder: makeTemporaryFolder(), users: 0 };
  const used = shared.slipdriftRunFolder;
  used.users += 1;
  // What is started from here on has it from us.
  process.env.TMPDIR = used.folder;
  process.env.SLIPDRIFT_TEST_FOLDER = used.folder;
  return () => {
    used.users -= 1;
    if (used.users > 0) return;
    shared.slipdriftRunFolder = undefined;
    process.env.TMPDIR = used.before;
    delete process.env.SLIPDRIFT_TEST_FOLDER;
    rmSync(used.folder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  };
}
