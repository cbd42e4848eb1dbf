/** What a converter costs, in the fleet's own currency. */
export interface ConverterCosts {
  price: number | null;
  /** held by the supplier until the old unit comes back */
  coreDeposit: number | null;
  /** old units at hand that can go back in its place */
  spareCores: number;
}

/**
 * Cost of cutting the old converter open.
 *
 * A unit that was cut open is no core any more: the deposit is lost, unless a spare core goes back in its place.
 *
 * @param costs what is known of the part, in the fleet's own currency
 * @returns the deposit; 0 with a spare core at hand; null where the deposit is not known
 * Source: common practice, no source. Edges: the price does not enter. Errors: none.
 * @example costOfCutting({ price: 1800, coreDeposit: 400, spareCores: 0 }) // 400
 */
export function costOfCutting(costs: ConverterCosts): number | null {
  return costs.spareCores > 0 ? 0 : costs.coreDeposit;
}
