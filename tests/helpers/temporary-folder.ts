import { chmodSync, mkdtempSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A fresh folder that every account may enter, as a checkout or a data folder usually is; its owner removes it. */
export function makeTemporaryFolder(mode = 0o755): string {
  const folder = mkdtempSync(join(tmpdir(), 'slipdrift-test-'));
  chmodSync(folder, mode);
  return folder;
}
