import { findLastConverter } from '#db/queries/list-packets.ts';
import type { platforms } from '#db/schema/fleet.ts';
import type { PartGuide } from '#server/contract/packets.ts';
import { costOfCutting } from '#server/engine/diagnosis/cost-of-cutting.ts';
import type { Context } from '#server/services/context.ts';
import { dayWords } from '#server/services/words/day-words.ts';
import { partGuideWords } from './part-guide-words.ts';
import type { StoredReport } from './stored-packet.ts';

/** What a converter of a platform costs here: as its settings say, else as it was last bought. */
export async function guideParts(
  ctx: Context,
  platform: typeof platforms.$inferSelect | null,
): Promise<PartGuide> {
  // What somebody else asked for the last one is no business of a shop outside.
  const isOutside = ctx.actor.link !== null;
  const bought = platform === null || isOutside ? null : await findLastConverter(ctx.db, platform.id);
  const part = (bought?.report as StoredReport | undefined)?.parts.find(
    ({ kind, price }) => kind === 'converter' && price !== null,
  );
  const set = platform?.converter ?? null;
  const price = set?.price ?? part?.price ?? null;
  const coreDeposit = set?.core_deposit ?? part?.core_deposit ?? null;
  const spareCores = set?.spare_cores ?? 0;
  const cuttingCosts = costOfCutting({ price, coreDeposit, spareCores });
  const when = bought?.closedAt == null ? '' : ` (${dayWords(bought.closedAt.getTime())})`;
  const guide = {
    price,
    core_deposit: coreDeposit,
    supplier: part === undefined || part.supplier === '' ? null : part.supplier,
    spare_cores: spareCores,
    known_from:
      set !== null
        ? 'settings of the platform'
        : part === undefined
          ? null
          : `last one bought for this platform${when}`,
    cutting_costs: cuttingCosts,
  };
  return { ...guide, words: partGuideWords(guide) };
}
