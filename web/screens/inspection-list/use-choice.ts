import { useState } from 'react';
import type { RankingRow } from '#server/contract/ranking.ts';
import { useUnitsOnDemand } from '#web/api/use-ranking.ts';
import { formatWhole } from '#web/format/format-number.ts';
import { searchBounds } from './list-search.ts';
import type { ListState } from './use-list-state.ts';

/** Choosing all that the filter shows, at once: the first thousand of more. */
export interface ChoiceOfAll {
  /** whether all of them are chosen */
  isFull: boolean;
  isBusy: boolean;
  error: unknown;
  /** what choosing all does, in words */
  words: string;
  chooseAll: () => void;
}

export function useChoice(state: ListState, rows: readonly RankingRow[], total: number): ChoiceOfAll {
  const askUnits = useUnitsOnDemand();
  const [isBusy, setBusy] = useState(false);
  const [error, setError] = useState<unknown>(null);
  const most = Math.min(total, searchBounds.mostChosen);
  const isFull =
    most > 0 &&
    state.chosen.length >= most &&
    rows.slice(0, most).every(({ vehicle }) => state.chosenSet.has(vehicle));
  const chooseAll = () => {
    setBusy(true);
    setError(null);
    askUnits(state.ask)
      .then(({ vehicles }) => state.choose(vehicles, true))
      .catch(setError)
      .finally(() => setBusy(false));
  };
  const words =
    total > searchBounds.mostChosen
      ? `Choose the first ${formatWhole(searchBounds.mostChosen)} of ${formatWhole(total)}`
      : `Choose all ${formatWhole(total)}`;
  return { isFull, isBusy, error, words, chooseAll };
}
