import { ProblemError } from '#web/api/problem-error.ts';
import { useUnitsLike } from '#web/api/use-ranking.ts';
import { useVehicle } from '#web/api/use-vehicle.ts';
import { useRested } from '#web/ui/use-rested.ts';

/** The vehicle that somebody means by what they type, whatever the case of its letters. */
export function useTypedVehicle(typed: string) {
  const text = useRested(typed);
  const like = useUnitsLike(text);
  const unit = text === typed ? findUnit(like.data?.vehicles ?? [], text) : typed;
  const isAsked = text !== '' && text === typed && !like.isPending;
  const { data, error } = useVehicle(unit, isAsked);
  return {
    unit,
    detail: isAsked ? data : undefined,
    isAwaited: typed !== '' && (!isAsked || (data === undefined && error === null)),
    isUnknown: isAsked && error instanceof ProblemError && error.code === 'not_found',
  };
}

function findUnit(units: readonly string[], text: string): string {
  const isSame = (unit: string) => unit.toLowerCase() === text.toLowerCase();
  return units.includes(text) ? text : (units.find(isSame) ?? text);
}
