import { MutationCache, QueryCache, QueryClient } from '@tanstack/react-query';
import { ProblemError } from './problem-error.ts';
import { noteRefusal } from './session.ts';

/** A refusal will not change by asking again; an answer that never came might. */
const worthAskingAgain = (error: unknown): boolean =>
  error instanceof ProblemError && (error.status === 0 || error.status === 503);

export function createQueryClient(): QueryClient {
  const onError = (error: unknown) => noteRefusal(client, error);
  const client = new QueryClient({
    queryCache: new QueryCache({ onError }),
    mutationCache: new MutationCache({ onError }),
    defaultOptions: {
      queries: {
        staleTime: 60_000,
        gcTime: 10 * 60_000,
        retry: (count, error) => count < 2 && worthAskingAgain(error),
        retryDelay: (attempt) => 500 * 2 ** attempt,
      },
    },
  });
  return client;
}
