import type { BandContext, PlatformContext } from './platform-context.ts';
import { unknownBand } from './unknown-band.ts';

/**
 * What a platform's vehicles have in common within one band, assumed where nothing was learned of it.
 *
 * @param context learned from the platform
 * @param band    number of the band
 * @returns context of the band
 * Source: own definition. Edges: a band that was not learned is {@link unknownBand}. Errors: none.
 * @example findBandContext(unknownPlatform, 2).movement // []
 */
export function findBandContext(context: Pick<PlatformContext, 'bands'>, band: number): BandContext {
  return context.bands.find((one) => one.band === band) ?? unknownBand(band);
}
