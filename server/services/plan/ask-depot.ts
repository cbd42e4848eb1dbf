import type { DepotQuestion } from '#server/engine/planning/planning-model.ts';
import { type DepotRoom, isAway, type SortedVehicle } from './sort-vehicles.ts';

/** A question of one depot, with who its candidates are. */
export interface AskedDepot {
  room: DepotRoom;
  members: SortedVehicle[];
  question: DepotQuestion;
}

export function askDepot(room: DepotRoom, candidates: readonly SortedVehicle[]): AskedDepot {
  const members = candidates.filter(({ depot }) => depot === room);
  return {
    room,
    members,
    question: {
      days: room.room,
      candidates: members.map(({ row, grade, scales, quarters }) => ({
        hold: grade === 'hold',
        quarters,
        values: room.days.map(({ day }) => (isAway(row, day) ? null : scales.on(day).value)),
      })),
    },
  };
}
