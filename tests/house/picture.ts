import type { Page } from 'playwright-core';
import type { Role } from '#server/contract/words.ts';

export interface Picture {
  name: string;
  address: string;
  width: number;
  height: number;
  ground?: 'dark';
  /** what the picture begins with; the top of the page unless said */
  from?: string;
  /** whose screen it is; an admin's unless said, null for nobody's */
  as?: Role | null;
  /** what must stand before the picture is taken, where it is neither chart nor row */
  ready?: string;
  /** what is done on the page before the picture is taken */
  act?: (page: Page) => Promise<void>;
}
