import { parseArgs } from 'node:util';
import { describeSoak } from './describe-soak.ts';
import { judgeSoak } from './judge-soak.ts';
import { runSoak } from './run-soak.ts';

/**
 * `npm run soak`: half an hour at 80 % of a peak that is measured first, on a server and a PostgreSQL of its own;
 * `--minutes 240` for longer. Ends with 1 where something is wrong. The last line is JSON.
 */
const { values } = parseArgs({ options: { minutes: { type: 'string', default: '30' } } });
const minutes = Number(values.minutes);
if (!(minutes >= 1 && minutes <= 2880)) throw new RangeError('--minutes must be a number from 1 to 2880');

const say = (what: string) => console.error(`${new Date().toISOString().slice(11, 19)} ${what}`);
const report = await runSoak({ warmUpS: 45, peakS: 90, loadS: minutes * 60, sampleEveryS: 5 }, say);
const faults = judgeSoak(report, false);
console.log(describeSoak(report));
console.log(faults.length === 0 ? 'All well.' : faults.map((fault) => `Fault: ${fault}`).join('\n'));
const { samples, errors, ...figures } = report;
console.log(JSON.stringify({ ...figures, errors: errors.length, samples: samples.length, faults }));
process.exitCode = faults.length === 0 ? 0 : 1;
