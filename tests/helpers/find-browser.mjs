// Plain JavaScript: tests/house/find-chromium.mjs runs it before anything is set up.
import { accessSync, constants } from 'node:fs';
import { delimiter, join } from 'node:path';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];
const PLACES = [
  '/usr/lib/chromium/chromium',
  '/snap/bin/chromium',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
];

/**
 * Path of a Chromium on this machine: the one that SLIPDRIFT_CHROMIUM names, one on the PATH, one in a usual place, or
 * the one that playwright-core has fetched.
 * @returns {Promise<string | null>}
 */
export async function findBrowser() {
  const named = process.env.SLIPDRIFT_CHROMIUM;
  if (named) return isProgram(named) ? named : null;
  const onPath = (process.env.PATH ?? '')
    .split(delimiter)
    .filter((folder) => folder !== '')
    .flatMap((folder) => NAMES.map((name) => join(folder, name)));
  const found = [...onPath, ...PLACES].find(isProgram);
  if (found !== undefined) return found;
  const { chromium } = await import('playwright-core');
  const fetched = chromium.executablePath();
  return fetched !== '' && isProgram(fetched) ? fetched : null;
}

/** @param {string} path */
function isProgram(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
