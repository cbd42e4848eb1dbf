import type { Packet } from '#server/contract/packets.ts';
import type { Units } from '#web/format/units.ts';
import type { PaperPage } from './paper-page.ts';
import type { Clock } from './say-time.ts';

/** What every part of the pages is written with. */
export interface Paper {
  packet: Packet;
  units: Units;
  clock: Clock;
  page: PaperPage;
}
