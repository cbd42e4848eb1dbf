/** Storage cannot be had, for a reason that a person can act on: the message is one sentence or two, for them. */
export class StorageError extends Error {
  override name = 'StorageError';
}
