import type { VirtualItem } from '@tanstack/react-virtual';
import type { RankingRow } from '#server/contract/ranking.ts';
import type { FleetNames } from '#web/api/use-fleet-names.ts';
import type { ListState } from './use-list-state.ts';

/** What the table and the cards draw: the rows in sight, and the space that the others take. */
export interface ShownRows {
  rows: readonly RankingRow[];
  total: number;
  items: readonly VirtualItem[];
  horizonKm: number;
  scaleKm: number;
  state: ListState;
  names: FleetNames;
  measure: (element: Element | null) => void;
  spaceBefore: number;
  spaceAfter: number;
}

export interface RowProps {
  row: RankingRow;
  index: number;
  horizonKm: number;
  scaleKm: number;
  names: FleetNames;
  isOpen: boolean;
  isCompared: boolean;
  canCompare: boolean;
  measure: (element: Element | null) => void;
  onToggle: (vehicle: string) => void;
  onCompare: (vehicle: string) => void;
}
