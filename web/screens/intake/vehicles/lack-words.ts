import type { VehicleLack } from '#server/contract/words.ts';

export const lackWords: Record<VehicleLack, string> = {
  registered: 'known from readings alone',
  depot: 'no depot',
  platform: 'no platform',
  vin: 'VIN in doubt',
};
