/** A step that is found anew with late readings may lie a little elsewhere: its answer still is its answer. */
const NEAR_MS = 86_400_000;

/**
 * Gives each step of a vehicle's odometer the answer that is nearest, within a day, each answer to one step only: two
 * steps within a day, out and back, are two questions.
 */
export function matchAnswers<S extends { at: Date }, A extends { at: Date }>(
  steps: readonly S[],
  answers: readonly A[],
): Map<S, A> {
  const pairs = steps
    .flatMap((step) =>
      answers.map((answer) => ({ step, answer, apartMs: Math.abs(step.at.getTime() - answer.at.getTime()) })),
    )
    .filter(({ apartMs }) => apartMs <= NEAR_MS)
    .sort((a, b) => a.apartMs - b.apartMs);
  const matched = new Map<S, A>();
  const taken = new Set<A>();
  for (const { step, answer } of pairs) {
    if (matched.has(step) || taken.has(answer)) continue;
    matched.set(step, answer);
    taken.add(answer);
  }
  return matched;
}
