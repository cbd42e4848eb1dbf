import type { PartGuide } from '#server/contract/packets.ts';

const money = (value: number) => value.toLocaleString('en-US', { maximumFractionDigits: 2 });

/** What a converter costs here, and what it would cost to cut the old one open. */
export function partGuideWords(guide: Omit<PartGuide, 'words'>): string {
  const supplier = guide.supplier === null ? '' : ` from ${guide.supplier}`;
  const price =
    guide.price === null
      ? 'What a converter costs here is not known yet.'
      : `A converter${supplier} costs ${money(guide.price)}${guide.core_deposit === null ? '' : `, and ${money(guide.core_deposit)} are held until the old unit comes back`}.`;
  return `${price} ${cuttingWords(guide)}`;
}

function cuttingWords({ cutting_costs, spare_cores }: Omit<PartGuide, 'words'>): string {
  if (cutting_costs === null)
    return 'Ask for the core deposit before the old unit is cut open: a cut one is not taken back.';
  if (cutting_costs === 0 && spare_cores > 0)
    return `Cutting the old one open costs nothing: ${spare_cores === 1 ? 'a spare core' : `${spare_cores} spare cores`} at hand can go back instead.`;
  return cutting_costs === 0
    ? 'Cutting the old one open costs nothing: no deposit is held.'
    : `Cutting the old one open costs the deposit of ${money(cutting_costs)}, unless another core goes back.`;
}
