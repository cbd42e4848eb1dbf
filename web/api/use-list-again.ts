import { useQueryClient } from '@tanstack/react-query';
import { digestKeys } from './use-digest.ts';
import { rankingKeys } from './use-ranking.ts';

/** The server ranks the fleet some seconds after a change of what it ranks by. */
const rankedAfterMs = 6_000;

/** Has what follows from the ranks asked again: at once, and when the fleet should be ranked anew. */
export function useListAgain(): () => void {
  const client = useQueryClient();
  return () => {
    const askAgain = () => {
      for (const queryKey of [rankingKeys.all, digestKeys.all, ['vehicle'], ['settings-preview']])
        void client.invalidateQueries({ queryKey });
    };
    askAgain();
    setTimeout(askAgain, rankedAfterMs);
  };
}
