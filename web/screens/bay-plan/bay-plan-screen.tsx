import { useEffect } from 'react';
import { DayView } from './day-view.tsx';
import { PlanView } from './plan-view.tsx';
import { useBayPlanState } from './use-bay-plan-state.ts';

/** Which vehicle comes into which bay on which day; or one depot's day, to be printed. */
export function BayPlanScreen() {
  const state = useBayPlanState();
  useEffect(() => {
    document.title = 'Bay plan · Slipdrift';
  }, []);
  return state.search.view === 'day' ? <DayView state={state} /> : <PlanView state={state} />;
}
