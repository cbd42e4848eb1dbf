import type { Atlas } from '#server/contract/atlas.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { formatPercent } from '#web/format/format-percent.ts';
import { formatRpm } from '#web/format/format-rpm.ts';
import { withUnit } from '#web/format/with-unit.ts';

/** Where the one on top lies, or how wide the platform spreads, in a sentence. */
export function sayAtlas(atlas: Atlas, vehicle: string | null): string {
  if (atlas.stretches === 0)
    return atlas.to === null
      ? `No readings of ${atlas.platform.name} have come yet.`
      : `No reading of ${atlas.platform.name} in this period could be compared.`;
  if (vehicle !== null) return sayVehicle(atlas, vehicle);
  const widest = atlas.by_command.quantiles.toSorted((a, b) => b.n - a.n)[0];
  if (widest === undefined) return '';
  const step = stepOf(atlas.by_command.x_edges);
  const [from, to] = [widest.x - step / 2, widest.x + step / 2].map(formatWhole);
  const at = withUnit(`${from} to ${to}`, '%');
  return `At ${at} command, where most readings are, half of all slip lies between ${formatWhole(widest.p25)} and ${formatRpm(widest.p75)}, and one reading in twenty above ${formatRpm(widest.p95)}.`;
}

function sayVehicle({ standing, by_command: { vehicle: own } }: Atlas, vehicle: string): string {
  if (own === null || own.length === 0)
    return `Vehicle ${vehicle} has no reading in this period that could be compared.`;
  if (standing === null) return `Vehicle ${vehicle} has no others to compare with in this period.`;
  const { from_pct, to_pct, slip_rpm, middle_rpm, share_below } = standing;
  const where = `at ${withUnit(`${formatWhole(from_pct)} to ${formatWhole(to_pct)}`, '%')} command`;
  const against = `${formatRpm(slip_rpm)} lately, the middle of the others is ${formatRpm(middle_rpm)}`;
  if (share_below === 1)
    return `Vehicle ${vehicle} lies above all others of its platform ${where}: ${against}.`;
  if (share_below >= 0.6)
    return `Vehicle ${vehicle} lies above ${shareOf(share_below)} of its platform ${where}: ${against}.`;
  if (share_below <= 0.4)
    return `Vehicle ${vehicle} lies below ${shareOf(1 - share_below)} of its platform ${where}: ${against}.`;
  return `Vehicle ${vehicle} lies in the middle of its platform ${where}: ${against}.`;
}

const shareOf = (share: number): string => formatPercent(share).replace(/^>\s/, 'more than ');

const stepOf = (edges: readonly number[]): number => (edges[1] ?? 0) - (edges[0] ?? 0);

/** How much stands behind the picture. */
export function sayBasis({ vehicles, stretches }: Atlas): string {
  const of = vehicles === 1 ? '1 vehicle' : `${formatWhole(vehicles)} vehicles`;
  const from = stretches === 1 ? '1 stretch' : `${formatWhole(stretches)} stretches`;
  return `From ${from} of ${of}. Each usable reading counts at the slip and the conditions of its stretch, as measured: what the platform did together is not taken out here. The deeper the tone, the more readings; below a line lie so many of them.`;
}
