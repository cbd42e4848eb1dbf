import { noAnswer, readProblem } from './problem-error.ts';

/** One call under /api. Who asks is in the session's cookie, which the browser sends by itself. */
export async function askServer(address: string, request: RequestInit): Promise<Response> {
  const response = await fetch(`/api${address}`, request).catch((error: unknown) => {
    if (request.signal?.aborted) throw error;
    throw noAnswer();
  });
  if (!response.ok) throw await readProblem(response);
  return response;
}
