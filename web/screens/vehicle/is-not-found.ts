import { ProblemError } from '#web/api/problem-error.ts';

export const isNotFound = (error: unknown): boolean =>
  error instanceof ProblemError && (error.status === 404 || error.code === 'not_found');
