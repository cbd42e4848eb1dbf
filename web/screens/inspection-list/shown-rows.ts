import type { VirtualItem } from '@tanstack/react-virtual';
import type { RankingRow } from '#server/contract/ranking.ts';
import type { FleetNames } from '#web/api/use-fleet-names.ts';
import type { ChoiceOfAll } from './use-choice.ts';
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
  all: ChoiceOfAll;
  /** null for who has nothing to compare or to book */
  onChoose: Choose | null;
  measure: (element: Element | null) => void;
  spaceBefore: number;
  spaceAfter: number;
}

/** Ticks a row or takes its tick away; with Shift, all rows from the one before it. */
export type Choose = (index: number, withShift: boolean) => void;

export interface RowProps {
  row: RankingRow;
  index: number;
  horizonKm: number;
  scaleKm: number;
  names: FleetNames;
  isOpen: boolean;
  isChosen: boolean;
  canChoose: boolean;
  /** where it stood a week ago is the planner's question, not the shop's */
  showsChange: boolean;
  /** the next one down by rank; undefined where the list is in another order, or ends */
  next: string | undefined;
  measure: (element: Element | null) => void;
  onToggle: (vehicle: string) => void;
  onChoose: Choose | null;
}
