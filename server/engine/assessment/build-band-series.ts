import { findBandContext } from '#server/engine/platform/find-band-context.ts';
import type { PlatformContext, PlatformSettings } from '#server/engine/platform/platform-context.ts';
import { REFERENCE_BAND } from '#server/engine/stretches/band-of.ts';
import type { StretchRow } from '#server/engine/stretches/stretch-row.ts';
import { buildSeries, type Series } from './build-series.ts';

/**
 * All series of one vehicle: at the reference point, then of each command band.
 *
 * @param stretches of one vehicle, all bands, in any order
 * @param settings  of its platform: the point, and the edges of the bands
 * @param context   learned from its platform
 * @returns series, the one at the reference point first, then by number of the band
 * Source: {@link buildSeries} for each. Edges: a band without stretches has no points; stretches of a band that the
 * settings do not have are left out. Errors: none.
 * @example buildBandSeries([], settings, unknownPlatform).length // 5 with four command bands
 */
export function buildBandSeries(
  stretches: readonly StretchRow[],
  settings: Pick<PlatformSettings, 'bandEdgesPct' | 'reference'>,
  context: Pick<PlatformContext, 'bands'>,
): [reference: Series, ...commands: Series[]] {
  const reference: StretchRow[] = [];
  const commands = settings.bandEdgesPct.slice(1).map((): StretchRow[] => []);
  for (const row of stretches) (row.band === REFERENCE_BAND ? reference : commands[row.band])?.push(row);
  const build = (rows: readonly StretchRow[], band: number) =>
    buildSeries(rows, findBandContext(context, band), settings.reference);
  return [build(reference, REFERENCE_BAND), ...commands.map(build)];
}
