import { type PacketState, packetStates } from '#server/contract/words.ts';

/** What the list of packets shows; both states where none is named. */
export interface PacketsSearch {
  state?: PacketState;
  /** packets of one vehicle alone */
  vehicle?: string;
}

const longestUnit = 64;

export function parsePacketsSearch(raw: Record<string, unknown>): PacketsSearch {
  const state = packetStates.find((one) => one === raw.state);
  const vehicle = typeof raw.vehicle === 'string' ? raw.vehicle.trim() : '';
  return {
    ...(state === undefined ? {} : { state }),
    ...(vehicle === '' || vehicle.length > longestUnit ? {} : { vehicle }),
  };
}
