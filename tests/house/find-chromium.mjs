// Runs before the tests: makes sure that there is a Chromium, and installs one where that is possible.
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { findBrowser } from '#tests/helpers/find-browser.mjs';

const run = (command, args, env = {}) =>
  spawnSync(command, args, { stdio: 'inherit', env: { ...process.env, ...env } }).status === 0;

const installers = [
  function installFromDebian() {
    if (process.getuid?.() !== 0 || !existsSync('/usr/bin/apt-get')) return false;
    console.log('No Chromium found; installing it with apt-get.');
    const quiet = { DEBIAN_FRONTEND: 'noninteractive' };
    const install = () =>
      run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], quiet);
    return install() || (run('apt-get', ['update', '-qq'], quiet) && install());
  },
  function installFromPlaywright() {
    console.log('No Chromium found; fetching one with playwright-core.');
    const entry = createRequire(import.meta.url).resolve('playwright-core/package.json');
    return run(process.execPath, [join(dirname(entry), 'cli.js'), 'install', 'chromium']);
  },
];

const named = process.env.SLIPDRIFT_CHROMIUM;
let browser = await findBrowser();
if (browser === null && named) {
  console.error(`SLIPDRIFT_CHROMIUM is ${named}, which is no program that can be run.`);
  process.exit(1);
}
for (const install of installers) {
  if (browser !== null) break;
  if (install()) browser = await findBrowser();
}
if (browser === null) {
  console.error(
    'The browser tests need Chromium, and none could be installed. Install it (Debian: apt-get install chromium) or name one in SLIPDRIFT_CHROMIUM.',
  );
  process.exit(1);
}
console.log(`Chromium for the tests: ${browser}`);
