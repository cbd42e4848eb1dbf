import type { RandomSource } from './random-source.ts';

/** For each day of a vehicle, how many days later its readings arrive: gateways without network keep them. */
export function drawDelays(days: number, random: RandomSource): Uint8Array {
  const delays = new Uint8Array(days);
  for (let day = 0; day < days; day++) {
    if (random.happens(1 / 320)) {
      const length = Math.min(days - day, random.happens(0.3) ? random.whole(8, 24) : random.whole(2, 7));
      for (let i = 0; i < length; i++) delays[day + i] = length - i;
      day += length;
    } else if (random.happens(0.01)) {
      delays[day] = random.whole(1, 20);
    }
  }
  return delays;
}
