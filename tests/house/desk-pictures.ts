import type { Page } from 'playwright-core';
import type { Picture } from './picture.ts';

const wait = { timeout: 60_000 };

/** What came in and what did not. Nothing is let in. */
export function listDeskPictures(): Picture[] {
  const one = { as: 'planner', width: 1280 } as const;
  const refused = { ...one, address: '/intake/refused', ready: 'ul[aria-label="Faults"] a', act: tryRule };
  return [
    { ...one, name: 'intake-deliveries', address: '/intake/deliveries?span=days', height: 860 },
    { ...refused, name: 'intake-refused', height: 900 },
    { ...refused, name: 'intake-refused-phone', width: 390, height: 844 },
    { ...one, name: 'intake-gateways', address: '/intake/gateways', height: 1100, ready: 'main svg' },
    { ...one, name: 'intake-vehicles', address: '/intake/vehicles', height: 760, ready: 'main table' },
  ];
}

async function tryRule(page: Page): Promise<void> {
  await page.locator('ul[aria-label="Faults"] a').filter({ hasText: 'fluid' }).first().click(wait);
  await page.getByLabel('What to do').selectOption('leave_out', wait);
  await page.getByRole('button', { name: 'Try it' }).click(wait);
  await page.getByText(/would go in/).waitFor(wait);
}
