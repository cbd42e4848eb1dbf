const TURNS = 5;

/** SQLSTATE of an exclusion or a unique index that stood against a change, and of a circle of locks. */
const COLLISIONS = new Set(['23P01', '23505', '40P01']);

/**
 * Runs a transaction again where another one was first: the next turn sees what is in the way, and says it or goes round.
 */
export async function runAgain<T>(work: () => Promise<T>): Promise<T> {
  for (let turn = 1; ; turn += 1)
    try {
      return await work();
    } catch (error) {
      if (turn === TURNS || !isCollision(error)) throw error;
    }
}

function isCollision(error: unknown): boolean {
  for (let at = error, depth = 0; at instanceof Error && depth < 5; at = at.cause, depth += 1) {
    const { code } = at as { code?: unknown };
    if (typeof code === 'string' && COLLISIONS.has(code)) return true;
  }
  return false;
}
