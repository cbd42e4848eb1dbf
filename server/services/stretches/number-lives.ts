/** What the number of a life depends on. */
export interface LifeSpan {
  fittedKm: number;
  removedKm: number | null;
}

/**
 * Numbers the lives of one vehicle by mileage: registered lives count from 1 in order, kilometres before the first
 * are life 0, kilometres after a removal that no fitting followed are the next number. With no life registered
 * everything is life 1.
 */
export function numberLives(lives: readonly LifeSpan[]): (odometerKm: number) => number {
  const inOrder = [...lives].sort((a, b) => a.fittedKm - b.fittedKm);
  if (inOrder.length === 0) return () => 1;
  return (km) => {
    let number = 0;
    for (const life of inOrder) if (km >= life.fittedKm) number++;
    const removedKm = inOrder[number - 1]?.removedKm ?? null;
    return removedKm !== null && km >= removedKm ? number + 1 : number;
  };
}
