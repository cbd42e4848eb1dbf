import { useMemo } from 'react';
import type { Units } from '#web/format/units.ts';
import { createKeptChoice } from './kept-choice.ts';

export const distanceChoice = createKeptChoice('slipdrift.distance', ['km', 'mi']);
export const temperatureChoice = createKeptChoice('slipdrift.temperature', ['C', 'F']);

export function useUnits(): Units {
  const distance = distanceChoice.use();
  const temperature = temperatureChoice.use();
  return useMemo(() => ({ distance, temperature }), [distance, temperature]);
}
