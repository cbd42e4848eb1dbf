import type { Page } from 'playwright-core';
import type { Picture } from './picture.ts';

const wait = { timeout: 60_000 };

/** A file of vehicles, tried and not done. */
export function listSetUpPictures(): Picture[] {
  const one = {
    address: '/intake/set-up?kind=vehicles',
    as: 'planner',
    ready: 'main input[type=file]',
    act: tryVehicles,
  } as const;
  return [
    { name: 'set-up-files', ...one, width: 1280, height: 1000 },
    {
      name: 'set-up-files-phone',
      ...one,
      width: 390,
      height: 844,
      from: 'h2:has-text("What it would come to")',
    },
  ];
}

/** What is on record, edited as in a sheet: two vehicles change, two are new. */
async function tryVehicles(page: Page): Promise<void> {
  const text = await page.evaluate(async () => (await fetch('/api/set-up/vehicles')).text());
  const [head = '', ...lines] = text.trim().split('\r\n');
  const [first = '', second = '', ...rest] = lines;
  const [, ...other] = (lines.at(-1) ?? '').split(',');
  const changed = [
    first.replace(/(yes|no)$/, 'yes'),
    [second.split(',')[0], other[0], other[1], '1234567890ABCDEFG', 'no'].join(','),
  ];
  const added = ['N-901', 'N-902'].map((unit) => [unit, other[0], other[1], '', 'no'].join(','));
  await page.locator('main input[type=file]').setInputFiles({
    name: 'fleet.csv',
    mimeType: 'text/csv',
    buffer: Buffer.from([head, ...changed, ...rest, ...added].join('\r\n')),
  });
  await page.getByRole('button', { name: 'Do it' }).waitFor(wait);
}
