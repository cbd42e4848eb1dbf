import type { ChildProcess } from 'node:child_process';

/** A test that fails before it stops a process must not leave it running. */
export function endWithUs(child: ChildProcess): void {
  const end = () => child.kill('SIGKILL');
  process.once('exit', end);
  child.once('exit', () => process.off('exit', end));
}
