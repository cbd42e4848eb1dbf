import { problem } from '#server/contract/problems.ts';
import { hold } from './fuzz.ts';
import { INSIDE } from './read-body.ts';

/** Too much at once is an answer, and so is a path that is no call but an address of the screens. */
const ALLOWED_ABOVE_500 = new Set([503]);

export interface Answer {
  status: number;
  text: string;
}

/** Reads an answer. What went wrong is never the server's own fault, and is a problem document that tells nothing of the inside. */
export async function holdAnswer(response: Response, asked: string): Promise<Answer> {
  const text = await response.text();
  const { status } = response;
  const said = () => `${asked} was answered ${status}: ${text.slice(0, 500)}`;
  hold(status < 500 || ALLOWED_ABOVE_500.has(status), said);
  if (status < 400) return { status, text };
  const type = response.headers.get('content-type') ?? '';
  hold(type.startsWith('application/problem+json'), said);
  const parsed = problem.safeParse(JSON.parse(text));
  hold(parsed.success && parsed.data.status === status && parsed.data.detail.length > 10, said);
  hold(!INSIDE.test(text), said);
  return { status, text };
}
