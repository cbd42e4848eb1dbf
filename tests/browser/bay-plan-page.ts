import type { Locator, Page } from 'playwright-core';
import type { Booking } from '#server/contract/bookings.ts';

/** The card of a booking in the grid. */
export const cardOf = (page: Page, { id }: Pick<Booking, 'id'>): Locator =>
  page.getByRole('grid').locator(`[data-card="b${id}"]`);

/** What is open beside the grid. */
export const marginOf = (page: Page): Locator => page.getByRole('complementary');
