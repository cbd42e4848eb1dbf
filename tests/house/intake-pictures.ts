import type { Page } from 'playwright-core';
import type { Picture } from './picture.ts';

const wait = { timeout: 60_000 };

/** A file of another form, dropped and not stored. */
export function listBringPictures(): Picture[] {
  const one = {
    address: '/intake/bring',
    as: 'planner',
    ready: 'main input[type=file]',
    act: bring,
  } as const;
  return [
    { name: 'bring-file', ...one, width: 1280, height: 1160, from: 'h1' },
    { name: 'bring-file-rows', ...one, width: 1280, height: 860, from: 'h2:has-text("As it would be read")' },
    {
      name: 'bring-file-phone',
      ...one,
      width: 390,
      height: 844,
      from: 'h2:has-text("What its columns are")',
    },
  ];
}

async function bring(page: Page): Promise<void> {
  const head = ['Fahrzeug', 'Zeit', 'km-Stand', 'Motordrehzahl [1/min]', 'Turbinendrehzahl [1/min]'];
  const lines = Array.from({ length: 40 }, (_, i) => {
    const clock = `03.02.2026 ${String(6 + Math.floor(i / 6)).padStart(2, '0')}:${i % 6}0:10`;
    const duty = i === 7 ? '850,0' : '85,0';
    const speeds = [`${1402 + (i % 5)},5`, `${1391 + (i % 4)},0`];
    return ['K-118', clock, `${184_210 + 2 * i},5`, ...speeds, duty, `${88 + (i % 3)},5`, '0417'].join(';');
  });
  const text = [[...head, 'WÜK Tastverhältnis [%]', 'Öltemperatur [°C]', 'Fahrer'].join(';'), ...lines].join(
    '\n',
  );
  await page
    .locator('main input[type=file]')
    .setInputFiles({ name: 'Export_2026-02-03.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
  const zone = page.getByLabel('Time zone of clocks that say none');
  await zone.fill('Europe/Berlin', wait);
  await page.getByText('39 of 40 rows would be stored, 1 refused.').waitFor(wait);
  await zone.blur();
}
