/** What the server said about one field of a refused form. */
export function findFieldError(error: unknown, field: string): string | undefined {
  if (typeof error !== 'object' || error === null || !('errors' in error) || !Array.isArray(error.errors))
    return undefined;
  const found: unknown = error.errors.find((one) => one?.field === field);
  if (typeof found !== 'object' || found === null || !('message' in found)) return undefined;
  return typeof found.message === 'string' ? found.message : undefined;
}
