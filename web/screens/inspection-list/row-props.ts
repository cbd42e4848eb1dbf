import type { RankingRow } from '#server/contract/ranking.ts';
import { searchBounds } from './list-search.ts';
import type { RowProps, ShownRows } from './shown-rows.ts';

export function rowProps(shown: ShownRows, row: RankingRow, index: number): RowProps {
  const { state } = shown;
  const isChosen = state.chosenSet.has(row.vehicle);
  return {
    row,
    index,
    horizonKm: shown.horizonKm,
    scaleKm: shown.scaleKm,
    names: shown.names,
    isOpen: state.search.open === row.vehicle,
    isChosen,
    canChoose: isChosen || state.chosen.length < searchBounds.mostChosen,
    showsChange: shown.onChoose !== null,
    next: state.search.sort === undefined ? shown.rows[index + 1]?.vehicle : undefined,
    measure: shown.measure,
    onToggle: state.toggleOpen,
    onChoose: shown.onChoose,
  };
}
