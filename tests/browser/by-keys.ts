import type { Locator, Page } from 'playwright-core';

/** Presses a button as somebody without a mouse does; it need not be enabled yet. */
export const press = (within: Page | Locator, name: string): Promise<void> =>
  within.getByRole('button', { name, exact: true }).press('Enter');

export const isFocused = (locator: Locator): Promise<boolean> =>
  locator.evaluate((element) => element === document.activeElement);
