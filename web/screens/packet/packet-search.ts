import { type TestStep, testSteps } from '#server/contract/words.ts';

/** State of a packet's screen that a link should carry. */
export interface PacketSearch {
  /** the test step that is open; the next one to do where left out */
  step?: TestStep;
}

export function parsePacketSearch(raw: Record<string, unknown>): PacketSearch {
  const step = testSteps.find((one) => one === raw.step);
  return step === undefined ? {} : { step };
}
