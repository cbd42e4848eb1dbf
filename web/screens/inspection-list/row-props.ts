import type { RankingRow } from '#server/contract/ranking.ts';
import { mostCompared } from './list-search.ts';
import type { RowProps, ShownRows } from './shown-rows.ts';

export function rowProps(shown: ShownRows, row: RankingRow, index: number): RowProps {
  const { state } = shown;
  const isCompared = state.compared.includes(row.vehicle);
  return {
    row,
    index,
    horizonKm: shown.horizonKm,
    scaleKm: shown.scaleKm,
    names: shown.names,
    isOpen: state.search.open === row.vehicle,
    isCompared,
    canCompare: isCompared || state.compared.length < mostCompared,
    measure: shown.measure,
    onToggle: state.toggleOpen,
    onCompare: state.toggleCompared,
  };
}
