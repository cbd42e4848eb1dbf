import type { Page } from 'playwright-core';
import type { Picture } from './picture.ts';

const wait = { timeout: 60_000 };

/** What the planner and the admin see of bays, weeks and settings. Nothing in them is stored. */
export function listPlanningPictures(depot: string, day: string, compared: readonly string[]): Picture[] {
  const as = 'planner' as const;
  const wide = { width: 1280, height: 820 };
  const chosen = compared.map(encodeURIComponent).join(',');
  return [
    { name: 'digest', address: '/digest', ...wide, as, ready: 'main li a' },
    { name: 'digest-phone', address: '/digest', width: 390, height: 844, as, ready: 'main li a' },
    { name: 'bay-plan', address: '/bay-plan', ...wide, as, ready: '[data-card]' },
    { name: 'bay-plan-phone', address: '/bay-plan', width: 390, height: 844, as, ready: '[data-card]' },
    {
      name: 'bay-plan-proposal',
      address: '/bay-plan?beside=plan',
      width: 1920,
      height: 1000,
      as,
      ready: 'form[aria-label="Propose a plan"]',
      act: propose,
    },
    {
      name: 'bay-plan-day',
      address: `/bay-plan?view=day&depot=${encodeURIComponent(depot)}&day=${day}`,
      width: 1280,
      height: 560,
      as,
      ready: 'main h1',
    },
    { name: 'list-compare', address: `/?compare=${chosen}`, ...wide, as, act: unfoldComparison },
    {
      name: 'settings-depots',
      address: '/settings/depots',
      width: 1280,
      height: 900,
      ready: 'main tbody tr',
      act: openDepot,
    },
    {
      name: 'settings-thresholds',
      address: '/settings/thresholds',
      width: 1280,
      height: 720,
      ready: 'main form',
      act: lowerHold,
    },
  ];
}

async function propose(page: Page): Promise<void> {
  await page.getByRole('button', { name: 'Propose', exact: true }).click(wait);
  await page.getByRole('region', { name: 'Proposed inspections' }).waitFor(wait);
}

async function unfoldComparison(page: Page): Promise<void> {
  const unfold = page.getByRole('button', { name: /^Compare/ });
  if ((await unfold.count()) > 0) await unfold.first().click();
  await page.locator('aside [data-chart="ready"] svg').first().waitFor(wait);
}

async function openDepot(page: Page): Promise<void> {
  await page.locator('main tbody button').first().click(wait);
  await page.waitForTimeout(500);
}

async function lowerHold(page: Page): Promise<void> {
  await page.getByLabel('Hold from a chance of, %').fill('10');
  await page
    .getByText(/change their grade|changes its grade/)
    .first()
    .waitFor(wait);
}
