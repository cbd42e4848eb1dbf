import type { Browser, Page } from 'playwright-core';
import type { Role } from '#server/contract/words.ts';
import { plainEnd } from '#tests/helpers/send-plain-fleet.ts';
import { signInPage } from '#tests/helpers/sign-in.ts';
import type { TestApp } from '#tests/helpers/start-app.ts';
import { newPage } from './new-page.ts';

interface Options {
  width?: number;
  colorScheme?: 'light' | 'dark';
  as?: Role;
  now?: Date;
  timezoneId?: string;
}

/** A page of the screens as the server serves them, at the end of the plain fleet or another time; what it complains of is collected. */
export async function openServed(
  browser: Browser,
  app: TestApp,
  path: string,
  { width = 1280, colorScheme = 'light', as = 'admin', now = plainEnd, timezoneId = 'UTC' }: Options = {},
): Promise<{ page: Page; complaints: string[] }> {
  const page = await newPage(browser, {
    viewport: { width, height: 900 },
    colorScheme,
    hasTouch: width < 500,
    timezoneId,
  });
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.clock.setFixedTime(now);
  await signInPage(page, app, as);
  await page.goto(app.url + path);
  return { page, complaints };
}

/** Lets calls of an address wait until it is told to go on. */
export async function holdBack(page: Page, address: string): Promise<() => void> {
  let goOn = () => {};
  const held = new Promise<void>((resolve) => {
    goOn = resolve;
  });
  await page.route(address, async (route) => {
    await held;
    await route.continue();
  });
  return goOn;
}
