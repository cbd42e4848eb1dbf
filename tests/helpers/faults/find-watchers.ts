import { execFileSync } from 'node:child_process';
import { join } from 'node:path';

/** The shells that stop the PostgreSQL of this data folder when its program dies. */
export const findWatchers = (folder: string): number[] =>
  execFileSync('ps', ['-eo', 'pid=,args='], { encoding: 'utf8' })
    .split('\n')
    .filter((line) => line.includes('cat >/dev/null') && line.includes(join(folder, 'postgres')))
    .map((line) => Number.parseInt(line, 10));
