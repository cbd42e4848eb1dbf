import type { PartGuide } from '#server/contract/packets.ts';
import { exactWords } from '#server/services/words/figures-apart.ts';

type Guide = Omit<PartGuide, 'words'>;

/** What a converter costs here, and what cutting the old one open would; sums in the fleet's own currency. */
export function partGuideWords(guide: Guide): string {
  return `${priceWords(guide)} ${cuttingWords(guide)}`;
}

function priceWords({ price, core_deposit }: Guide): string {
  if (price === null) return 'What a converter costs here is not known yet.';
  if (core_deposit === null)
    return `A converter costs ${exactWords(price)}; the core deposit is not known yet.`;
  return core_deposit === 0
    ? `A converter costs ${exactWords(price)}, and no core deposit is held.`
    : `A converter costs ${exactWords(price)}, and ${exactWords(core_deposit)} are held until the old unit comes back.`;
}

function cuttingWords({ cutting_costs, spare_cores }: Guide): string {
  if (cutting_costs === null)
    return 'A unit that was cut open is usually not taken back: ask for the deposit before cutting.';
  if (cutting_costs > 0)
    return `Cutting the old one open costs that deposit of ${exactWords(cutting_costs)}: a unit that was cut open is usually not taken back.`;
  return spare_cores > 0
    ? `Cutting the old one open costs nothing: ${spare_cores === 1 ? 'a spare core is' : `${spare_cores} spare cores are`} at hand to go back in its place.`
    : 'Cutting the old one open costs nothing.';
}
